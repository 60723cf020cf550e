//go:build unix

package request

import (
	"context"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"underflap/pattern/draw"
)

// BenchmarkRace lets us and three general-purpose programs make one A4 page as a
// PNG file at 600 dots per inch: librsvg from our SVG, MuPDF and Ghostscript from
// our PDF. Each is a process of its own and starts from nothing; ours plans the
// sheet and draws its pattern too. Of every program the quickest round counts,
// and rounds take turns, so that a busy machine is busy for all.
//
// "x-fastest" 0.1 is a tenth of the time of the fastest of the three, and
// "cpu-fastest" 0.2 a fifth of the processor time of the most sparing: on two free
// cores the first is about half the second, on a busy machine the second is the
// steadier figure. "MiB" and "MiB-1200" are our greatest resident memory at 600 and
// at 1200 DPI.
func BenchmarkRace(b *testing.B) {
	for _, e := range entrants {
		b.Run(e.name, func(b *testing.B) {
			dir := b.TempDir()
			pages, err := e.pages(art(b, dir))
			if err != nil {
				b.Fatal(err)
			}
			file := func(name string) string { return filepath.Join(dir, name) }
			for _, format := range []string{"pdf", "svg"} {
				if err := (Output{Path: file("page." + format), Format: format}).Write(b.Context(), pages); err != nil {
					b.Fatal(err)
				}
			}
			runners := map[string]func() *exec.Cmd{
				"ours": func() *exec.Cmd { return ours(e.name, file("stamp.png"), "600", file("ours.png")) },
				"librsvg": func() *exec.Cmd {
					return exec.Command("rsvg-convert", "--unlimited", "-d", "600", "-p", "600", "-b", "white", "-o", file("theirs.png"), file("page.svg"))
				},
				"mupdf": func() *exec.Cmd {
					return exec.Command("mutool", "draw", "-q", "-r", "600", "-o", file("theirs.png"), file("page.pdf"), "1")
				},
				"ghostscript": func() *exec.Cmd {
					return exec.Command("gs", "-q", "-dBATCH", "-dNOPAUSE", "-dSAFER", "-sDEVICE=png16m", "-dTextAlphaBits=4", "-dGraphicsAlphaBits=4", "-r600", "-sOutputFile="+file("theirs.png"), file("page.pdf"))
				},
			}
			best := map[string]run{}
			for b.Loop() {
				for name, runner := range runners {
					r := race(b, runner())
					if before, ok := best[name]; ok {
						r = run{min(r.elapsed, before.elapsed), min(r.busy, before.busy), max(r.memory, before.memory)}
					}
					best[name] = r
				}
			}
			us := best["ours"]
			fastest := run{elapsed: math.MaxInt64, busy: math.MaxInt64}
			for name, r := range best {
				b.ReportMetric(r.elapsed.Seconds(), "s-"+name)
				if name != "ours" {
					b.ReportMetric(us.elapsed.Seconds()/r.elapsed.Seconds(), "x-"+name)
					fastest.elapsed, fastest.busy = min(fastest.elapsed, r.elapsed), min(fastest.busy, r.busy)
				}
			}
			b.ReportMetric(us.elapsed.Seconds()/fastest.elapsed.Seconds(), "x-fastest")
			b.ReportMetric(us.busy.Seconds()/fastest.busy.Seconds(), "cpu-fastest")
			b.ReportMetric(us.memory, "MiB")
			b.ReportMetric(race(b, ours(e.name, file("stamp.png"), "1200", file("ours.png"))).memory, "MiB-1200")
			b.ReportMetric(0, "ns/op") // of no meaning here
		})
	}
}

// run is what a program took: time, processor time, and its greatest resident
// memory in MiB.
type run struct {
	elapsed, busy time.Duration
	memory        float64
}

func race(b *testing.B, cmd *exec.Cmd) run {
	b.Helper()
	if errors.Is(cmd.Err, exec.ErrNotFound) {
		b.Skipf("%v; make referees installs it where it can", cmd.Err)
	}
	var said strings.Builder
	cmd.Stderr = &said
	start := time.Now()
	if err := cmd.Run(); err != nil {
		b.Fatalf("%s: %v\n%s", cmd.Path, err, said.String())
	}
	elapsed := time.Since(start)
	unit := 1024.0 // Linux counts in KiB
	if runtime.GOOS == "darwin" {
		unit = 1
	}
	state := cmd.ProcessState
	return run{elapsed, state.UserTime() + state.SystemTime(), float64(state.SysUsage().(*syscall.Rusage).Maxrss) * unit / (1 << 20)}
}

// entry in the environment makes this test binary draw one design and end.
const entry = "UNDERFLAP_RACE"

func ours(design, stamp, dpi, out string) *exec.Cmd {
	self, err := os.Executable()
	cmd := exec.Command(self, design, stamp, dpi, out)
	cmd.Env, cmd.Err = append(os.Environ(), entry+"=1"), err
	return cmd
}

func TestMain(m *testing.M) {
	if os.Getenv(entry) == "" {
		os.Exit(m.Run())
	}
	if err := enter(os.Args[1], os.Args[2], os.Args[3], os.Args[4]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func enter(design, stamp, dpi, path string) error {
	to, err := ResolveOutput(path, dpi)
	if err != nil {
		return err
	}
	for _, e := range entrants {
		if e.name == design {
			pages, err := e.pages(stamp)
			if err != nil {
				return err
			}
			return to.Write(context.Background(), pages)
		}
	}
	return fmt.Errorf("no design %q", design)
}

// entrant is a design in the race.
type entrant struct {
	name  string
	pages func(stamp string) ([]*draw.Page, error)
}
