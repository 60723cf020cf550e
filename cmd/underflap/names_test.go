//go:build unix

package main

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// Names as people and other systems give them: é in one letter (NFC) and as e with
// an accent (NFD, as macOS once wrote it; Unicode Standard Annex #15).
var strangeNames = []string{"harvest supper", "d\u00e9jeuner", "de\u0301jeuner", "-o", "--help", "a\nb", "tab\there", "100%", "a'b\"c", "$HOME", "*?", "#1", "ﬁ 食べ物 🌾", strings.Repeat("long", 60)}

// TestFilesOfStrangeNames writes and reads files of strange names.
func TestFilesOfStrangeNames(t *testing.T) {
	for _, name := range strangeNames {
		t.Run(strings.ReplaceAll(name, "\n", "⏎")[:min(len(name), 20)], func(t *testing.T) {
			workbench(t)
			said := strings.NewReplacer("\n", " ", "\t", "?").Replace(name)
			works := func(args ...string) {
				t.Helper()
				if a := call(t, args...); a.status != done || strings.Contains(a.stdout, "\x1b") || args[0] == "sheet" && (strings.Count(a.stdout, "\n") < 1 || !strings.Contains(a.stdout, said)) {
					t.Errorf("%s: status %d, %q, %q", line(args), a.status, a.stdout, a.stderr)
				}
			}
			for _, ending := range []string{".pdf", ".png", ".svg"} {
				works("sheet", "--dpi", "72", "-o="+name+ending)
			}
			mustDraw(t, "png", name+"-art.png")
			keepFile(t, name+".csv", []byte("0,0\n80,60\n160,0\n"))
			keepFile(t, name+".gpl", []byte("GIMP Palette\n255 248 220\n180 71 46\n"))
			keepFile(t, name+"-own.toml", []byte("width = 9\nheight = 9\n[[shape]]\ncircle = [0, 0, 2]\n"))
			works("sheet", "--stamp="+name+"-art.png", "-o="+name+".pdf")
			works("sheet", "--pocket", "160x115", "--profile="+name+".csv", "-o="+name+".pdf")
			works("sheet", "--palette=./"+name+".gpl", "--pattern=./"+name+"-own.toml", "-o="+name+".pdf", "--save-job="+name+"-job.toml")
			before := folder(t)[name+".pdf"]
			if os.Remove(name + ".pdf"); before == "" {
				t.Error("no file of that name was written")
			}
			works("run", "-o="+name+".pdf", "--", name+"-job.toml")
			if folder(t)[name+".pdf"] != before {
				t.Error("the job makes another file")
			}
			if parts, _ := filepath.Glob(".*.part"); len(parts) > 0 {
				t.Error(parts)
			}
		})
	}
}

// TestANameTooLong is refused by the system: one line, nothing written.
func TestANameTooLong(t *testing.T) {
	workbench(t)
	long := strings.Repeat("a", 300) + ".pdf"
	fails("file name too long", "sheet", "-o", long).check(t)
	fails(strings.Repeat("b", 30), "sheet", "-o", strings.Repeat("b", 5000)+"/x.pdf").check(t)
	whole := strings.Repeat("c", 251) + ".pdf" // 255 bytes, as long as a name may be
	makes(t, whole, "sheet", "-o", whole)
}

// TestTargetsThatAreNoFile writes through links and to what must stay.
func TestTargetsThatAreNoFile(t *testing.T) {
	workbench(t)
	if err := syscall.Mkfifo("pipe.pdf", 0o666); err != nil {
		t.Skip(err)
	}
	for link, to := range map[string]string{"real.pdf": "attic/kept.pdf", "dangling.pdf": "attic/new.pdf", "round.pdf": "trip.pdf", "trip.pdf": "round.pdf", "full.pdf": "/dev/full", "null.pdf": "/dev/null", "gone.pdf": "missing/x.pdf"} {
		if err := os.Symlink(to, link); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Mkdir("attic", 0o777); err != nil {
		t.Fatal(err)
	}
	keepFile(t, "attic/kept.pdf", []byte("the old one"))
	keepFile(t, "kept.pdf", []byte("the old one"))
	if err := os.Chmod("kept.pdf", 0o444); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"real.pdf", "dangling.pdf"} {
		if a := call(t, "sheet", "-o", name); a.status != done {
			t.Errorf("%s: %s", name, a.stderr)
		}
		info, err := os.Lstat(name)
		if err != nil || info.Mode()&os.ModeSymlink == 0 {
			t.Errorf("%s is no link any more", name)
		}
	}
	for _, name := range []string{"attic/kept.pdf", "attic/new.pdf"} {
		if data, err := os.ReadFile(name); err != nil || !strings.HasPrefix(string(data), "%PDF") {
			t.Errorf("%s: %v, %.20q", name, err, data)
		}
	}
	for name, why := range map[string]string{"round.pdf": "link", "trip.pdf": "link", "gone.pdf": "no such file", "kept.pdf": "write-protected"} {
		if a := call(t, "sheet", "-o", name); a.status != failed || !strings.Contains(a.stderr, why) || strings.Count(a.stderr, "\n") != 1 {
			t.Errorf("%s: status %d, %q", name, a.status, a.stderr)
		}
	}
	for _, name := range []string{"pipe.pdf", "full.pdf", "null.pdf"} {
		if a := call(t, "sheet", "-o", name); a.status != wrong || !strings.Contains(a.stderr, "no ordinary file") {
			t.Errorf("%s: status %d, %q", name, a.status, a.stderr)
		}
	}
	for name, mode := range map[string]os.FileMode{"/dev/null": os.ModeDevice, "/dev/full": os.ModeDevice, "pipe.pdf": os.ModeNamedPipe} {
		if info, err := os.Stat(name); err != nil || info.Mode()&mode == 0 {
			t.Errorf("%s is no longer what it was: %v", name, info)
		}
	}
	if data, err := os.ReadFile("kept.pdf"); err != nil || string(data) != "the old one" {
		t.Errorf("%v, %.20q", err, data)
	}
}
