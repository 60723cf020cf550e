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

// BenchmarkOccasionMemory makes 40 and 400 varied sheets into one PDF: "MiB-40" and
// "MiB-400" are the greatest heaps, sampled every 5 ms, with what the collector had
// not yet taken away; "KiB/sheet" is what each sheet more leaves in use after it.
func BenchmarkOccasionMemory(b *testing.B) {
	for range b.N {
		peak, live := map[int]uint64{}, map[int]uint64{}
		for _, sheets := range []int{40, 400} {
			o := settled(b, many(sheets), Wish{})
			runtime.GC()
			stop, done := make(chan bool), make(chan bool)
			go func() {
				defer close(done)
				for {
					peak[sheets] = max(peak[sheets], heap().HeapInuse)
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
			runtime.GC()
			live[sheets] = heap().HeapAlloc
			runtime.KeepAlive(o)
		}
		b.ReportMetric(float64(peak[40])/(1<<20), "MiB-40")
		b.ReportMetric(float64(peak[400])/(1<<20), "MiB-400")
		b.ReportMetric((float64(live[400])-float64(live[40]))/360/1024, "KiB/sheet")
	}
	b.ReportMetric(0, "ns/op")
}

func heap() (m runtime.MemStats) {
	runtime.ReadMemStats(&m)
	return m
}

// A sheet that is made leaves nothing behind but where its liners lie: a drawn page,
// or its file of some 30 KiB, would show.
func TestSheetsAreDropped(t *testing.T) {
	live := map[int]int64{}
	for _, sheets := range []int{5, 35} {
		o := settled(t, many(sheets), Wish{})
		if _, err := o.Fill(t.Context(), filepath.Join(t.TempDir(), "fair"), Part{}, true); err != nil {
			t.Fatal(err)
		}
		for range 2 { // what pools keep goes with the second (sync.Pool)
			runtime.GC()
		}
		live[sheets] = int64(heap().HeapAlloc)
		runtime.KeepAlive(o)
	}
	if more := (live[35] - live[5]) / 30; more > 16<<10 {
		t.Errorf("%d bytes a sheet stay in use", more)
	}
}
