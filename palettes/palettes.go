// Package palettes reads palettes: a ground and the inks that lie on it. The
// project's own are the TOML files beside this one.
package palettes

import (
	"bytes"
	"embed"
	"errors"
	"fmt"
	"path"
	"slices"
	"strings"
	"sync"

	"github.com/pelletier/go-toml/v2"

	"underflap/pattern"
	"underflap/pattern/words"
)

//go:embed *.toml
var files embed.FS

// Default is the palette used when none is named.
const Default = "orchard-table"

// Palette is a set of colours and what it was made for.
type Palette struct {
	pattern.Colours
	For   string // the occasion
	About string
}

// All is every palette of the project, by name.
var All = sync.OnceValue(func() []Palette {
	names, err := files.ReadDir(".")
	if err != nil {
		panic(err)
	}
	var all []Palette
	for _, file := range names {
		data, err := files.ReadFile(file.Name())
		if err != nil {
			panic(err)
		}
		p, err := Parse(strings.TrimSuffix(path.Base(file.Name()), ".toml"), data)
		if err != nil {
			panic(err)
		}
		all = append(all, p)
	}
	slices.SortFunc(all, func(a, b Palette) int { return strings.Compare(a.Name, b.Name) })
	return all
})

// Names lists the palettes.
func Names() []string {
	var names []string
	for _, p := range All() {
		names = append(names, p.Name)
	}
	return names
}

// Named finds a palette; field is what to blame when there is none.
func Named(field, given string) (Palette, error) {
	name, err := words.Choose(field, strings.ReplaceAll(strings.TrimSpace(given), " ", "-"), Names())
	if err != nil {
		return Palette{}, &words.Refused{Field: field, Given: given, Why: "no such palette", Accepts: strings.Join(Names(), ", ")}
	}
	for _, p := range All() {
		if p.Name == name {
			return p, nil
		}
	}
	panic("palettes: a name without a palette")
}

// Parse reads a palette file. Unknown keys, bad colours and a missing ground
// or ink are refused with file and field.
func Parse(name string, data []byte) (Palette, error) {
	var form struct {
		For    string   `toml:"for"`
		About  string   `toml:"about"`
		Ground string   `toml:"ground"`
		Inks   []string `toml:"inks"`
	}
	decoder := toml.NewDecoder(bytes.NewReader(data)).DisallowUnknownFields()
	if err := decoder.Decode(&form); err != nil {
		return Palette{}, fmt.Errorf("palette %s: %w", name, tomlError(err))
	}
	p := Palette{For: form.For, About: form.About}
	p.Name = name
	var err error
	if p.Ground, err = Colour(name+".ground", form.Ground); err != nil {
		return Palette{}, err
	}
	if n := len(form.Inks); n < 1 || n > pattern.MostInks {
		return Palette{}, &words.Refused{Field: name + ".inks", Given: fmt.Sprint(n), Accepts: fmt.Sprintf("1 to %d inks", pattern.MostInks)}
	}
	for i, ink := range form.Inks {
		c, err := Colour(fmt.Sprintf("%s.inks[%d]", name, i), ink)
		if err != nil {
			return Palette{}, err
		}
		p.Inks = append(p.Inks, c)
	}
	return p, nil
}

// tomlError says line and column where the library knows them.
func tomlError(err error) error {
	var unknown *toml.StrictMissingError
	if errors.As(err, &unknown) && len(unknown.Errors) > 0 {
		line, column := unknown.Errors[0].Position()
		return fmt.Errorf("line %d, column %d: unknown key %q; accepted: for, about, ground, inks",
			line, column, strings.Join(unknown.Errors[0].Key(), "."))
	}
	var at *toml.DecodeError
	if errors.As(err, &at) {
		line, column := at.Position()
		return fmt.Errorf("line %d, column %d: %w", line, column, err)
	}
	return err
}
