package occasion

import (
	"os"
	"runtime"
	"runtime/debug"
	"sync"
)

// How much garbage may wait for each byte in use while sheets are made, in percent,
// and how many bytes that comes to at most. A sheet leaves much behind and little in
// use: at Go's usual 100 percent two cores spend most of what they gain on
// collecting, and at 400 they make about half as many sheets more.
const (
	mostGarbage      = 400
	mostGarbageBytes = 256 << 20
)

// collecting counts who makes sheets, and has the percentage from before.
var collecting struct {
	sync.Mutex
	makers, before int
}

// collectLess lets more garbage wait until what it gives is called. Who says
// otherwise by GOGC is heeded.
func collectLess() (done func()) {
	if os.Getenv("GOGC") != "" {
		return func() {}
	}
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	percent := min(mostGarbage, max(100, int(100*mostGarbageBytes/(m.HeapAlloc+1))))
	c := &collecting
	c.Lock()
	defer c.Unlock()
	if c.makers++; c.makers == 1 {
		c.before = debug.SetGCPercent(percent)
	}
	return func() {
		c.Lock()
		defer c.Unlock()
		if c.makers--; c.makers == 0 {
			debug.SetGCPercent(c.before)
		}
	}
}
