package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"testing"

	"underflap/liner"
)

// fits are questions whose answers hold the geometry: every third envelope, over
// papers and layouts, and measured, square, traced and handmade flaps.
func fits(t *testing.T) (all [][]string) {
	papers := []string{"a3", "305x305", "330x483", "11x17in", "a4"}
	layouts := []string{"nested", "straight"}
	for i, name := range liner.EnvelopeNames() {
		if i%3 == 0 {
			all = append(all, []string{"--envelope", name, "--paper", papers[i%len(papers)], "--layout", layouts[i/2%2], "--per-sheet", []string{"1", "2", "most"}[i/3%3]})
		}
	}
	profile := filepath.Join(t.TempDir(), "flap.csv")
	keepFile(t, profile, []byte("0,0\n0.3,20\n40,47.7\n80,61.3\n121,47.1\n160,20\n160,0\n"))
	return append(all,
		[]string{"--pocket", "160x115", "--profile", profile, "--per-sheet", "most", "--paper", "a3"},
		[]string{"--pocket", "4 3/8in x 5 3/4in", "--flap", "contour", "--flap-depth", "2 1/8in", "--tip-radius", "7.3", "--side-gap", "2.1"},
		[]string{"--pocket", "6.5in x 6.5in", "--flap", "rounded", "--flap-depth", "90.01", "--gum", "0"},
		[]string{"--handmade", "four-corner", "--card", "a6", "--from", "210x210"},
		[]string{"--handmade", "two-panel", "--card", "5x7in"},
		[]string{"--card", "148x105", "--paper", "a3", "--count", "31"})
}

// TestTheSameGeometryOnOtherMachines builds the program for another processor and
// asks it how liners fit: every number is ours to 1e-9, every word the same, and so
// is what is refused. Linux on amd64 runs programs for 386. UNDERFLAP_ARM64 may name an emulator that
// runs those for arm64, such as qemu-aarch64-static: it takes minutes. arm64 rounds x*y + z
// once (the Go specification, "Floating-point operators"), so that a number may
// fall to the other side of where answers are rounded, a millionth of a millimetre.
func TestTheSameGeometryOnOtherMachines(t *testing.T) {
	if runtime.GOOS != "linux" || runtime.GOARCH != "amd64" {
		t.Skip("compares with linux on amd64")
	}
	asSame(t, "386", nil, 1e-9)
	if emulator := os.Getenv("UNDERFLAP_ARM64"); emulator != "" {
		asSame(t, "arm64", []string{emulator}, 1.1e-6)
	}
}

func asSame(t *testing.T, arch string, emulator []string, within float64) {
	program := filepath.Join(t.TempDir(), "underflap")
	build := exec.Command("go", "build", "-o", program, ".")
	build.Env = append(slices.Clone(toolsEnvironment), "GOARCH="+arch, "CGO_ENABLED=0")
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	worst, refused, questions := 0.0, 0, fits(t)
	for _, q := range questions {
		args := append([]string{"fit", "--json"}, q...)
		ours := call(t, args...)
		run := append(append(slices.Clone(emulator), program), args...)
		var stderr bytes.Buffer
		c := exec.Command(run[0], run[1:]...)
		c.Stderr = &stderr
		theirs, err := c.Output()
		if status := c.ProcessState.ExitCode(); status != ours.status || stderr.String() != ours.stderr {
			t.Errorf("%s: status %d with %q, and here %d with %q (%v)", line(args), status, stderr.String(), ours.status, ours.stderr, err)
			continue
		}
		if ours.status != done {
			refused++
			continue
		}
		var a, b any
		if json.Unmarshal([]byte(ours.stdout), &a) != nil || json.Unmarshal(theirs, &b) != nil {
			t.Errorf("%s: no JSON", line(args))
			continue
		}
		off, err := farthest("", a, b)
		if worst = max(worst, off); err != nil || off > within {
			t.Errorf("%s: %g mm apart, %v", line(args), off, err)
		}
	}
	t.Logf("%s: %d questions, %d of them refused; the numbers that differ most are %g apart", arch, len(questions), refused, worst)
	if refused > len(questions)/3 {
		t.Error("most questions have no answer to compare")
	}
}

// farthest is how far the numbers of two answers are apart, which must else be the
// same.
func farthest(where string, a, b any) (off float64, err error) {
	keep := func(where string, a, b any) {
		o, e := farthest(where, a, b)
		off = max(off, o)
		if err == nil {
			err = e
		}
	}
	switch a := a.(type) {
	case float64:
		if b, ok := b.(float64); ok {
			return math.Abs(a - b), nil
		}
	case []any:
		if b, ok := b.([]any); ok && len(a) == len(b) {
			for i := range a {
				keep(fmt.Sprintf("%s.%d", where, i), a[i], b[i])
			}
			return off, err
		}
	case map[string]any:
		if b, ok := b.(map[string]any); ok && len(a) == len(b) {
			for name := range a {
				keep(where+"."+name, a[name], b[name])
			}
			return off, err
		}
	default:
		if a == b {
			return 0, nil
		}
	}
	return 0, fmt.Errorf("%s: %v and %v", where, a, b)
}

// toolsEnvironment is the environment before the tests left their home: the Go tool
// has its store there.
var toolsEnvironment = os.Environ()
