package main

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"underflap/pattern/draw/referee"
)

var made = time.Unix(1790000000, 0).UTC() // 2026-09-21 14:13:20

// few are files of a package, out of order, one of them to be run.
func few() []file {
	return []file{
		{"top/read me é.txt", []byte("read me\n"), 0o644},
		{"top/bin/run", []byte("#!/bin/sh\necho ran\n"), 0o755},
		{"top/large", bytes.Repeat([]byte("liner "), 1<<16), 0o644},
	}
}

func packed(t *testing.T, ending string, files []file) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := pack(&b, ending, files, made); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Debian's tar and unzip take out what was put in, with its time and whether it
// may be run, in the order of names; nobody's name is in it.
func TestArchivesAreWhatOtherProgramsRead(t *testing.T) {
	for ending, unpack := range map[string][]string{
		".tar.gz": {"tar", "--same-permissions", "-xzf"},
		".zip":    {"unzip", "-q"},
	} {
		t.Run(ending, func(t *testing.T) {
			dir := t.TempDir()
			archive := filepath.Join(dir, "a"+ending)
			if err := os.WriteFile(archive, packed(t, ending, few()), 0o666); err != nil {
				t.Fatal(err)
			}
			t.Setenv("LC_ALL", "C.UTF-8") // or unzip writes names of its own
			out := filepath.Join(dir, "out")
			if err := os.Mkdir(out, 0o777); err != nil {
				t.Fatal(err)
			}
			into := "-C"
			if ending == ".zip" {
				into = "-d"
			}
			referee.Run(t, unpack[0], append(slices.Clone(unpack[1:]), archive, into, out)...)
			for _, want := range few() {
				path := filepath.Join(out, filepath.FromSlash(want.name))
				got, err := os.ReadFile(path)
				if err != nil {
					t.Fatal(err)
				}
				info, err := os.Stat(path)
				if err != nil {
					t.Fatal(err)
				}
				if !bytes.Equal(got, want.data) || info.Mode().Perm() != want.mode || !info.ModTime().Equal(made) {
					t.Errorf("%s: %d bytes, %v, %v; want %d bytes, %v, %v", want.name, len(got), info.Mode(), info.ModTime(), len(want.data), want.mode, made)
				}
			}
		})
	}
	dir := t.TempDir()
	archive := filepath.Join(dir, "a.tar.gz")
	if err := os.WriteFile(archive, packed(t, ".tar.gz", few()), 0o666); err != nil {
		t.Fatal(err)
	}
	listed := strings.Split(strings.TrimSpace(string(referee.Run(t, "tar", "--numeric-owner", "-tvzf", archive))), "\n")
	for i, name := range []string{"top/bin/run", "top/large", "top/read me"} {
		if len(listed) != 3 || !strings.Contains(listed[i], " 0/0 ") || !strings.Contains(listed[i], name) {
			t.Fatalf("tar lists %q, want names in order, of nobody", listed)
		}
	}
}

func TestTheSameFilesGiveTheSameBytes(t *testing.T) {
	backwards := few()
	slices.Reverse(backwards)
	for _, ending := range []string{".tar.gz", ".zip"} {
		if !bytes.Equal(packed(t, ending, few()), packed(t, ending, backwards)) {
			t.Errorf("%s: other bytes when files come in another order", ending)
		}
	}
}

func TestFilesThatTheREADMELinksToArePacked(t *testing.T) {
	readme := []byte("![a](testdata/pictures/a.png) [b](DEVELOPERS.md) [c](https://go.dev/dl/) [d](#choose)\n[e](./testdata/pictures/a.png) [f](../outside) [g](LICENSE)")
	if got, want := linked(readme), []string{"DEVELOPERS.md", "LICENSE", "testdata/pictures/a.png"}; !slices.Equal(got, want) {
		t.Errorf("links are %q, want %q", got, want)
	}
}

// sha256sum of coreutils agrees with the list, and finds a file that was changed.
func TestChecksumsAreThoseOfSha256sum(t *testing.T) {
	r := release{version: "1", made: made, into: t.TempDir()}
	for name, data := range map[string]string{"b.zip": "second", "a.tar.gz": "first"} {
		if err := os.WriteFile(filepath.Join(r.into, name), []byte(data), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if err := r.checksums([]string{"b.zip", "a.tar.gz"}); err != nil {
		t.Fatal(err)
	}
	t.Chdir(r.into)
	if said := string(referee.Run(t, "sha256sum", "--strict", "-c", "SHA256SUMS")); said != "a.tar.gz: OK\nb.zip: OK\n" {
		t.Errorf("sha256sum says %q", said)
	}
}

func TestVersionsOfDebian(t *testing.T) {
	for _, c := range []struct{ given, want string }{{"0.1.0", "0.1.0"}, {"0.1.0-3-gabc1234", "0.1.0+3+gabc1234"}, {"489b92e", "0~489b92e"}, {"abc1234-dirty", "0~abc1234+dirty"}} {
		if got := (release{version: c.given}).debianVersion(); got != c.want {
			t.Errorf("%s becomes %s, want %s", c.given, got, c.want)
		}
	}
	// dpkg's own order: a commit of no release lies before every release, one after a
	// release behind it.
	for _, pair := range [][2]string{{"489b92e", "0.1.0"}, {"0.1.0", "0.1.0-3-gabc1234"}, {"0.1.0-3-gabc1234", "0.2.0"}} {
		referee.Run(t, "dpkg", "--compare-versions", release{version: pair[0]}.debianVersion()+"-1", "lt", release{version: pair[1]}.debianVersion()+"-1")
	}
}
