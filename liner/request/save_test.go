package request

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// However writing ends, the folder holds the old file or the whole new one and
// nothing else.
func TestSaveLeavesTheOldFileOrTheWholeNewOne(t *testing.T) {
	ended, end := context.WithCancel(context.Background())
	end()
	ways := map[string]struct {
		ctx   context.Context
		write func(io.Writer) error
		says  string
		holds string
	}{
		"whole":  {context.Background(), func(w io.Writer) error { _, err := io.WriteString(w, "new"); return err }, "", "new"},
		"fails":  {context.Background(), func(w io.Writer) error { io.WriteString(w, "ne"); return errors.New("no ink") }, "no ink", "old"},
		"panics": {context.Background(), func(w io.Writer) error { io.WriteString(w, "ne"); panic("out of paper") }, "out of paper", "old"},
		"interrupted": {ended, func(w io.Writer) error {
			_, err := io.WriteString(w, strings.Repeat("new", 1<<20))
			return err
		}, "interrupted", "old"},
	}
	for name, way := range ways {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "liners.pdf")
			if err := os.WriteFile(path, []byte("old"), 0o600); err != nil {
				t.Fatal(err)
			}
			said := saved(way.ctx, path, way.write)
			if (way.says == "") != (said == "") || !strings.Contains(said, way.says) {
				t.Errorf("said %q, want %q", said, way.says)
			}
			if data, err := os.ReadFile(path); err != nil || string(data) != way.holds {
				t.Errorf("the file holds %.20q, want %q (%v)", data, way.holds, err)
			}
			if left, err := os.ReadDir(filepath.Dir(path)); err != nil || len(left) != 1 {
				t.Errorf("%d files in the folder (%v)", len(left), err)
			}
		})
	}
}

// saved is what Save says, by error or by panic.
func saved(ctx context.Context, path string, write func(io.Writer) error) (said string) {
	defer func() {
		if p := recover(); p != nil {
			said = p.(string)
		}
	}()
	if err := Save(ctx, path, write); err != nil {
		return err.Error()
	}
	return ""
}
