package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"testing"
	"time"
)

// processes runs what call runs as a process of its own, and keeps the most that
// any took.
type processes struct {
	count   int
	longest time.Duration
	largest int64 // bytes of memory at once
	slow    string
	large   string
}

// asProcesses is where call runs its command lines, nil for this process.
var asProcesses *processes

// mostMemory is what a command line that is refused may take.
const mostMemory = 200 << 20

// call runs the command as a process, through one that measures it: what Linux
// says of a process's memory is at least what its parent had (getrusage(2), exec),
// and this test may have much.
func (p *processes) call(t *testing.T, args []string) (a answer) {
	t.Helper()
	told := filepath.Join(t.TempDir(), "measured")
	var stdout, stderr bytes.Buffer
	c := exec.Command("measured", append([]string{told}, args...)...)
	c.Stdout, c.Stderr = &stdout, &stderr
	if err := c.Run(); err != nil && !errors.As(err, new(*exec.ExitError)) {
		t.Fatal(err)
	}
	data, err := os.ReadFile(told)
	if err != nil {
		t.Fatal(err)
	}
	var memory int64
	if _, err := fmt.Sscan(string(data), &memory, (*int64)(&a.took)); err != nil {
		t.Fatal(err)
	}
	a.status, a.stdout, a.stderr = c.ProcessState.ExitCode(), stdout.String(), stderr.String()
	p.count++
	if a.took > p.longest {
		p.longest, p.slow = a.took, line(args)
	}
	if memory > p.largest {
		p.largest, p.large = memory, line(args)
	}
	if memory > mostMemory {
		t.Errorf("%s: %d MiB of memory, and the most is %d", line(args), memory>>20, mostMemory>>20)
	}
	return a
}

// measured runs the command as its child and writes to a file how much memory the
// child had at once, and how long it took.
func measured() {
	c := exec.Command("underflap", os.Args[2:]...)
	c.Stdin, c.Stdout, c.Stderr = os.Stdin, os.Stdout, os.Stderr
	start := time.Now()
	if err := c.Run(); err != nil && !errors.As(err, new(*exec.ExitError)) {
		panic(err)
	}
	took := min(time.Since(start), c.ProcessState.UserTime()+c.ProcessState.SystemTime()) // not what a busy machine lets it wait
	if err := os.WriteFile(os.Args[1], fmt.Appendln(nil, peak(c.ProcessState), int64(took)), 0o666); err != nil {
		panic(err)
	}
	os.Exit(c.ProcessState.ExitCode())
}

// TestRefusalsAsProcesses runs the tables of bad input once more, end to end: each
// command line as a process of its own, with its memory and time measured.
func TestRefusalsAsProcesses(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("says nothing of a process's memory")
	}
	asProcesses = &processes{}
	defer func() { asProcesses = nil }()
	for name, table := range map[string]func(*testing.T){
		"choices": TestChoicesRefused, "numbers": TestNumbersRefused, "settings": TestSettingsRefused, "command lines": TestCommandLineWrong,
		"stamps": TestStampsRefused, "outputs": TestOutputsRefused, "jobs": TestJobsRefused, "runs": TestRunRefused, "colours": TestColoursRefused,
		"palette files": TestPaletteFilesRefused, "dates": TestSourceDateRefused, "nasty": TestNastyRefused,
	} {
		t.Run(name, table)
	}
	p := asProcesses
	t.Logf("%d command lines; the longest took %v (%s), the largest had %d MiB (%s)", p.count, p.longest.Round(time.Millisecond), p.slow, p.largest>>20, p.large)
	if least := 150; p.count < least {
		t.Errorf("%d command lines, and there should be %d", p.count, least)
	}
}
