package request

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"underflap/palettes"
	"underflap/palettes/derived"
	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

// PaletteFolder is where a shelf has a person's own palettes.
const PaletteFolder = "palettes"

// OwnPalette is a palette from the shelf, called as its file.
type OwnPalette struct {
	palettes.Palette
	path string
}

// Unread is a palette file of the shelf that cannot be used.
type Unread struct {
	Path string
	why  string
}

// Error is one line.
func (u *Unread) Error() string { return u.Path + u.why }

// Palettes lists the shelf's palettes. What cannot be read, and what is called
// like one of the project's or another of the shelf's, is passed over and comes
// back as a problem.
func (s Shelf) Palettes() (list []OwnPalette, problems []*Unread) {
	paths, unread := s.files(PaletteFolder, ".gpl")
	folder := filepath.Join(s.Dir, PaletteFolder)
	for _, err := range unread { // which names the folder
		problems = append(problems, &Unread{folder, strings.TrimPrefix(err.Error(), folder)})
	}
	// of hedge.gpl and hedge.toml the second is what --save-palette keeps
	slices.SortStableFunc(paths, func(a, b string) int { return strings.Compare(paletteName(a), paletteName(b)) })
	for _, path := range paths {
		name := paletteName(path)
		p, err := readPalette(filed.Disk{}, name, path)
		taken := slices.ContainsFunc(list, func(o OwnPalette) bool { return o.Name == name })
		switch {
		case !nameable(name):
			problems = append(problems, &Unread{path, ": a file's name may have up to 60 letters, digits, blanks and dashes"})
		case taken || slices.Contains(palettes.Names(), name):
			problems = append(problems, &Unread{path, fmt.Sprintf(": there is a palette %s already; give the file another name", name)})
		case err != nil:
			problems = append(problems, &Unread{path, ", " + err.Error()})
		default:
			list = append(list, OwnPalette{p, path})
		}
	}
	return list, problems
}

// PaletteSource is the file that a word for a palette reads, one of the shelf
// too; "" when it reads none.
func (s Shelf) PaletteSource(word string) string {
	if file := PaletteFile(word); file != "" || derived.Wish(word) {
		return file
	}
	list, _ := s.Palettes()
	for _, own := range list {
		if own.called(word) {
			return own.path
		}
	}
	return ""
}

// called tells whether a word names the palette.
func (o OwnPalette) called(word string) bool {
	return strings.EqualFold(o.Name, strings.ReplaceAll(strings.TrimSpace(word), " ", "-"))
}

// allPalettes are the project's and then the shelf's, with a remark on each that
// is passed over. A file of the shelf stands with the person's own, whatever
// occasion it is for.
func (s Shelf) allPalettes() (all []palettes.Palette, remarks []string) {
	own, problems := s.Palettes()
	all = palettes.ByOccasion()
	for _, p := range own {
		p.For = ""
		all = append(all, p.Palette)
	}
	return all, PassedOver(problems)
}

// MaySavePalette says in which file a palette of a name is kept and whether one
// is there already, or refuses the name.
func (s Shelf) MaySavePalette(name string) (path string, again bool, err error) {
	const field = "save-palette"
	if path, err = s.file(PaletteFolder, field, name); err != nil {
		return "", false, err
	}
	called, why := paletteName(path), ""
	switch {
	case PaletteFile(name) != "":
		why = "reads as a file's name"
	case strings.Contains(name, ","):
		why = "commas part the names of a list"
	case called == everything:
		why = "means every palette in a list"
	case slices.Contains(palettes.Names(), called):
		why = "there is a palette of that name"
	}
	if why != "" {
		return "", false, &words.Refused{Field: field, Given: name, Why: why, Accepts: "a name of your own, such as hedge"}
	}
	kept, _ := s.files(PaletteFolder, ".gpl")
	for _, old := range kept {
		if paletteName(old) != called {
			continue
		}
		if filepath.Ext(old) != ".toml" {
			return "", false, &words.Refused{Field: field, Given: name, Why: "there is a palette of that name in " + old, Accepts: "another name"}
		}
		return old, true, nil
	}
	return path, false, nil
}

// SavePalette keeps colours under a name, in place of those it had before, and
// says in which file.
func (s Shelf) SavePalette(ctx context.Context, name string, p palettes.Palette) (path string, err error) {
	if path, _, err = s.MaySavePalette(name); err != nil {
		return "", err
	}
	p.Indistinct = len(p.AlikeInSomeSight()) > 0
	return path, s.put(ctx, path, func(w io.Writer) error {
		if _, err := fmt.Fprintln(w, "# A palette saved by underflap. Colours are #rrggbb or CSS names."); err != nil {
			return err
		}
		return p.WriteTOML(w)
	})
}

// paletteFormats are the files a palette is written as, by their endings.
var paletteFormats = map[string]func(palettes.Palette, io.Writer) error{".toml": palettes.Palette.WriteTOML, ".gpl": palettes.Palette.WriteGPL}

// CheckPaletteOutput refuses a file that no palette can be written to.
func CheckPaletteOutput(path string) error {
	ending := strings.ToLower(filepath.Ext(path))
	if paletteFormats[ending] == nil || len(filepath.Base(path)) == len(ending) {
		return &words.Refused{Field: "output", Given: path, Accepts: "a file name that ends in .gpl or .toml"}
	}
	return noFolder(path)
}

// WritePalette writes a palette in the format of the file's ending; see Save.
func WritePalette(ctx context.Context, path string, p palettes.Palette) error {
	if err := CheckPaletteOutput(path); err != nil {
		return err
	}
	p.Indistinct = len(p.AlikeInSomeSight()) > 0
	write := paletteFormats[strings.ToLower(filepath.Ext(path))]
	return Save(ctx, path, func(w io.Writer) error { return write(p, w) })
}
