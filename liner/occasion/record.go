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
// form that sha256sum -c of GNU coreutils reads, and until then in journals, to
// which each file adds a line when it is there. A line is written at one stroke to
// a journal's end, so that several programs may fill one folder. Each part has a
// journal of its own, so that folders filled on several machines can be put together
// by copying.
const (
	SumsFile    = "SHA256SUMS"
	IndexFile   = "index.pdf"
	journalFile = ".sheets-made"
)

// journals are the names of the journals of a whole and of parts.
var journals = regexp.MustCompile(`^\.sheets-made(\.[0-9]{1,4}-of-[0-9]{1,4})?$`)

// journal is the name of a part's journal.
func (p Part) journal() string {
	if p.whole() {
		return journalFile
	}
	return fmt.Sprintf("%s.%d-of-%d", journalFile, p.Number, p.Of)
}

// journalsIn are the names of the journals in a folder.
func journalsIn(dir string) (names []string, err error) {
	entries, err := os.ReadDir(dir)
	for _, entry := range entries {
		if journals.MatchString(entry.Name()) {
			names = append(names, entry.Name())
		}
	}
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	return names, err
}

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
	names, err := journalsIn(dir)
	if err != nil {
		return nil, err
	}
	for _, name := range append([]string{SumsFile}, names...) {
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
	info, err := os.Stat(path)
	if err == nil && !info.Mode().IsRegular() { // opening a pipe would wait for ever
		err = fmt.Errorf("%s is no ordinary file", path)
	}
	if err != nil {
		return nil, err
	}
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

// journal adds lines to one of a folder's journals.
type journal struct{ *os.File }

func openJournal(dir string, p Part) (journal, error) {
	path := filepath.Join(dir, p.journal())
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

// joined takes over what others have put on record meanwhile.
func (r record) joined(now record) {
	for name, sum := range now {
		if r[name] == "" {
			r[name] = sum
		}
	}
}

// keep writes SHA256SUMS, in the order of names, and puts the journals away.
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
	old, err := journalsIn(dir)
	for _, name := range old {
		if err := os.Remove(filepath.Join(dir, name)); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return cannot(filepath.Join(dir, name), err)
		}
	}
	return err
}
