package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"regexp"
	"runtime"
	"strings"
	"testing"
	"time"
)

// processes runs what call runs as a process of its own, and keeps the most that
// any took.
type processes struct {
	asked   int // command lines of the table so far
	count   int
	longest time.Duration
	largest int64 // bytes of memory at once
	slow    string
	large   string
}

// asProcesses is where call runs its command lines, nil for this process.
var asProcesses *processes

// Tables ask much the same of every command. Of each as many of its first lines are
// processes, and one of so many after them; the others run in this process.
const firstLines, oneOf = 12, 10

// takes tells whether a command line is to be a process; no process is given a zero
// byte.
func (p *processes) takes(args []string) bool {
	if p == nil || strings.Contains(strings.Join(args, ""), "\x00") {
		return false
	}
	p.asked++
	return p.asked <= firstLines || p.asked%oneOf == 0
}

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

// TestRefusalsAsProcesses runs every table of bad input once more, end to end: command
// lines as processes of their own, with their memory and time measured.
func TestRefusalsAsProcesses(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("says nothing of a process's memory")
	}
	asProcesses = &processes{}
	defer func() { asProcesses = nil }()
	for name, table := range refusedTables() {
		asProcesses.asked = 0
		t.Run(name, table)
	}
	p := asProcesses
	t.Logf("%d command lines; the longest took %v (%s), the largest had %d MiB (%s)", p.count, p.longest.Round(time.Millisecond), p.slow, p.largest>>20, p.large)
	if least := 600; p.count < least {
		t.Errorf("%d command lines, and there should be %d", p.count, least)
	}
}

// refusedTables are the tables of bad input by their names.
func refusedTables() map[string]func(*testing.T) {
	tables := map[string]func(*testing.T){}
	for _, table := range []func(*testing.T){
		TestChoicesRefused, TestNumbersRefused, TestSettingsRefused, TestCommandLineWrong, TestEmptyWordsRefused,
		TestLengthsRefused, TestSizesRefused, TestMeasuresThatCannotGoTogether, TestWordsOfAnotherEnvelopeRefused, TestRoomsRefused,
		TestFoldedByHandRefused, TestProfilesRefused,
		TestStampsRefused, TestOutputsRefused, TestSourceDateRefused, TestNastyRefused,
		TestColoursRefused, TestPaletteFilesRefused, TestWishesRefused, TestPhotosRefused, TestInkWordsRefused,
		TestCorrectionsRefused, TestNamesRefused, TestWeightsRefused, TestBlankTakesNoPattern, TestRulersRefused,
		TestLooksRefused, TestPicturesRefused, TestGuidesRefused, TestDesksRefused,
		TestRegistrationRefused, TestCutFileRefused, TestJobMarksRefused,
		TestJobsRefused, TestRunRefused, TestOccasionsRefused, TestRunOfAnOccasionRefused,
	} {
		name := runtime.FuncForPC(reflect.ValueOf(table).Pointer()).Name()
		tables[name[strings.LastIndex(name, ".")+1:]] = table
	}
	return tables
}

// TestEveryTableOfRefusalsRunsAsProcesses holds the list to the files.
func TestEveryTableOfRefusalsRunsAsProcesses(t *testing.T) {
	files, err := filepath.Glob("refuse_*_test.go")
	if err != nil {
		t.Fatal(err)
	}
	listed, found := refusedTables(), 0
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range regexp.MustCompile(`(?m)^func (Test\w+Refused)\(`).FindAllStringSubmatch(string(data), -1) {
			if found++; listed[name[1]] == nil {
				t.Errorf("%s: %s is not run as processes", file, name[1])
			}
		}
	}
	if found < 30 {
		t.Errorf("%d tables in %d files", found, len(files))
	}
}
