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

// BenchmarkOccasion makes 40 sheets, no two alike, into a folder. "pages/s" with one
// and with two workers (GOMAXPROCS), "x-cores" how many times as many two make: no
// more than there are free cores. "x-resumed" is the part of the time of a whole run
// that one takes which finds every sheet there.
func BenchmarkOccasion(b *testing.B) {
	const sheets = 40
	o := settled(b, many(sheets), Wish{})
	took := map[int]time.Duration{}
	var resumed time.Duration
	for round := range b.N {
		for _, cores := range []int{1, 2} {
			was := runtime.GOMAXPROCS(cores)
			dir := filepath.Join(b.TempDir(), fmt.Sprint(round, cores))
			start := time.Now()
			if _, err := o.Fill(b.Context(), dir, Part{}, true); err != nil {
				b.Fatal(err)
			}
			took[cores] += time.Since(start)
			start = time.Now()
			if f, err := o.Fill(b.Context(), dir, Part{}, true); err != nil || f.Made != 0 {
				b.Fatal(f, err)
			}
			if cores == 2 {
				resumed += time.Since(start)
			}
			runtime.GOMAXPROCS(was)
			if err := os.RemoveAll(dir); err != nil {
				b.Fatal(err)
			}
		}
	}
	made := float64(sheets * b.N)
	b.ReportMetric(made/took[1].Seconds(), "pages/s-1")
	b.ReportMetric(made/took[2].Seconds(), "pages/s-2")
	b.ReportMetric(took[1].Seconds()/took[2].Seconds(), "x-cores")
	b.ReportMetric(resumed.Seconds()/took[2].Seconds(), "x-resumed")
	b.ReportMetric(0, "ns/op")
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
