// Package palettes reads palettes: a ground and the inks that lie on it. The
// project's own are the TOML files beside this one.
package palettes

import (
	"embed"
	"path"
	"slices"
	"strings"
	"sync"

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
	For        string // the occasion
	About      string
	Indistinct bool // says itself that its colours do not all tell apart in every sight; see Alike
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
			panic(file.Name() + ": " + err.Error())
		}
		all = append(all, p)
	}
	slices.SortFunc(all, func(a, b Palette) int { return strings.Compare(a.Name, b.Name) })
	return all
})

// ByOccasion is every palette, those of one occasion together.
func ByOccasion() []Palette {
	all := slices.Clone(All())
	slices.SortStableFunc(all, func(a, b Palette) int { return strings.Compare(a.For, b.For) })
	return all
}

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
