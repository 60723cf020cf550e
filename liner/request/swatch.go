package request

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"underflap/liner/swatch"
	"underflap/palettes"
	"underflap/pattern"
	"underflap/pattern/draw"
)

// Swatch draws a page of every family in one palette or, where a pattern is
// named, of that family in every palette, with remarks on the art.
func Swatch(w Words) (pages []*draw.Page, remarks []string, err error) {
	paper, margin, err := resolvePaper(w)
	if err != nil {
		return nil, nil, err
	}
	var heading string
	var samples []swatch.Sample
	if w.Pattern != "" || w.Stamp != "" {
		heading, samples, remarks, err = inEveryPalette(w)
	} else {
		heading, samples, err = everyFamily(w)
	}
	if err != nil {
		return nil, nil, err
	}
	page, err := swatch.Page(paper, margin, heading+w.pressed(), samples)
	if err != nil {
		return nil, nil, err
	}
	return []*draw.Page{page}, remarks, nil
}

// inEveryPalette are the samples of one design, whose art is read once.
func inEveryPalette(w Words) (heading string, samples []swatch.Sample, remarks []string, err error) {
	if w.Palette != "" {
		return "", nil, nil, typed{"palette", w.Palette}.refused("one pattern is shown in every palette", "without --pattern or --stamp")
	}
	onWhite := w
	onWhite.PaperColour = "" // what each palette loses on the paper is there to be seen
	d, remarks, err := resolveDesign(onWhite)
	if err == nil {
		d, err = w.shown(d)
	}
	if err != nil {
		return "", nil, nil, err
	}
	for _, name := range palettes.Names() {
		palette, err := palettes.Named("palette", name)
		if err != nil {
			return "", nil, nil, err
		}
		if d.Colours, err = w.colours(palette.Colours); err != nil {
			return "", nil, nil, err
		}
		samples = append(samples, swatch.Sample{Name: spoken(name), Design: d})
	}
	first, size := utf8.DecodeRuneInString(d.Name)
	return string(unicode.ToUpper(first)) + d.Name[size:] + " in every palette", samples, remarks, nil
}

// everyFamily are the samples of all families but the one that needs art.
func everyFamily(w Words) (heading string, samples []swatch.Sample, err error) {
	for _, name := range pattern.Names() {
		if name == pattern.Stamps {
			continue
		}
		onWhite := w
		onWhite.Pattern, onWhite.PaperColour = name, ""
		d, _, err := resolveDesign(onWhite)
		if err == nil {
			d, err = w.shown(d)
		}
		if err != nil {
			return "", nil, err
		}
		heading = "Patterns in " + spoken(d.Colours.Name)
		samples = append(samples, swatch.Sample{Name: name, Design: d})
	}
	return heading, samples, nil
}

func spoken(name string) string { return strings.ReplaceAll(name, "-", " ") }
