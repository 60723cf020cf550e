package occasion

import (
	"context"
	"fmt"
	"runtime"
	"strings"

	"golang.org/x/sync/errgroup"

	"underflap/liner"
)

// paperSheets counts sheets by the paper's name.
func (o *Occasion) paperSheets() map[string]int {
	count := map[string]int{}
	for _, s := range o.Sheets {
		count[s.Plan.Paper.Name] += s.Copies
	}
	return count
}

// papers are those that are printed on, in the order they are met.
func (o *Occasion) papers() (all []liner.Paper) {
	seen := map[string]bool{}
	for _, s := range o.Sheets {
		if p := s.Plan.Paper; !seen[p.Name] {
			seen[p.Name] = true
			all = append(all, p)
		}
	}
	return all
}

// Count is how many sheets of paper the occasion takes.
func (o *Occasion) Count() int {
	n := 0
	for _, s := range o.Sheets {
		n += s.Copies
	}
	return n
}

// Liners is how many liners there are in all.
func (o *Occasion) Liners() int {
	n := 0
	for _, l := range o.Lines {
		n += l.Count
	}
	return n
}

// Paper is the area of all sheets in m², and their weight in grams.
func (o *Occasion) Paper() (area, weight float64) {
	for _, s := range o.Sheets {
		area += float64(s.Copies) * s.Plan.Paper.Width * s.Plan.Paper.Height / 1e6
	}
	return area, area * o.PaperWeight
}

// Ink is the area in cm² that each line's liners take ink on, with their bleed, as
// on sheets of their own; of varied ones an estimate, as if all were as designed.
// When ctx ends it stops and gives the context's error.
func (o *Occasion) Ink(ctx context.Context) ([]float64, error) {
	inked := make([]float64, len(o.Lines))
	work, ctx := errgroup.WithContext(ctx)
	work.SetLimit(runtime.GOMAXPROCS(0))
	for i, l := range o.Lines {
		if l.Plan.Blank {
			continue
		}
		work.Go(func() error {
			r := l.Request
			r.Design = r.Design.Apart()
			use, err := r.Ink(ctx, l.Plan)
			inked[i] = use.All.Inked()
			return err
		})
	}
	return inked, work.Wait()
}

// Totals says in lines what the occasion takes: sheets, paper and, where it is
// asked for, ink.
func (o *Occasion) Totals(ctx context.Context, ink bool) ([]string, error) {
	var by []string
	for _, p := range o.papers() {
		by = append(by, fmt.Sprintf("%d of %s", o.paperSheets()[p.Name], p.Short))
	}
	sheets := "Sheets: " + strings.Join(by, ", ")
	switch saved := o.Alone - o.Count(); {
	case saved > 0:
		sheets += fmt.Sprintf("; %d if each kind were on its own", o.Alone)
	case o.shared():
		sheets += "; as many if each kind were on its own"
	}
	area, weight := o.Paper()
	lines := []string{sheets, fmt.Sprintf("Paper: %.2f m², %.0f g at %.0f g/m²", area, weight, o.PaperWeight)}
	if !ink {
		return lines, nil
	}
	inked, err := o.Ink(ctx)
	if err != nil {
		return nil, err
	}
	all := 0.0
	for _, cm2 := range inked {
		all += cm2
	}
	say := fmt.Sprintf("Ink: about %.0f cm² in all", all)
	if len(o.Lines) > 1 && all > 0 {
		var each []string
		for i, l := range o.Lines {
			if !l.Plan.Blank {
				each = append(each, fmt.Sprintf("%s %.0f", l.Name, inked[i]))
			}
		}
		say += ": " + strings.Join(each, ", ")
	}
	return append(lines, say), nil
}

// shared tells whether any sheet carries liners of several lines.
func (o *Occasion) shared() bool {
	for _, s := range o.Sheets {
		if len(o.names(s.Sheet)) > 1 {
			return true
		}
	}
	return false
}
