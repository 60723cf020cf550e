//go:build unix

package main

import (
	"os"
	"runtime"
	"syscall"
)

// peak is how many bytes of memory a process had at once.
func peak(p *os.ProcessState) int64 {
	use := p.SysUsage().(*syscall.Rusage)
	if runtime.GOOS == "darwin" { // bytes there, kilobytes elsewhere
		return int64(use.Maxrss)
	}
	return int64(use.Maxrss) << 10
}
