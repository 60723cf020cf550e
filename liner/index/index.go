// Package index draws the first pages of an occasion.
package index

import (
	"context"

	"underflap/liner"
	"underflap/liner/sheet"
	"underflap/pattern"
	"underflap/pattern/draw"
)

type Occasion struct {
	Title         string
	Paper         liner.Paper
	PrinterMargin float64
	Lines         []Line
	Sheets        []Sheet
	Totals        []string
}
type Line struct {
	Letter, Name, Says string
	Plan               sheet.Plan
	Design             pattern.Design
	Count              int
	Colour             draw.Colour
}
type Sheet struct {
	Plan        sheet.Plan
	Marks       sheet.Marks
	Lines       []int
	First, Last int
	File        string
}

func Draw(ctx context.Context, o Occasion) ([]*draw.Page, error) {
	page := draw.NewPage(o.Paper.Width, o.Paper.Height)
	page.Title = o.Title
	return []*draw.Page{page}, ctx.Err()
}
