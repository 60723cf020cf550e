package occasion

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"

	"underflap/liner/request"
	"underflap/pattern/draw/pdf"
)

// sheetsFolder is where the sheets of one PDF are made: beside it, hidden.
func sheetsFolder(path string) string {
	return filepath.Join(filepath.Dir(path), "."+filepath.Base(path)+".sheets")
}

// Book makes one PDF of an occasion: its index, then every sheet in order. Its
// sheets are made in a folder beside it, where they are found again after a stop,
// and which is gone when the PDF is whole.
func (o *Occasion) Book(ctx context.Context, path string) (f Filled, err error) {
	dir := sheetsFolder(path)
	undo, err := furnish(dir, path)
	if err != nil {
		return f, err
	}
	defer func() {
		if err != nil {
			undo()
		}
	}()
	known, err := readRecord(dir)
	if err != nil {
		return f, err
	}
	if f, err = o.fill(ctx, dir, known, Part{}, ""); err != nil {
		return f, err
	}
	index, err := o.indexPDF(ctx, false)
	if err != nil {
		return f, err
	}
	made, err := request.SourceDate()
	if err != nil {
		return f, err
	}
	open := &opened{}
	defer open.close()
	parts := []io.ReadSeeker{bytes.NewReader(index)}
	for _, s := range o.Sheets {
		parts = append(parts, &part{path: filepath.Join(dir, s.File), in: open})
	}
	if err := request.Save(ctx, path, func(w io.Writer) error { return pdf.Join(ctx, w, parts, made) }); err != nil {
		return f, err
	}
	open.close()
	return f, clear(dir, known)
}

// BookFound counts the sheets of one PDF that a stopped run has left.
func (o *Occasion) BookFound(ctx context.Context, path string) (kept, all int, err error) {
	return o.Found(ctx, sheetsFolder(path), Part{})
}

// clear removes a folder with what was made in it, and nothing else.
func clear(dir string, known record) error {
	var names []string
	for name := range known {
		names = append(names, name)
	}
	if err := sweep(dir); err != nil {
		return err
	}
	for _, name := range append(names, journalFile) {
		if err := os.Remove(filepath.Join(dir, name)); err != nil && !os.IsNotExist(err) {
			return cannot(filepath.Join(dir, name), err)
		}
	}
	os.Remove(dir) // fails when a person put something there
	return nil
}

// opened is the one file that is open: an occasion may have more of them than a
// program may hold.
type opened struct {
	of   *part
	file *os.File
}

func (o *opened) close() {
	if o.file != nil {
		o.file.Close()
	}
	o.of, o.file = nil, nil
}

// part is a file that is opened when it is read.
type part struct {
	path string
	in   *opened
}

func (p *part) opened() (*os.File, error) {
	if p.in.of == p {
		return p.in.file, nil
	}
	p.in.close()
	f, err := os.Open(p.path)
	if err == nil {
		p.in.of, p.in.file = p, f
	}
	return f, err
}

func (p *part) Read(b []byte) (int, error) {
	f, err := p.opened()
	if err != nil {
		return 0, err
	}
	return f.Read(b)
}

func (p *part) Seek(offset int64, whence int) (int64, error) {
	f, err := p.opened()
	if err != nil {
		return 0, err
	}
	return f.Seek(offset, whence)
}
