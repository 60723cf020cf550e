package request

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// Save writes a file beside its target and renames it when it is whole, so
// that the target is the old file or the new one and never half of it. When
// write fails, or ctx ends, nothing is left behind; what a program that was killed
// left behind is removed. A link is followed: the file that it points to is
// written. What is no ordinary file, or is write-protected, is left as it is.
func Save(ctx context.Context, path string, write func(io.Writer) error) error {
	fail := func(err error) error { return fmt.Errorf("cannot write %s: %w", path, reason(err)) }
	target, err := mayReplace(path)
	if err != nil {
		return fail(err)
	}
	Sweep(target)
	beside, err := createBeside(target)
	if err != nil {
		return fail(err)
	}
	whole := false
	defer func() { // also when write panics
		if !whole {
			drop(beside)
		}
	}()
	buffered := bufio.NewWriterSize(until{ctx, beside}, 1<<16)
	if err := write(buffered); err != nil {
		return fail(err)
	}
	for _, step := range []func() error{buffered.Flush, beside.Sync} {
		if err := step(); err != nil {
			return fail(err)
		}
	}
	if err := keepPart(beside, target); err != nil {
		return fail(err)
	}
	whole = true
	return nil
}

// mayReplace follows links to the file that will be written, and refuses what
// must not be put in the place of.
func mayReplace(path string) (target string, err error) {
	const mostLinks = 40 // as Linux follows (path_resolution(7))
	target = path
	for range mostLinks {
		info, err := os.Lstat(target)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return target, nil
		case err != nil:
			return "", err
		case info.Mode()&fs.ModeSymlink != 0:
			to, err := os.Readlink(target)
			if err != nil {
				return "", err
			}
			if !filepath.IsAbs(to) {
				to = filepath.Join(filepath.Dir(target), to)
			}
			target = to
		case info.IsDir():
			return "", errors.New("is a folder")
		case !info.Mode().IsRegular(): // a pipe, or a device that a rename would put a file in place of
			return "", errors.New("no ordinary file")
		case info.Mode().Perm()&0o222 == 0: // a rename would not ask
			return "", errors.New("the file there is write-protected")
		default:
			return target, nil
		}
	}
	return "", errors.New("a link that leads nowhere")
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

// reason leaves out the name of the part file, which the person never chose.
func reason(err error) error {
	if errors.Is(err, context.Canceled) || errors.Is(err, errAbandoned) {
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
