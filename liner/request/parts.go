package request

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"sync"
)

// parts are the files that are being written now, under the names they have until
// they are whole.
var parts = struct {
	sync.Mutex
	open      map[*os.File]bool
	abandoned bool
}{open: map[*os.File]bool{}}

var errAbandoned = errors.New("the program is ending")

// Abandon removes every file that is not whole yet, and lets none become whole
// afterwards. It is for a program that ends while work goes on that cannot be
// stopped: what Save has put in its place is whole, and nothing else is left.
func Abandon() {
	parts.Lock()
	defer parts.Unlock()
	parts.abandoned = true
	for f := range parts.open {
		f.Close() // some systems remove no file that is open
		os.Remove(f.Name())
	}
}

// createBeside makes a new file in the target's folder with the permissions a
// plainly created file would have, and marks it as being written.
func createBeside(target string) (*os.File, error) {
	parts.Lock()
	defer parts.Unlock()
	for {
		if parts.abandoned {
			return nil, errAbandoned
		}
		name := filepath.Join(filepath.Dir(target), fmt.Sprintf("%s%08x.part", partPrefix(target), rand.Uint32()))
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return nil, err
		}
		lock(f)
		if _, err := os.Lstat(name); errors.Is(err, fs.ErrNotExist) { // another program swept it before it was marked
			f.Close()
			continue
		}
		parts.open[f] = true
		return f, nil
	}
}

// keepPart puts a part file in its target's place, unless the program is ending.
func keepPart(f *os.File, target string) error {
	parts.Lock()
	defer parts.Unlock()
	if parts.abandoned {
		return errAbandoned
	}
	if err := place(f, target); err != nil {
		return err
	}
	delete(parts.open, f)
	return nil
}

// drop removes a part file that will not become whole.
func drop(f *os.File) {
	parts.Lock()
	defer parts.Unlock()
	delete(parts.open, f)
	f.Close()
	os.Remove(f.Name())
}

// partPrefix is how the part files of a target begin. A name too long to grow by
// a few letters has its digest there.
func partPrefix(target string) string {
	base := filepath.Base(target)
	if len(base) > 200 {
		base = fmt.Sprintf("%x", sha256.Sum256([]byte(base)))[:32]
	}
	return "." + base + "."
}

// Sweep removes the part files of a target that nobody is writing any more: a
// program that is killed leaves its own. Save does so by itself.
func Sweep(target string) {
	dir := filepath.Dir(target)
	stale := regexp.MustCompile("^" + regexp.QuoteMeta(partPrefix(target)) + `[0-9a-f]{8}\.part$`)
	d, err := os.Open(dir)
	if err != nil {
		return // writing will say what is wrong
	}
	defer d.Close()
	names, _ := d.Readdirnames(-1)
	for _, name := range names {
		if stale.MatchString(name) {
			removeUnlocked(filepath.Join(dir, name))
		}
	}
}
