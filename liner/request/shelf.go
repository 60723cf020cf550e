package request

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"github.com/pelletier/go-toml/v2"

	"underflap/liner"
	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

// Shelf is the folder where a person's own measured envelopes and printers are
// kept, a TOML file each, to be read and edited. The empty shelf keeps nothing.
type Shelf struct{ Dir string }

// UsualShelf is the shelf in the user's configuration folder.
func UsualShelf() Shelf {
	dir, err := os.UserConfigDir()
	if err != nil {
		return Shelf{} // no home: nothing is kept, and saving says so
	}
	return Shelf{filepath.Join(dir, "underflap")}
}

// The shelf's folders, one for each kind of thing.
const (
	envelopeFolder = "envelopes"
	printerFolder  = "printers"
)

// mostKept bounds a file on the shelf; a traced flap of the greatest number of
// points has about 200 kB.
const mostKept = 1 << 20

// file is where something of a name is kept.
func (s Shelf) file(folder, field, name string) (string, error) {
	name = strings.TrimSpace(name)
	if !nameable(name) {
		return "", &words.Refused{Field: field, Given: name, Accepts: "a name of up to 60 letters, digits, blanks and dashes, such as winter-fair"}
	}
	if s.Dir == "" {
		return "", &words.Refused{Field: field, Given: name, Why: "no configuration folder to keep it in", Accepts: "with HOME or XDG_CONFIG_HOME set"}
	}
	return filepath.Join(s.Dir, folder, strings.ReplaceAll(strings.ToLower(name), " ", "-")+".toml"), nil
}

// nameable tells whether a name may stand for something kept.
func nameable(name string) bool {
	strange := func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsMark(r) && !unicode.IsDigit(r) && !strings.ContainsRune(" -_.,×&'", r)
	}
	return name != "" && len([]rune(name)) <= 60 && !strings.ContainsFunc(name, strange) && !strings.HasPrefix(name, ".")
}

// keep writes a file of the shelf; about is the comment at its top.
func (s Shelf) keep(ctx context.Context, path, about string, content any) error {
	var b bytes.Buffer
	fmt.Fprintf(&b, "# %s\n", about)
	encoder := toml.NewEncoder(&b)
	encoder.SetArraysMultiline(false)
	if err := encoder.Encode(content); err != nil {
		return err
	}
	return s.put(ctx, path, func(w io.Writer) error { _, err := w.Write(b.Bytes()); return err })
}

// put writes a file of the shelf, whose folder is made when there is none yet.
func (s Shelf) put(ctx context.Context, path string, write func(io.Writer) error) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return fmt.Errorf("cannot make %s: %w", filepath.Dir(path), reason(err))
	}
	return Save(ctx, path, write)
}

// read reads a file of the shelf into content; unknown keys are refused with
// line and column.
func (s Shelf) read(path string, content any) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, mostKept+1))
	if err != nil {
		return fmt.Errorf("%s: %w", path, reason(err))
	}
	if len(data) > mostKept {
		return fmt.Errorf("%s: too long", path)
	}
	var slip *filed.Slip
	switch err := filed.Decode(data, content); {
	case errors.As(err, &slip):
		return fmt.Errorf("%s, %w", path, err)
	case err != nil:
		return fmt.Errorf("%s: %w", path, err)
	}
	return nil
}

// PassedOver is a remark on each thing of the shelf that could not be used.
func PassedOver[E error](problems []E) (remarks []string) {
	for _, problem := range problems {
		remarks = append(remarks, "passed over: "+problem.Error())
	}
	return remarks
}

// files lists what is kept in a folder of the shelf, by name: TOML files, and
// those of other endings asked for.
func (s Shelf) files(folder string, endings ...string) (paths []string, problems []error) {
	if s.Dir == "" {
		return nil, nil
	}
	entries, err := os.ReadDir(filepath.Join(s.Dir, folder)) // by name
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, []error{fmt.Errorf("%s: %w", filepath.Join(s.Dir, folder), reason(err))}
	}
	for _, e := range entries {
		if name, ending := e.Name(), filepath.Ext(e.Name()); (ending == ".toml" || slices.Contains(endings, ending)) && !strings.HasPrefix(name, ".") {
			paths = append(paths, filepath.Join(s.Dir, folder, name))
		}
	}
	return paths, nil
}

// kept is an envelope as its file says it, in the words of the flags. Numbers
// are millimetres; text may carry a unit.
type kept struct {
	Name         string      `toml:"name"`
	Pocket       string      `toml:"pocket" comment:"width along the fold x height"`
	Flap         string      `toml:"flap,omitempty"`
	FlapDepth    any         `toml:"flap-depth,omitempty" comment:"from the fold to the flap's farthest point"`
	Shoulder     any         `toml:"shoulder,omitempty"`
	Taper        any         `toml:"taper,omitempty"`
	BaseGap      any         `toml:"base-gap,omitempty"`
	TipRadius    any         `toml:"tip-radius,omitempty"`
	CornerRadius any         `toml:"flap-corner-radius,omitempty"`
	Gum          any         `toml:"gum,omitempty" comment:"width of the gum strip; 0 when there is none"`
	Points       [][]float64 `toml:"points,omitempty" comment:"a traced flap: x along the fold, height"`
}

// MaySave says in which file an envelope of a name is kept and whether one is
// there already, or refuses the name.
func (s Shelf) MaySave(name string) (path string, again bool, err error) {
	const field = "save-envelope"
	if path, err = s.file(envelopeFolder, field, name); err != nil {
		return "", false, err
	}
	if row, err := liner.LookUp(name); err == nil {
		return "", false, &words.Refused{Field: field, Given: name, Why: "the size table has " + row.Trade[0], Accepts: "a name of your own, such as winter-fair"}
	}
	list, _ := s.Envelopes()
	for _, e := range list {
		if liner.SameName(e.Name, name) { // "st. ives" is "St Ives"
			return e.path, true, nil
		}
	}
	_, err = os.Stat(path)
	return path, err == nil, nil
}

// SaveEnvelope keeps an envelope under a name, in place of one it had before,
// and says in which file.
func (s Shelf) SaveEnvelope(ctx context.Context, name string, e liner.Envelope) (path string, err error) {
	if path, _, err = s.MaySave(name); err != nil {
		return "", err
	}
	k := kept{Name: strings.TrimSpace(name), Pocket: fmt.Sprintf("%sx%s", number(e.Width), number(e.Height)), Gum: nanometre(e.Gum)}
	if e.Flap.Shape == liner.Traced {
		for _, p := range e.Flap.Trace {
			k.Points = append(k.Points, []float64{nanometre(p.X), nanometre(p.Y)})
		}
	} else {
		// what is usual on such a flap is not said: the file stays short, and the tip
		// of a flat contour flap has a radius past every limit
		usual := liner.UsualFlap(e.Flap.Shape, e.Flap.Depth, e.Width)
		k.Flap, k.FlapDepth = string(e.Flap.Shape), nanometre(e.Flap.Depth)
		for field, value := range map[string]struct {
			into      *any
			mm, usual float64
		}{"shoulder": {&k.Shoulder, e.Flap.Shoulder, usual.Shoulder}, "taper": {&k.Taper, e.Flap.Taper, usual.Taper}, "base-gap": {&k.BaseGap, e.Flap.BaseGap, usual.BaseGap},
			"tip-radius": {&k.TipRadius, e.Flap.TipRadius, usual.TipRadius}, "flap-corner-radius": {&k.CornerRadius, e.Flap.CornerRadius, usual.CornerRadius}} {
			if slices.Contains(e.Flap.Shape.Takes(), field) && value.mm != value.usual {
				*value.into = nanometre(value.mm)
			}
		}
		if e.Flap.Shape == liner.Square {
			k.CornerRadius = nil // the tip radius says it
		}
	}
	return path, s.keep(ctx, path, "An envelope saved by underflap. Lengths are millimetres; write a unit in quotes: \"2 3/4in\".", k)
}

// number writes a length in full, without a unit.
func number(mm float64) string { return fmt.Sprint(nanometre(mm)) }

// Saved is an envelope from the shelf.
type Saved struct {
	Name string
	liner.Envelope
	path string
}

// Envelopes lists the shelf's envelopes. What cannot be read is passed over
// and comes back as a problem.
func (s Shelf) Envelopes() (list []Saved, problems []error) {
	paths, problems := s.files(envelopeFolder)
	for _, path := range paths {
		if saved, err := s.envelope(path); err != nil {
			problems = append(problems, err)
		} else {
			list = append(list, saved)
		}
	}
	return list, problems
}

// Entries is the size table with the shelf's envelopes behind it.
func (s Shelf) Entries() (entries []liner.Entry, problems []error) {
	list, problems := s.Envelopes()
	entries = slices.Clone(liner.Entries())
	for _, e := range list {
		entries = append(entries, liner.Entry{Name: e.Envelope.Name, Family: SavedFamily, Trade: []string{e.Name}, Width: e.Width, Height: e.Height,
			Flaps: []liner.TradeFlap{{Shape: e.Flap.Shape, Depth: e.Flap.Depth, Gum: e.Gum}}, SizeSource: "measured", FlapSource: "measured"})
	}
	return entries, problems
}

// SavedFamily is where a person's own envelopes stand in a list of sizes.
const SavedFamily = "Saved"

// Envelope finds an envelope on the shelf; ok is false when there is none of
// that name.
func (s Shelf) Envelope(name string) (saved Saved, ok bool, err error) {
	list, _ := s.Envelopes()
	for _, e := range list {
		if liner.SameName(e.Name, name) {
			return e, true, nil
		}
	}
	path, err := s.file(envelopeFolder, "envelope", name)
	if err != nil {
		return Saved{}, false, nil // no name of an envelope at all
	}
	saved, err = s.envelope(path)
	if errors.Is(err, fs.ErrNotExist) {
		return Saved{}, false, nil
	}
	return saved, err == nil, err
}

// envelope reads one file through the same words as the flags.
func (s Shelf) envelope(path string) (Saved, error) {
	var k kept
	if err := s.read(path, &k); err != nil {
		return Saved{}, err
	}
	if k.Name == "" {
		k.Name = strings.TrimSuffix(filepath.Base(path), ".toml")
	}
	w := Words{Pocket: k.Pocket, Flap: k.Flap, FlapDepth: text(k.FlapDepth), Shoulder: text(k.Shoulder), Taper: text(k.Taper),
		BaseGap: text(k.BaseGap), TipRadius: text(k.TipRadius), FlapCornerRadius: text(k.CornerRadius), Gum: text(k.Gum), trace: k.Points, kept: true}
	e, err := measured(w)
	if err == nil { // measurements that make no envelope belong to the file
		err = e.Check()
	}
	if err == nil && !nameable(k.Name) {
		err = &words.Refused{Field: "name", Given: k.Name, Accepts: "up to 60 letters, digits, blanks and dashes"}
	}
	var refused *words.Refused
	if errors.As(err, &refused) && refused.Field == "profile" {
		refused.Field = "points" // as the file has it
	}
	if err != nil {
		return Saved{}, fmt.Errorf("%s: %w", path, err)
	}
	e.Name, e.Short = "saved", k.Name
	return Saved{k.Name, e, path}, nil
}

// Pockets of the shelf: the table has sides from 28 mm to 1414 mm, and each can be
// kept.
const leastKeptPocket, mostKeptPocket = 20.0, 1500.0

// text is a value of a file as a person would type it.
func text(v any) string {
	if v == nil {
		return ""
	}
	if mm, ok := v.(float64); ok {
		return strconv.FormatFloat(mm, 'f', -1, 64) // not 1e-05
	}
	return fmt.Sprint(v)
}
