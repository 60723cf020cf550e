package request

import (
	"context"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"underflap/liner"
	"underflap/liner/swatch"
	"underflap/pattern"
	"underflap/pattern/draw"
)

// Swatch draws a page of every family in one palette or, where a pattern is
// named, of that family in every palette, with remarks on art and colours. With
// palettes it is a page of all palettes, each with a sample of the pattern.
// When ctx ends it stops and gives the context's error.
func Swatch(ctx context.Context, w Words, palettes bool) (pages []*draw.Page, remarks []string, err error) {
	paper, margin, err := resolvePaper(w)
	if err != nil {
		return nil, nil, err
	}
	if palettes {
		page, remarks, err := everyPalette(ctx, w, paper, margin)
		return []*draw.Page{page}, remarks, err
	}
	var heading string
	var samples []swatch.Sample
	if w.Pattern != "" || w.Stamp != "" {
		heading, samples, remarks, err = inEveryPalette(ctx, w)
	} else {
		heading, samples, remarks, err = everyFamily(ctx, w)
	}
	if err != nil {
		return nil, nil, err
	}
	page, err := swatch.Page(ctx, paper, margin, heading+w.pressed(), samples)
	if err != nil {
		return nil, nil, err
	}
	return []*draw.Page{page}, remarks, nil
}

// inEveryPalette are the samples of one design, whose art is read once.
func inEveryPalette(ctx context.Context, w Words) (heading string, samples []swatch.Sample, remarks []string, err error) {
	if given, any := w.firstColours(); any {
		return "", nil, nil, given.refused("one pattern is shown in every palette", "without --pattern or --stamp")
	}
	d, on, remarks, err := pictured(ctx, w)
	if err != nil {
		return "", nil, nil, err
	}
	all, passedOver := w.Shelf.allPalettes()
	for _, p := range all {
		d.Colours = on.colours(p.Colours)
		samples = append(samples, swatch.Sample{Name: spoken(p.Name), Design: d})
	}
	remarks = append(remarks, passedOver...)
	return capital(d.Name) + " in every palette", samples, remarks, nil
}

// everyPalette is the page of palettes. Words about the pattern say what each
// shows a sample of.
func everyPalette(ctx context.Context, w Words, paper liner.Paper, margin float64) (*draw.Page, []string, error) {
	if given, any := w.firstColours(); any {
		return nil, nil, given.refused("all palettes are shown", "without --palettes")
	}
	usual := w.Pattern == "" && w.Stamp == ""
	if usual {
		w.Pattern, w.Scale = usualSample, or(w.Scale, usualSampleScale)
	}
	d, on, remarks, err := pictured(ctx, w)
	if err != nil {
		return nil, nil, err
	}
	all, passedOver := w.Shelf.allPalettes()
	var groups []swatch.Group
	for _, p := range all {
		occasion := capital(or(p.For, "your own"))
		if n := len(groups); n == 0 || groups[n-1].Heading != occasion {
			groups = append(groups, swatch.Group{Heading: occasion})
		}
		if usual { // with all inks that there are
			each := w
			each.Set = append([]string{"inks=" + numbersTo(len(p.Inks))}, w.Set...)
			if d, _, err = resolveMotif(ctx, each); err != nil {
				return nil, nil, err
			}
		}
		d.Colours = on.colours(p.Colours)
		g := &groups[len(groups)-1]
		g.Samples = append(g.Samples, swatch.Sample{Name: spoken(p.Name), Design: d})
	}
	page, err := swatch.Palettes(ctx, paper, margin, "Palettes"+w.pressed(), groups)
	return page, append(remarks, passedOver...), err
}

// A pattern that shows every ink of a palette in a small place.
const usualSample, usualSampleScale = "terrazzo", "0.45"

// numbersTo is "1,2,3" for 3.
func numbersTo(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, ",%d", i+1)
	}
	return strings.TrimPrefix(b.String(), ",")
}

// everyFamily are the samples of all families but the one that needs art.
func everyFamily(ctx context.Context, w Words) (heading string, samples []swatch.Sample, remarks []string, err error) {
	palette, first, err := ResolvePalette(ctx, w) // once, as it may be a photo's
	if err != nil {
		return "", nil, nil, err
	}
	on, err := resolvePress(w)
	if err != nil {
		return "", nil, nil, err
	}
	for _, name := range pattern.Names() {
		if name == pattern.Stamps {
			continue
		}
		w.Pattern = name
		d, _, err := resolveMotif(ctx, w)
		if err != nil {
			return "", nil, nil, err
		}
		d.Colours = palette.Colours
		d, said := on.picture(ctx, d)
		heading, remarks = "Patterns in "+spoken(d.Colours.Name), said // of the colours: there is no art
		samples = append(samples, swatch.Sample{Name: name, Design: d})
	}
	return heading, samples, append(first, remarks...), nil
}

// firstColours is the first word that chooses colours.
func (w Words) firstColours() (typed, bool) {
	return firstGiven([]typed{{"palette", w.Palette}, {"inks", w.Inks}, {"ground", w.Ground}})
}

func capital(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}

func spoken(name string) string { return strings.ReplaceAll(name, "-", " ") }
