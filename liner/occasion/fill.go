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

	"golang.org/x/sync/errgroup"

	"underflap/liner/request"
	"underflap/pattern/draw/pdf"
	"underflap/pattern/draw/progress"
)

// Filled is what came of filling a folder.
type Filled struct {
	Kept, Made int      // files of sheets that were there already, and that were not
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
func found(ctx context.Context, dir string, known record, files []Sheet) ([]bool, error) {
	there := make([]bool, len(files))
	var work errgroup.Group
	work.SetLimit(runtime.GOMAXPROCS(0))
	for i, s := range files {
		if known[s.File] == "" {
			continue
		}
		work.Go(func() error {
			sum, err := sumOf(ctx, filepath.Join(dir, s.File))
			there[i] = err == nil && sum == known[s.File]
			return ctx.Err()
		})
	}
	return there, work.Wait()
}

// Found counts the files of sheets, and those that a folder has already.
func (o *Occasion) Found(ctx context.Context, dir string, p Part) (kept, all int, err error) {
	files := o.files(p)
	known, err := readRecord(dir)
	if err != nil {
		return 0, 0, err
	}
	there, err := found(ctx, dir, known, files)
	for _, is := range there {
		if is {
			kept++
		}
	}
	return kept, len(files), err
}

// fill makes the files of a part that a folder lacks, several at once. Whatever
// stops it, every file that is there is whole, and is found again.
func (o *Occasion) fill(ctx context.Context, dir string, known record, p Part) (f Filled, err error) {
	files := o.files(p)
	there, err := found(ctx, dir, known, files)
	if err = first([]error{ctx.Err(), err}); err != nil {
		return f, err
	}
	var lacking []Sheet
	for i, s := range files {
		if !there[i] {
			lacking = append(lacking, s)
		}
	}
	f.Kept = len(files) - len(lacking)
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
			pages, err := o.pages(within, s)
			if err != nil {
				return err
			}
			path := filepath.Join(dir, s.File)
			if err := unlink(path); err != nil {
				return err
			}
			h := sha256.New()
			if err := request.Save(within, path, func(w io.Writer) error { return pdf.Write(within, io.MultiWriter(w, h), pages, made) }); err != nil {
				return err
			}
			mu.Lock()
			defer mu.Unlock()
			known[s.File] = hex.EncodeToString(h.Sum(nil))
			f.Made++
			shown.Done(1)
			return log.add(known[s.File], s.File)
		})
	}
	if err = work.Wait(); err == nil {
		err = ctx.Err()
	}
	return f, err
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

// Fill makes a folder of an occasion: the files of its sheets, an index and
// SHA256SUMS. Files that are there and whole are kept; others that an earlier run
// made and this one does not want are removed, unless all says that only some of
// the occasion's lines are made. Of a part only the sheets are made.
func (o *Occasion) Fill(ctx context.Context, dir string, p Part, all bool) (f Filled, err error) {
	undo, err := furnish(dir, dir)
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
	if f, err = o.fill(ctx, dir, known, p); err != nil || !p.whole() {
		return f, err
	}
	var names []string
	for _, s := range o.files(Part{}) {
		names = append(names, s.File)
	}
	if err := o.saveIndex(ctx, dir, known); err != nil {
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
var halfMade = regexp.MustCompile(`^\.(SHA256SUMS|(?:sheet-[a-z0-9-]+|index)\.pdf)\.[0-9a-f]{8}\.part$`)

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
