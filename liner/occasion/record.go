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
	"regexp"
	"strings"

	"underflap/liner/request"
	"underflap/pattern/words"
)

// A folder tells of its files what they hold: in SHA256SUMS once it is whole, in the
// form that sha256sum -c of GNU coreutils reads, and until then in a journal, to
// which each file adds a line when it is there. A line is written at one stroke to
// the journal's end, so that several programs may fill one folder.
const (
	SumsFile    = "SHA256SUMS"
	IndexFile   = "index.pdf"
	journalFile = ".sheets-made"
)

// mostRecord bounds what is read of either, in bytes: several times MostSheets
// lines.
const mostRecord = 8 << 20

// record is what is known of a folder's files: their digests in hex, by name.
type record map[string]string

// recorded is a line of either file. Names are ours, and plain.
var recorded = regexp.MustCompile(`^([0-9a-f]{64})  (index\.pdf|sheet-[a-z0-9-]+\.(?:pdf|dxf|svg))$`)

// readRecord reads what is known of a folder. A folder whose index or sums are
// another's is refused.
func readRecord(dir string) (record, error) {
	known := record{}
	for _, name := range []string{SumsFile, journalFile} {
		data, err := readAtMost(filepath.Join(dir, name))
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return nil, err
		}
		for line := range strings.Lines(string(data)) {
			entry := recorded.FindStringSubmatch(strings.TrimSuffix(line, "\n"))
			if entry == nil && name == SumsFile {
				return nil, notOurs(dir, name)
			}
			if entry != nil { // the journal's last line may be cut short
				known[entry[2]] = entry[1]
			}
		}
	}
	if _, err := os.Lstat(filepath.Join(dir, IndexFile)); err == nil && known[IndexFile] == "" {
		return nil, notOurs(dir, IndexFile)
	}
	return known, nil
}

func notOurs(dir, name string) error {
	return &words.Refused{Field: "output", Given: dir, Why: "holds a file " + name + " that underflap run did not make", Accepts: "another folder"}
}

func readAtMost(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, mostRecord+1))
	if err == nil && len(data) > mostRecord {
		err = fmt.Errorf("%s: longer than %d MB", path, mostRecord>>20)
	}
	return data, err
}

// journal adds lines to a folder's journal.
type journal struct{ *os.File }

func openJournal(dir string) (journal, error) {
	path := filepath.Join(dir, journalFile)
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_APPEND, 0o666)
	if err != nil {
		return journal{}, cannot(path, err)
	}
	if info, err := f.Stat(); err == nil && info.Size() > 0 { // what was cut short ends here
		_, err = f.WriteString("\n")
		if err != nil {
			f.Close()
			return journal{}, cannot(path, err)
		}
	}
	return journal{f}, nil
}

func (j journal) add(sum, name string) error {
	if _, err := j.WriteString(sum + "  " + name + "\n"); err != nil {
		return cannot(j.Name(), err)
	}
	return nil
}

// forget removes a journal that nothing was added to.
func (j journal) forget() {
	if info, err := os.Stat(j.Name()); err == nil && info.Size() == 0 {
		os.Remove(j.Name())
	}
}

// cannot says which file could not be written and why, without its name twice.
func cannot(path string, err error) error {
	var why *fs.PathError
	if errors.As(err, &why) {
		err = why.Err
	}
	return fmt.Errorf("cannot write %s: %w", path, err)
}

// sumOf is the digest of a file, in hex. When ctx ends it gives the context's error.
func sumOf(ctx context.Context, path string) (string, error) {
	info, err := os.Lstat(path)
	if err != nil {
		return "", err
	}
	if !info.Mode().IsRegular() {
		return "", errors.New("not a file")
	}
	f, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	h := sha256.New()
	buf := make([]byte, 1<<16)
	for {
		n, err := f.Read(buf)
		h.Write(buf[:n])
		if err == io.EOF {
			return hex.EncodeToString(h.Sum(nil)), ctx.Err()
		}
		if err = first([]error{ctx.Err(), err}); err != nil {
			return "", err
		}
	}
}

// keep writes SHA256SUMS, in the order of names, and puts the journal away.
func (r record) keep(ctx context.Context, dir string, names []string) error {
	var b bytes.Buffer
	for _, name := range names {
		fmt.Fprintf(&b, "%s  %s\n", r[name], name)
	}
	path := filepath.Join(dir, SumsFile)
	if now, err := readAtMost(path); err != nil || !bytes.Equal(now, b.Bytes()) {
		if err := request.Save(ctx, path, func(w io.Writer) error { _, err := w.Write(b.Bytes()); return err }); err != nil {
			return err
		}
	}
	if err := os.Remove(filepath.Join(dir, journalFile)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return cannot(filepath.Join(dir, journalFile), err)
	}
	return nil
}
