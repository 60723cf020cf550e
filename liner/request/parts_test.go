package request

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// When a program that cannot stop its work ends, what it was writing goes, what is
// whole stays, and nothing more becomes whole.
func TestAbandonLeavesWholeFiles(t *testing.T) {
	t.Cleanup(func() { parts.abandoned = false })
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	write := func(name, content string, midst func()) error {
		return Save(t.Context(), at(name), func(w io.Writer) error {
			_, err := io.WriteString(w, content)
			midst()
			return err
		})
	}
	if err := write("whole.pdf", "old", func() {}); err != nil {
		t.Fatal(err)
	}
	err := write("whole.pdf", strings.Repeat("new", 1<<16), Abandon)
	if err == nil || !strings.HasPrefix(err.Error(), "cannot write ") {
		t.Errorf("%v", err)
	}
	if err := write("next.pdf", "new", func() { t.Error("it writes on") }); err == nil || !strings.HasSuffix(err.Error(), "interrupted") {
		t.Errorf("%v", err)
	}
	entries, _ := os.ReadDir(dir)
	if data, err := os.ReadFile(at("whole.pdf")); err != nil || string(data) != "old" || len(entries) != 1 {
		t.Errorf("%v, %q, %v", err, data, entries)
	}
}

// What a killed program left of a target goes with the next write; what looks
// alike, or is being written, stays.
func TestOnlyWhatNobodyWritesIsSwept(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	stale := at(".liners.pdf.0123abcd.part")
	kept := []string{at(".liners.pdf.0123abcd.parts"), at(".liners.pdf.0123ABCD.part"), at(".liners.pdf.notes.part"), at(".other.pdf.0123abcd.part"), at("liners.pdf.0123abcd.part")}
	for _, name := range append(kept, stale) {
		if err := os.WriteFile(name, nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	inside := func(w io.Writer) error { // of another write of the same file
		return Save(t.Context(), at("liners.pdf"), func(io.Writer) error { return nil })
	}
	if err := Save(t.Context(), at("liners.pdf"), func(w io.Writer) error {
		if _, err := io.WriteString(w, "new"); err != nil {
			return err
		}
		return inside(w)
	}); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(stale); err == nil {
		t.Error("what was left behind is still there")
	}
	for _, name := range kept {
		if _, err := os.Stat(name); err != nil {
			t.Error(err)
		}
	}
	if data, err := os.ReadFile(at("liners.pdf")); err != nil || string(data) != "new" {
		t.Errorf("%v, %q", err, data)
	}
}
