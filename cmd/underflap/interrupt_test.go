package main

import (
	"bytes"
	"fmt"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"golang.org/x/image/tiff"
)

// soonStopped is a generous bound on what an interrupt takes on a busy machine:
// what people get is 200 ms, and the test logs it.
const soonStopped = 5 * time.Second

// writeSlowArt writes art that takes long to read, in libraries that cannot be
// stopped: a TIFF of one strip and 15 megapixels, and 15 MB of SVG.
func writeSlowArt(t *testing.T) {
	t.Helper()
	img := image.NewGray(image.Rect(0, 0, 4500, 3500))
	for i := range img.Pix {
		img.Pix[i] = byte(i*i>>7 ^ i>>3)
	}
	var b bytes.Buffer
	if err := tiff.Encode(&b, img, &tiff.Options{Compression: tiff.Deflate}); err != nil {
		t.Fatal(err)
	}
	keepFile(t, "scan.tiff", b.Bytes())
	b.Reset()
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 900 900">`)
	for i := 0; b.Len() < 15<<20; i++ {
		b.WriteString(`<path d="M`)
		for j := range 40 {
			fmt.Fprintf(&b, "%d.%038d %d.%038d ", (i*7+j*13)%900, i, (i*11+j*5)%900, j)
		}
		b.WriteString(`Z"/>`)
	}
	b.WriteString("</svg>")
	keepFile(t, "hedge.svg", b.Bytes())
}

func keepFile(t *testing.T, name string, data []byte) {
	t.Helper()
	if err := os.WriteFile(name, data, 0o666); err != nil {
		t.Fatal(err)
	}
}

// started is a process of the command in the current folder.
type started struct {
	*exec.Cmd
	stdout, stderr bytes.Buffer
}

func start(t *testing.T, args ...string) *started {
	t.Helper()
	s := &started{Cmd: exec.Command("underflap", args...)}
	s.Stdout, s.Stderr = &s.stdout, &s.stderr
	if err := s.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Process.Kill() })
	return s
}

// partFiles are the files in the current folder that are being written.
func partFiles() []string {
	found, _ := filepath.Glob(".*.part")
	return found
}

// hasRead tells whether the process has read so many bytes: of the art, all.
func (s *started) hasRead(count int64) bool {
	data, err := os.ReadFile(fmt.Sprintf("/proc/%d/io", s.Process.Pid))
	if err != nil {
		return false
	}
	_, rest, _ := strings.Cut(string(data), "rchar: ")
	word, _, _ := strings.Cut(rest, "\n")
	n, _ := strconv.ParseInt(word, 10, 64)
	return n >= count
}

// wait waits for a condition of the process.
func wait(t *testing.T, what string, is func() bool) {
	t.Helper()
	for end := time.Now().Add(time.Minute); !is(); time.Sleep(time.Millisecond) {
		if time.Now().After(end) {
			t.Fatalf("no %s after a minute", what)
		}
	}
}

// TestAnInterruptLeavesWholeFiles stops real processes in the midst of slow work:
// the program ends soon, with one line, and the folder holds what it held.
func TestAnInterruptLeavesWholeFiles(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("asks /proc how far a process is")
	}
	workbench(t)
	writeSlowArt(t)
	for _, name := range []string{"liners.pdf", "liners.png", "liners.svg"} {
		makes(t, name, "sheet", "-o", name, "--dpi", "72")
	}
	size := func(name string) int64 {
		info, err := os.Stat(name)
		if err != nil {
			t.Fatal(err)
		}
		return info.Size()
	}
	writing := func(*started) bool { return len(partFiles()) > 0 }
	reading := func(file string) func(*started) bool {
		n := size(file)
		return func(s *started) bool { return s.hasRead(n) }
	}
	for _, work := range []struct {
		name  string
		begun func(*started) bool
		args  []string
	}{
		{"a large PNG", writing, []string{"sheet", "--paper", "a3", "--dpi", "1200", "--pattern", "terrazzo", "-o", "liners.png"}},
		{"a PDF of a thousand liners", writing, []string{"sheet", "--stamp", "scan.tiff", "--stamp-colour", "keep", "--set", "size=90", "--count", "1000"}},
		{"a scan of 15 megapixels", reading("scan.tiff"), []string{"sheet", "--stamp", "scan.tiff"}},
		{"colours of a scan", reading("scan.tiff"), []string{"sheet", "--palette", "photo:scan.tiff", "-o", "liners.svg"}},
		{"15 MB of SVG", reading("hedge.svg"), []string{"sheet", "--stamp", "hedge.svg", "-o", "liners.svg"}},
		{"a picture of every palette", writing, []string{"look", "--palettes", "all", "--patterns", "leaves", "--dpi", "300", "-o", "liners.png"}},
	} {
		for _, signal := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM} {
			if signal == syscall.SIGTERM && !strings.HasPrefix(work.name, "15") { // both end the same way
				continue
			}
			t.Run(work.name+", "+signal.String(), func(t *testing.T) {
				before := folder(t)
				s := start(t, work.args...)
				wait(t, work.name, func() bool { return work.begun(s) })
				at := time.Now()
				if err := s.Process.Signal(signal); err != nil {
					t.Fatal(err)
				}
				err := s.Wait()
				took := time.Since(at)
				t.Logf("ended %v after the signal", took)
				if s.ProcessState.ExitCode() != failed || strings.Count(s.stderr.String(), "\n") < 1 || !strings.HasSuffix(s.stderr.String(), "interrupted\n") {
					t.Errorf("%v, stdout %q, stderr %q", err, s.stdout.String(), s.stderr.String())
				}
				if took > soonStopped {
					t.Errorf("ended only after %v", took)
				}
				if after := folder(t); fmt.Sprint(after) != fmt.Sprint(before) {
					t.Errorf("the folder held %v and now holds %v", names(before), names(after))
				}
			})
		}
	}
}

// TestKilledWhileWriting kills the program at many moments: the target is the old
// file or the new one, and the next one to write it clears up.
func TestKilledWhileWriting(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no signals")
	}
	workbench(t)
	args := []string{"sheet", "--pattern", "terrazzo", "--dpi", "300", "-o", "liners.png"}
	fresh := makes(t, "liners.png", args...)
	old := makes(t, "liners.png", "sheet", "--dpi", "72", "-o", "liners.png")
	left, whole := 0, 0
	written := func() (n int64) {
		for _, name := range partFiles() {
			if info, err := os.Stat(name); err == nil {
				n += info.Size()
			}
		}
		return n
	}
	const moments = 12
	for moment := range moments {
		for _, name := range partFiles() {
			os.Remove(name)
		}
		keepFile(t, "liners.png", old)
		s := start(t, args...)
		ended := make(chan error, 1)
		go func() { ended <- s.Wait() }()
		over := false
		wait(t, "part file", func() bool { // of a size that grows with the moment
			select {
			case <-ended:
				over = true
			default:
			}
			if moment == moments-1 { // the moment after
				now, err := os.Stat("liners.png")
				return over || err == nil && now.Size() == int64(len(fresh))
			}
			return over || len(partFiles()) > 0 && written() >= int64(len(fresh)*moment/moments)
		})
		s.Process.Kill()
		if !over {
			<-ended
		}
		left += len(partFiles())
		switch got, err := os.ReadFile("liners.png"); {
		case err != nil:
			t.Fatal(err)
		case bytes.Equal(got, fresh):
			whole++
		case !bytes.Equal(got, old):
			t.Errorf("moment %d: %d bytes that are neither the old file nor the new one", moment, len(got))
		}
		if moment%4 == 3 { // and then works as ever
			if a := call(t, args...); a.status != done || len(partFiles()) > 0 {
				t.Errorf("moment %d: status %d, %s; %v are left after the next one has written", moment, a.status, a.stderr, partFiles())
			}
		}
	}
	t.Logf("killed at %d moments: %d part files left, %d times the new file was there", moments, left, whole)
	if left == 0 || whole == 0 {
		t.Error("it was not killed both while it wrote and afterwards")
	}
}

// TestTwoWriteOneTarget lets programs write one file at once: none takes what
// another is writing for something left behind.
func TestTwoWriteOneTarget(t *testing.T) {
	workbench(t)
	args := []string{"sheet", "--dpi", "150", "-o", "liners.png"}
	fresh := makes(t, "liners.png", args...)
	all := []*started{start(t, args...), start(t, args...), start(t, args...)}
	for _, s := range all {
		if err := s.Wait(); err != nil || s.stderr.String() != all[0].stderr.String() {
			t.Errorf("%v: %s", err, s.stderr.String())
		}
	}
	if got, err := os.ReadFile("liners.png"); err != nil || !bytes.Equal(got, fresh) || len(partFiles()) > 0 {
		t.Errorf("%v, %d bytes, parts %v", err, len(got), partFiles())
	}
}
