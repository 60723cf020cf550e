package request

import (
	"context"
	"path/filepath"
	"slices"
	"strings"

	"underflap/palettes"
	"underflap/palettes/derived"
	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

// ownColours is what inks without the name of a palette are called.
const ownColours = "colours of your own"

// ResolvePalette finds the palette and puts the person's own inks and ground in
// place of its, with remarks on them, a line each. The project's palettes are checked already; of others a remark
// says which colours look alike, and to whom. When ctx ends it stops and gives the context's
// error.
func ResolvePalette(ctx context.Context, w Words) (p palettes.Palette, remarks []string, err error) {
	if w.Palette != "" && w.Inks != "" && w.Ground != "" {
		return p, nil, typed{"palette", w.Palette}.refused("nothing of it is left beside --inks and --ground", "without --palette")
	}
	p, remarks, err = findPalette(ctx, w, or(w.Palette, palettes.Default))
	if err != nil {
		return p, nil, err
	}
	named := p.Name
	if w.Ground != "" {
		if p.Ground, err = palettes.Colour("ground", w.Ground); err != nil {
			return p, nil, err
		}
		p.Name += " on " + strings.ToLower(strings.TrimSpace(w.Ground))
	}
	if w.Inks != "" {
		if p.Inks, err = palettes.ParseInks("inks", w.Inks); err != nil {
			return p, nil, err
		}
		if p.Name = ownColours; w.Palette != "" { // whose ground is left
			p.Name = "own inks on " + named
		}
	}
	if w.Ground != "" || w.Inks != "" {
		p.For, p.About, p.Indistinct = "", "", false
	}
	if !p.Indistinct && !w.Grey { // nobody is nagged about what a palette says itself, nor about colours that become greys kept apart
		remarks = append(remarks, p.Remarks()...)
	}
	return p, remarks, nil
}

// findPalette derives a palette, or finds it by name, in a file or on the shelf.
func findPalette(ctx context.Context, w Words, word string) (p palettes.Palette, remarks []string, err error) {
	if derived.Wish(word) { // before a path: photo:pictures/card.jpg has a slash
		return w.Memory.derive(ctx, w.files(), word)
	}
	if file := PaletteFile(word); file != "" {
		p, err = readPalette(w.files(), paletteName(file), file)
		if err != nil {
			return p, nil, &words.Refused{Field: "palette", Given: word, Why: err.Error(), Accepts: unlessSaid(err, "a palette in a file ending in .toml or .gpl")}
		}
		return p, nil, nil
	}
	p, err = palettes.Named("palette", word)
	if err == nil {
		return p, nil, nil
	}
	called := strings.ReplaceAll(strings.TrimSpace(word), " ", "-")
	accepted := palettes.Names()
	list, problems := w.Shelf.Palettes()
	for _, own := range list {
		if own.called(word) {
			return own.Palette, nil, nil
		}
		accepted = append(accepted, own.Name)
	}
	for _, problem := range problems {
		if strings.EqualFold(paletteName(problem.Path), called) {
			return p, nil, &words.Refused{Field: "palette", Given: word, Why: problem.Error()}
		}
	}
	if strings.Contains(word, ":") { // meant as a wish
		return w.Memory.derive(ctx, w.files(), word)
	}
	return p, nil, &words.Refused{Field: "palette", Given: word, Why: "no such palette", Accepts: strings.Join(accepted, ", ") + ", a file such as ./hedge.toml, or a wish such as envelope:kraft"}
}

// unlessSaid is what would be accepted, "" when the error says so itself.
func unlessSaid(err error, accepts string) string {
	if strings.Contains(err.Error(), "; accepted: ") {
		return ""
	}
	return accepts
}

// PaletteFile is the file that a word for a palette names, "" when it names none:
// a path has a slash or ends in .toml or .gpl, and a photo's follows its colon.
func PaletteFile(word string) string {
	if derived.Wish(word) {
		return derived.Photo(word)
	}
	word = strings.TrimSpace(word)
	if ending := strings.ToLower(filepath.Ext(word)); strings.ContainsAny(word, `/\`) || slices.Contains(paletteEndings, ending) {
		return word
	}
	return ""
}

var paletteEndings = []string{".toml", ".gpl"}

// paletteName is what the palette in a file is called, never nothing: winter-hedge
// for "Winter Hedge.toml", as the word that names it is read.
func paletteName(path string) string { return strings.ReplaceAll(patternName(path), " ", "-") }

// readPalette reads a palette file that goes by a name.
func readPalette(from filed.Source, name, path string) (palettes.Palette, error) {
	data, err := from.Read(path, palettes.MostFile)
	if err != nil {
		return palettes.Palette{}, err
	}
	if strings.EqualFold(filepath.Ext(path), ".gpl") || palettes.IsGPL(data) {
		return palettes.ParseGPL(name, data)
	}
	return palettes.Parse(name, data)
}
