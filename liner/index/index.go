// Package index draws the pages that lie on the table while an occasion is cut:
// every kind of liner with a small picture, every sheet as a small drawing with its
// cuts in order, the steps and the totals. Lengths are millimetres in page space.
package index

import (
	"context"
	"fmt"
	"slices"

	"underflap/liner"
	"underflap/liner/sheet"
	"underflap/pattern"
	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// Occasion is what the index is of. Words that are too long for their room are
// shortened.
type Occasion struct {
	Title         string
	Paper         liner.Paper // the index is printed on
	PrinterMargin float64
	Lines         []Line
	Sheets        []Sheet  // in the order of the file
	Totals        []string // a sentence each
	Ahead         bool     // the index stands before the sheets in one file: its own pages are added to First and Last
}

// Line is one kind of liner.
type Line struct {
	Letter string // that its liners bear in the drawings of the sheets
	Name   string
	Says   string     // size, design and pocket depth in words
	Plan   sheet.Plan // of the line alone, settled
	Design pattern.Design
	Count  int
	Colour draw.Colour // of the paper under the artwork; the zero Colour, which nobody prints on, stands for white
}

// Sheet is one sheet of the file, or several alike that follow each other.
type Sheet struct {
	Plan        sheet.Plan
	Marks       sheet.Marks
	Lines       []int  // for each piece of the plan the line it is of
	First, Last int    // pages of the file, counted from 1
	File        string // name of the file where each sheet has its own, told whole; "" in one file
}

func (s Sheet) copies() int { return s.Last - s.First + 1 }

// The smallest room that an index can be read in, inside the printer margin.
const leastWidth, leastHeight = 60, 70

// Draw draws the index, on as many pages as it takes. A paper too small to read
// it on is refused. When ctx ends it stops and gives the context's error.
func Draw(ctx context.Context, o Occasion) ([]*draw.Page, error) {
	room := draw.Rect{MaxX: o.Paper.Width, MaxY: o.Paper.Height}.Grow(-o.PrinterMargin)
	if room.Width() < leastWidth || room.Height() < leastHeight {
		return nil, &words.Refused{Field: "paper", Given: o.Paper.Short, Why: "too small for an index inside a printer margin of " + words.MM(o.PrinterMargin),
			Accepts: "at least " + words.MMSize(leastWidth+2*o.PrinterMargin, leastHeight+2*o.PrinterMargin)}
	}
	l, pages := arranged(o.named(), room)
	if o.Ahead { // no line breaks otherwise for larger numbers
		pages = l.paged(l.items(len(pages)))
	}
	var all []*draw.Page
	for i, items := range pages {
		page, err := l.page(ctx, items, i, len(pages))
		if err != nil {
			return nil, err
		}
		all = append(all, page)
	}
	return all, ctx.Err()
}

// named is the occasion with a name for what has none.
func (o Occasion) named() Occasion {
	if written(o.Title, draw.Bold) == "" {
		o.Title = "Liners"
	}
	o.Lines = slices.Clone(o.Lines)
	for i, line := range o.Lines {
		if written(line.Name, draw.Bold) == "" {
			o.Lines[i].Name = line.Plan.Liner.Envelope.Short
		}
	}
	return o
}

// about tells what is to be seen.
func (o Occasion) about() string {
	liners, sheets := 0, 0
	for _, line := range o.Lines {
		liners += line.Count
	}
	for _, s := range o.Sheets {
		sheets += s.copies()
	}
	said := fmt.Sprintf("%s, %s", counted(len(o.Lines), "kind of liner", "kinds of liners"), counted(sheets, "sheet", "sheets"))
	if len(o.Lines) != 1 || liners != 1 {
		said = fmt.Sprintf("%s, %d in all, on %s", counted(len(o.Lines), "kind of liner", "kinds of liners"), liners, counted(sheets, "sheet", "sheets"))
	}
	return said
}

// counted is a number with its noun.
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
