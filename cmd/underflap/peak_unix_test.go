//go:build unix

package main

import (
	"os"
	"runtime"
	"syscall"
	"time"
)

// processorTime is what this process has used of processors.
func processorTime() time.Duration {
	var use syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &use); err != nil {
		panic(err)
	}
	return time.Duration(use.Utime.Nano() + use.Stime.Nano())
}

// peak is how many bytes of memory a process had at once.
func peak(p *os.ProcessState) int64 {
	use := p.SysUsage().(*syscall.Rusage)
	if runtime.GOOS == "darwin" { // bytes there, kilobytes elsewhere
		return int64(use.Maxrss)
	}
	return int64(use.Maxrss) << 10
}
