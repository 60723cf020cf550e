package request

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
)

// Save writes a file beside its target and renames it when it is whole, so
// that the target is the old file or the new one and never half of it. When
// write fails, or ctx ends, nothing is left behind.
func Save(ctx context.Context, path string, write func(io.Writer) error) error {
	beside, err := createBeside(path)
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", path, reason(err))
	}
	whole := false
	defer func() { // also when write panics
		if !whole {
			beside.Close()
			os.Remove(beside.Name())
		}
	}()
	buffered := bufio.NewWriterSize(until{ctx, beside}, 1<<16)
	if err := write(buffered); err != nil {
		return fmt.Errorf("cannot write %s: %w", path, reason(err))
	}
	for _, step := range []func() error{buffered.Flush, beside.Sync, beside.Close} {
		if err := step(); err != nil {
			return fmt.Errorf("cannot write %s: %w", path, reason(err))
		}
	}
	if err := os.Rename(beside.Name(), path); err != nil {
		return fmt.Errorf("cannot write %s: %w", path, reason(err))
	}
	whole = true
	return nil
}

// until writes for as long as its context lasts.
type until struct {
	ctx context.Context
	w   io.Writer
}

func (u until) Write(p []byte) (int, error) {
	if u.ctx.Err() != nil {
		return 0, u.ctx.Err()
	}
	return u.w.Write(p)
}

// createBeside makes a new file in the target's folder with the permissions a
// plainly created file would have.
func createBeside(path string) (*os.File, error) {
	for {
		name := filepath.Join(filepath.Dir(path), fmt.Sprintf(".%s.%08x.part", filepath.Base(path), rand.Uint32()))
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if !errors.Is(err, fs.ErrExist) {
			return f, err
		}
	}
}

// reason leaves out the name of the part file, which the person never chose.
func reason(err error) error {
	if errors.Is(err, context.Canceled) {
		return interrupted{err}
	}
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err
	}
	return err
}

// interrupted says plainly that work was called off.
type interrupted struct{ error }

func (interrupted) Error() string   { return "interrupted" }
func (i interrupted) Unwrap() error { return i.error }
