//go:build !(darwin || dragonfly || freebsd || linux || netbsd || openbsd)

package request

import (
	"os"
	"runtime"
)

// lock has nothing to do: see removeUnlocked.
func lock(*os.File) {}

// removeUnlocked removes a file unless somebody is writing it: Windows removes none
// that is open.
func removeUnlocked(path string) {
	if runtime.GOOS == "windows" {
		os.Remove(path)
	}
}

// place closes before it renames: Windows renames no file that is open.
func place(f *os.File, target string) error {
	if err := f.Close(); err != nil {
		return err
	}
	return os.Rename(f.Name(), target)
}
