package occasion

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sync"

	"underflap/liner/request"
	"underflap/pattern/draw/pdf"
)

// sheetsFolder is where the sheets of one PDF are made: beside it, hidden. A name
// too long to grow has its digest there.
func sheetsFolder(path string) string {
	base := filepath.Base(path)
	if len(base) > 200 {
		base = fmt.Sprintf("%x", sha256.Sum256([]byte(base)))[:32]
	}
	return filepath.Join(filepath.Dir(path), "."+base+".sheets")
}

// Book makes one PDF of an occasion: its index, then every sheet in order. Its
// sheets are made in a folder beside it, where they are found again after a stop,
// and which is gone when the PDF is whole. A PDF that is there and is just this one,
// to the last byte, is kept.
func (o *Occasion) Book(ctx context.Context, path string) (f Filled, err error) {
	index := sync.OnceValues(func() ([]byte, error) { return o.indexPDF(ctx, false) })
	if is, err := o.isBook(ctx, path, index); err != nil || is {
		return Filled{Kept: len(o.files(Part{}))}, err
	}
	return o.bookAgain(ctx, path, index)
}

// bookAgain makes the PDF, and begins again where sheets are gone: another run of the
// same PDF takes them away once that is whole.
func (o *Occasion) bookAgain(ctx context.Context, path string, index func() ([]byte, error)) (f Filled, err error) {
	const rounds = 3
	for range rounds {
		if f, err = o.book(ctx, path, index); !errors.Is(err, fs.ErrNotExist) {
			break
		}
	}
	return f, err
}

// mark tells one PDF from any other: its index and its sheets, whose names tell what
// is in them.
func (o *Occasion) mark(index []byte) string {
	h := sha256.New()
	fmt.Fprintf(h, "%x\n", sha256.Sum256(index))
	for _, s := range o.Sheets {
		fmt.Fprintln(h, s.File)
	}
	return hex.EncodeToString(h.Sum(nil))
}

// isBook tells whether a file is there that is the occasion's PDF, and whole.
func (o *Occasion) isBook(ctx context.Context, path string, index func() ([]byte, error)) (bool, error) {
	if info, err := os.Stat(path); err != nil || !info.Mode().IsRegular() {
		return false, ctx.Err()
	}
	file, err := os.Open(path)
	if err != nil {
		return false, ctx.Err() // writing says what is wrong
	}
	defer file.Close()
	found, err := pdf.Marked(ctx, file)
	if err != nil {
		return false, ctx.Err()
	}
	drawn, err := index()
	return err == nil && found == o.mark(drawn), err
}

// book makes the PDF.
func (o *Occasion) book(ctx context.Context, path string, index func() ([]byte, error)) (f Filled, err error) {
	dir := sheetsFolder(path)
	known, undo, err := enter(dir, path)
	if err != nil {
		return f, err
	}
	defer func() {
		if err != nil {
			undo()
		}
	}()
	if f, err = o.fill(ctx, dir, known, Part{}, "", index); err != nil {
		return f, err
	}
	drawn, err := index()
	if err != nil {
		return f, err
	}
	made, err := request.SourceDate()
	if err != nil {
		return f, err
	}
	open := &opened{}
	defer open.close()
	parts := []io.ReadSeeker{bytes.NewReader(drawn)}
	for _, s := range o.Sheets {
		parts = append(parts, &part{path: filepath.Join(dir, s.File), in: open})
	}
	if err := request.Save(ctx, path, func(w io.Writer) error { return pdf.Join(ctx, w, parts, made, o.mark(drawn)) }); err != nil {
		return f, err
	}
	open.close()
	return f, clear(dir, known)
}

// BookFound counts the sheets of one PDF that are there: all of them when it is
// whole, else those that a stopped run has left.
func (o *Occasion) BookFound(ctx context.Context, path string) (kept, all int, err error) {
	is, err := o.isBook(ctx, path, func() ([]byte, error) { return o.indexPDF(ctx, false) })
	if err != nil || is {
		all = len(o.files(Part{}))
		return all, all, err
	}
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
	old, err := journalsIn(dir)
	if err != nil {
		return cannot(dir, err)
	}
	for _, name := range append(names, old...) {
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
