//go:build unix

package occasion

import (
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// A pipe where a record should be is not waited for.
func TestAPipeInPlaceOfARecord(t *testing.T) {
	o := settled(t, fair, Wish{})
	for _, name := range []string{SumsFile, journalFile} {
		dir := t.TempDir()
		if err := syscall.Mkfifo(filepath.Join(dir, name), 0o666); err != nil {
			t.Skip(err)
		}
		if _, err := o.Fill(t.Context(), dir, Part{}, true); err == nil || !strings.Contains(err.Error(), "no ordinary file") {
			t.Error(err)
		}
		holds(t, dir, name)
	}
}
