//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package request

import (
	"os"
	"syscall"
)

// lock marks a file as being written for as long as it is open: however the program
// ends, the system takes the mark away. Where a disc has no locks nothing is
// marked, and nothing ever swept.
func lock(f *os.File) { _ = flock(f, syscall.LOCK_EX) }

// removeUnlocked removes an ordinary file unless somebody is writing it.
func removeUnlocked(path string) {
	f, err := os.OpenFile(path, os.O_RDONLY|syscall.O_NOFOLLOW|syscall.O_NONBLOCK, 0)
	if err != nil {
		return
	}
	defer f.Close()
	if info, err := f.Stat(); err != nil || !info.Mode().IsRegular() || flock(f, syscall.LOCK_EX|syscall.LOCK_NB) != nil {
		return
	}
	os.Remove(path)
}

func flock(f *os.File, how int) error { return syscall.Flock(int(f.Fd()), how) }

// place renames before it closes, so that the file is marked until it has its name.
func place(f *os.File, target string) error {
	if err := os.Rename(f.Name(), target); err != nil {
		return err
	}
	return f.Close() // all of it is on the disc already
}
