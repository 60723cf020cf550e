package filed

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// Source is where the files are that a person's words name.
type Source interface {
	// Read gives what a file holds: all of it, or, of a longer one, a byte more than
	// most. The error says in a line why it cannot, without the name.
	Read(name string, most int64) ([]byte, error)
}

// Held has files in memory, by name.
type Held map[string][]byte

// Read reads one of them.
func (h Held) Read(name string, most int64) ([]byte, error) {
	data, here := h[name]
	if !here {
		return nil, errors.New("no such file")
	}
	return data[:min(int64(len(data)), most+1)], nil
}

// Disk has the files of the file system, each under its path.
type Disk struct{}

// Read reads an ordinary file.
func (Disk) Read(path string, most int64) ([]byte, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, errors.New("no such file")
	case err != nil:
		return nil, errors.New("cannot be read")
	case !info.Mode().IsRegular():
		return nil, errors.New("not a file")
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, unread(err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, most+1))
	if err != nil {
		return nil, unread(err)
	}
	return data, nil
}

// Folder has the files of the file system; a relative path begins in the folder.
type Folder string

// Read reads an ordinary file.
func (f Folder) Read(path string, most int64) ([]byte, error) { return Disk{}.Read(f.Path(path), most) }

// Path is where a file of the folder is.
func (f Folder) Path(path string) string {
	if filepath.IsAbs(path) {
		return path
	}
	return filepath.Join(string(f), path)
}

// unread leaves out the path, which whoever reports the error names.
func unread(err error) error {
	if path, ok := errors.AsType[*fs.PathError](err); ok {
		err = path.Err
	}
	return fmt.Errorf("cannot be read: %w", err)
}
