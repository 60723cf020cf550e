package request

import (
	"strings"

	"underflap/liner/swatch"
	"underflap/palettes"
	"underflap/pattern"
	"underflap/pattern/draw"
)

// Swatch draws a page of every family in one palette or, where a pattern is
// named, of that family in every palette.
func Swatch(w Words) ([]*draw.Page, error) {
	paper, margin, err := resolvePaper(w)
	if err != nil {
		return nil, err
	}
	named := w.Pattern != "" || w.Stamp != ""
	var samples []swatch.Sample
	heading := ""
	for _, one := range swatchWords(w, named) {
		d, _, err := resolveDesign(one)
		if err != nil {
			return nil, err
		}
		sample := swatch.Sample{Name: one.Pattern, Design: d}
		heading = "Patterns in " + spoken(d.Colours.Name)
		if named {
			sample.Name = spoken(d.Colours.Name)
			heading = strings.ToUpper(d.Name[:1]) + d.Name[1:] + " in every palette"
		}
		samples = append(samples, sample)
	}
	page, err := swatch.Page(paper, margin, heading, samples)
	if err != nil {
		return nil, err
	}
	return []*draw.Page{page}, nil
}

func spoken(name string) string { return strings.ReplaceAll(name, "-", " ") }

// swatchWords are the words of each sample.
func swatchWords(w Words, named bool) []Words {
	var all []Words
	if named {
		for _, p := range palettes.Names() {
			one := w
			one.Palette = p
			all = append(all, one)
		}
		return all
	}
	for _, name := range pattern.Names() {
		if name == pattern.Stamps { // there is no art
			continue
		}
		one := w
		one.Pattern = name
		all = append(all, one)
	}
	return all
}
