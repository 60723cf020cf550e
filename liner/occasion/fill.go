package occasion

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"sync"
	"time"

	"golang.org/x/sync/errgroup"

	"underflap/liner/request"
	"underflap/pattern/draw/pdf"
	"underflap/pattern/draw/progress"
)

// Filled is what came of filling a folder.
type Filled struct {
	Kept, Made int      // sheets whose files were there already, and those that lacked one
	Removed    []string // files of earlier sheets that are not wanted any more
}

// files are the sheets of a part, one for each file, in order.
func (o *Occasion) files(p Part) (all []Sheet) {
	seen := map[string]bool{}
	for _, s := range o.Sheets {
		if !seen[s.File] {
			seen[s.File] = true
			all = append(all, s)
		}
	}
	if p.whole() {
		return all
	}
	var mine []Sheet
	for i := p.Number - 1; i < len(all); i += p.Of {
		mine = append(mine, all[i])
	}
	return mine
}

// found tells for each file whether it is there as it was recorded.
func found(ctx context.Context, dir string, known record, files []string) ([]bool, error) {
	there := make([]bool, len(files))
	var work errgroup.Group
	work.SetLimit(runtime.GOMAXPROCS(0))
	for i, name := range files {
		if known[name] == "" {
			continue
		}
		work.Go(func() error {
			sum, err := sumOf(ctx, filepath.Join(dir, name))
			there[i] = err == nil && sum == known[name]
			return ctx.Err()
		})
	}
	return there, work.Wait()
}

// wantedSheet is a sheet of a folder and what it lacks there.
type wantedSheet struct {
	Sheet
	lacks []string // of its files, in the order in which they are made
}

// lacking are the sheets of a part, each with those of its files that are not there
// as they were recorded.
func (o *Occasion) lacking(ctx context.Context, dir string, known record, p Part, cuts string) (all []wantedSheet, err error) {
	sheets := o.files(p)
	var names []string
	for _, s := range sheets {
		names = append(names, s.names(cuts)...)
	}
	there, err := found(ctx, dir, known, names)
	if err = first([]error{ctx.Err(), err}); err != nil {
		return nil, err
	}
	for _, s := range sheets {
		w := wantedSheet{Sheet: s}
		for _, name := range s.names(cuts) {
			if !there[0] {
				w.lacks = append(w.lacks, name)
			}
			there = there[1:]
		}
		all = append(all, w)
	}
	return all, nil
}

// Found counts the different sheets, and those all of whose files a folder has already.
func (o *Occasion) Found(ctx context.Context, dir string, p Part) (kept, all int, err error) {
	known, err := readRecord(dir)
	if err != nil {
		return 0, 0, err
	}
	sheets, err := o.lacking(ctx, dir, known, p, o.cuts)
	for _, s := range sheets {
		if len(s.lacks) == 0 {
			kept++
		}
	}
	return kept, len(sheets), err
}

// fill makes the files of a part that a folder lacks, several at once, and beside them
// asks for the index, where one is wanted; cuts is the format of cut files, or "". Whatever stops it, every file that is there is whole,
// and is found again.
func (o *Occasion) fill(ctx context.Context, dir string, known record, p Part, cuts string, index func() ([]byte, error)) (f Filled, err error) {
	lacking, err := o.lacking(ctx, dir, known, p, cuts)
	if err != nil {
		return f, err
	}
	all := len(lacking)
	lacking = slices.DeleteFunc(lacking, func(s wantedSheet) bool { return len(s.lacks) == 0 })
	f.Kept = all - len(lacking)
	if len(lacking) == 0 {
		return f, nil
	}
	made, err := request.SourceDate()
	if err != nil {
		return f, err
	}
	log, err := openJournal(dir, p)
	if err != nil {
		return f, err
	}
	defer func() {
		log.Close()
		if err != nil && f.Made == 0 && p.whole() { // nothing came of it
			log.forget()
		}
	}()
	defer collectLess()()
	if index != nil {
		var drawn sync.WaitGroup
		drawn.Go(func() { index() }) // who wants it asks again, and hears of an error
		defer drawn.Wait()
	}
	shown := progress.Begin(ctx, "sheet", len(lacking))
	defer shown.End()
	var mu sync.Mutex
	work, within := errgroup.WithContext(ctx)
	work.SetLimit(runtime.GOMAXPROCS(0))
	for _, s := range lacking {
		work.Go(func() error {
			if err := within.Err(); err != nil {
				return err
			}
			for _, name := range s.lacks {
				sum, err := o.save(within, dir, name, s.Sheet, made)
				if err != nil {
					return err
				}
				mu.Lock()
				known[name] = sum
				err = log.add(sum, name)
				mu.Unlock()
				if err != nil {
					return err
				}
			}
			mu.Lock()
			defer mu.Unlock()
			f.Made++
			shown.Done(1)
			return nil
		})
	}
	if err = work.Wait(); err == nil {
		err = ctx.Err()
	}
	return f, err
}

// save writes one of a sheet's files and gives its digest.
func (o *Occasion) save(ctx context.Context, dir, name string, s Sheet, made time.Time) (sum string, err error) {
	write := func(w io.Writer) error { return s.cut(w, name) }
	if name == s.File {
		pages, err := o.pages(ctx, s)
		if err != nil {
			return "", err
		}
		write = func(w io.Writer) error { return pdf.Write(ctx, w, pages, made) }
	}
	path := filepath.Join(dir, name)
	if err := unlink(path); err != nil {
		return "", err
	}
	h := sha256.New()
	if err := request.Save(ctx, path, func(w io.Writer) error { return write(io.MultiWriter(w, h)) }); err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

// unlink removes a link that stands in a sheet's place: what it leads to is not ours
// to write to, as request.Save would.
func unlink(path string) error {
	info, err := os.Lstat(path)
	if err != nil || info.Mode()&fs.ModeSymlink == 0 {
		return nil // writing says what is wrong
	}
	if err := os.Remove(path); err != nil {
		return cannot(path, err)
	}
	return nil
}

// furnish sees to it that a folder is there, which is wanted for target, and gives
// what takes it away again while it is empty.
func furnish(dir, target string) (undo func(), err error) {
	err = os.Mkdir(dir, 0o777)
	if errors.Is(err, fs.ErrExist) {
		if info, statErr := os.Stat(dir); statErr == nil && info.IsDir() {
			return func() {}, nil
		}
	}
	if err != nil {
		return nil, cannot(target, err)
	}
	return func() { os.Remove(dir) }, nil // fails when there is something in it
}

// enter furnishes a folder and reads its record; see furnish.
func enter(dir, target string) (known record, undo func(), err error) {
	if undo, err = furnish(dir, target); err != nil {
		return nil, nil, err
	}
	if known, err = readRecord(dir); err != nil {
		undo()
	}
	return known, undo, err
}

// Fill makes a folder of an occasion: the files of its sheets, cut files where they
// are wanted, an index and SHA256SUMS. Files that are there and whole are kept; others that an earlier run
// made and this one does not want are removed, unless all says that only some of
// the occasion's lines are made. Of a part only the sheets are made.
func (o *Occasion) Fill(ctx context.Context, dir string, p Part, all bool) (f Filled, err error) {
	known, undo, err := enter(dir, dir)
	if err != nil {
		return f, err
	}
	defer func() {
		if err != nil {
			undo()
		}
	}()
	var index func() ([]byte, error)
	if p.whole() {
		index = sync.OnceValues(func() ([]byte, error) { return o.indexPDF(ctx, true) })
	}
	if f, err = o.fill(ctx, dir, known, p, o.cuts, index); err != nil || !p.whole() {
		return f, err
	}
	var names []string
	for _, s := range o.files(Part{}) {
		names = append(names, s.names(o.cuts)...)
	}
	if err := saveIndex(ctx, dir, known, index); err != nil {
		return f, err
	}
	now, err := readRecord(dir) // others may have filled it as well
	if err != nil {
		return f, err
	}
	known.joined(now)
	if f.Removed, names, err = others(ctx, dir, known, names, all); err != nil {
		return f, err
	}
	if err := sweep(dir); err != nil {
		return f, err
	}
	return f, known.keep(ctx, dir, append([]string{IndexFile}, names...))
}

// others goes through the recorded files that are not wanted: where all is true
// they are removed, if they are as they were made, else they stay on record.
func others(ctx context.Context, dir string, known record, names []string, all bool) (removed, kept []string, err error) {
	wanted := map[string]bool{IndexFile: true}
	for _, name := range names {
		wanted[name] = true
	}
	var old []string
	for name := range known {
		if !wanted[name] {
			old = append(old, name)
		}
	}
	slices.Sort(old)
	for _, name := range old {
		path := filepath.Join(dir, name)
		sum, err := sumOf(ctx, path)
		switch {
		case ctx.Err() != nil:
			return removed, names, ctx.Err()
		case err != nil || sum != known[name]: // gone, or changed by the person
		case !all:
			names = append(names, name)
		default:
			if err := os.Remove(path); err != nil {
				return removed, names, cannot(path, err)
			}
			removed = append(removed, name)
		}
	}
	return removed, names, nil
}

// halfMade is the name of a file of ours before it is whole; see request.Save.
var halfMade = regexp.MustCompile(`^\.(SHA256SUMS|index\.pdf|sheet-[a-z0-9-]+\.(?:pdf|dxf|svg))\.[0-9a-f]{8}\.part$`)

// sweep takes away what runs that were killed left half-made, also of sheets that
// are not wanted any more. What another program is writing stays.
func sweep(dir string) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return cannot(dir, err)
	}
	for _, entry := range entries {
		if of := halfMade.FindStringSubmatch(entry.Name()); of != nil {
			request.Sweep(filepath.Join(dir, of[1]))
		}
	}
	return nil
}
