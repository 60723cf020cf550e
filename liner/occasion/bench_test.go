package occasion

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"
)

// many is an occasion of so many varied sheets, one liner on each.
func many(sheets int) string {
	return fmt.Sprintf("title = 'Winter fair'\nvary = true\npattern = 'leaves'\nenvelope = 'c6'\nper-sheet = 1\ncount = %d\n", sheets)
}

// BenchmarkOccasion makes 40 sheets, no two alike, into a folder, with as many
// workers as there are cores (go test -cpu 1,2): "pages/s". "x-resumed" is the part
// of that time that a run takes which finds every sheet there.
func BenchmarkOccasion(b *testing.B) {
	const sheets = 40
	o := settled(b, many(sheets), Wish{})
	var whole, resumed time.Duration
	for round := range b.N {
		dir := filepath.Join(b.TempDir(), fmt.Sprint(round))
		start := time.Now()
		if _, err := o.Fill(b.Context(), dir, Part{}, true); err != nil {
			b.Fatal(err)
		}
		whole += time.Since(start)
		start = time.Now()
		if f, err := o.Fill(b.Context(), dir, Part{}, true); err != nil || f.Made != 0 {
			b.Fatal(f, err)
		}
		resumed += time.Since(start)
		if err := os.RemoveAll(dir); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(sheets*b.N)/whole.Seconds(), "pages/s")
	b.ReportMetric(resumed.Seconds()/whole.Seconds(), "x-resumed")
}

// BenchmarkOccasionMemory is the greatest heap while 40 and while 400 varied sheets
// are made into one PDF, sampled every 5 ms: it should not grow with the sheets.
func BenchmarkOccasionMemory(b *testing.B) {
	for range b.N {
		peak := map[int]uint64{}
		for _, sheets := range []int{40, 400} {
			o := settled(b, many(sheets), Wish{})
			runtime.GC()
			stop, done := make(chan bool), make(chan bool)
			go func() {
				defer close(done)
				for {
					var m runtime.MemStats
					runtime.ReadMemStats(&m)
					peak[sheets] = max(peak[sheets], m.HeapInuse)
					select {
					case <-stop:
						return
					case <-time.After(5 * time.Millisecond):
					}
				}
			}()
			if _, err := o.Book(b.Context(), filepath.Join(b.TempDir(), "fair.pdf")); err != nil {
				b.Fatal(err)
			}
			close(stop)
			<-done
		}
		b.ReportMetric(float64(peak[40])/(1<<20), "MiB-40")
		b.ReportMetric(float64(peak[400])/(1<<20), "MiB-400")
		b.ReportMetric(float64(peak[400])/float64(peak[40]), "x-growth")
	}
	b.ReportMetric(0, "ns/op")
}
