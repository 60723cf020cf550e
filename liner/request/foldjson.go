package request

import (
	"underflap/liner/geom"
	"underflap/liner/handmade"
)

// Folded is an envelope folded by hand for programs: lengths in millimetres,
// points on the sheet, whose origin is at its top left, x right and y down.
type Folded struct {
	Construction string        `json:"construction"`
	Pocket       [2]float64    `json:"pocket"` // width along the flap's fold, height
	Sheet        SheetSize     `json:"sheet"`
	Smallest     *SheetSize    `json:"smallest,omitempty"` // the smallest standard sheet that is large enough
	Flap         FoldedFlap    `json:"flap"`
	Measures     []FoldMeasure `json:"measures"`
	Outline      [][2]float64  `json:"outline"` // the cut line
	Panels       []FoldedPanel `json:"panels"`  // in the order they fold
	CutAway      []NamedArea   `json:"cutAway"`
	Glue         []NamedArea   `json:"glue"`
}

// SheetSize is a sheet of paper.
type SheetSize struct {
	Name   string  `json:"name"`
	Width  float64 `json:"width"`
	Height float64 `json:"height"`
}

// FoldedFlap is the flap that the liner is made for.
type FoldedFlap struct {
	Shape    string  `json:"shape"`
	Depth    float64 `json:"depth"`
	Shoulder float64 `json:"shoulder"`
	Taper    float64 `json:"taper"`
	BaseGap  float64 `json:"baseGap"`
}

// FoldMeasure is a named distance.
type FoldMeasure struct {
	Name string  `json:"name"`
	MM   float64 `json:"mm"`
}

// NamedArea is a part of the sheet.
type NamedArea struct {
	Name  string       `json:"name"`
	Shape [][2]float64 `json:"shape"`
}

// FoldedPanel is a panel with the line it folds over; the first lies still.
type FoldedPanel struct {
	NamedArea
	Fold [][2]float64 `json:"fold,omitempty"`
}

// ReportFold gathers a blank for programs.
func ReportFold(b handmade.Blank) Folded {
	sheet := func(name string, w, h float64) SheetSize { return SheetSize{name, nanometre(w), nanometre(h)} }
	flap := b.Envelope.Flap
	f := Folded{Construction: string(b.Construction), Pocket: [2]float64{nanometre(b.Width), nanometre(b.Height)},
		Sheet:   sheet(b.Sheet.Name, b.Sheet.Width, b.Sheet.Height),
		Flap:    FoldedFlap{string(flap.Shape), nanometre(flap.Depth), nanometre(flap.Shoulder), nanometre(flap.Taper), nanometre(flap.BaseGap)},
		Outline: pairs(b.Outline)}
	if b.Smallest.Width > 0 {
		smallest := sheet(b.Smallest.Name, b.Smallest.Width, b.Smallest.Height)
		f.Smallest = &smallest
	}
	for _, m := range b.Measures {
		f.Measures = append(f.Measures, FoldMeasure{m.Name, nanometre(m.MM)})
	}
	for _, p := range b.Panels {
		panel := FoldedPanel{NamedArea: NamedArea{p.Name, pairs(p.Shape)}}
		if p.Fold != nil {
			panel.Fold = pairs([]geom.Point{p.Fold.A, p.Fold.B})
		}
		f.Panels = append(f.Panels, panel)
	}
	areas := func(pieces []handmade.Piece) (out []NamedArea) {
		for _, p := range pieces {
			out = append(out, NamedArea{p.Name, pairs(p.Shape)})
		}
		return out
	}
	f.CutAway, f.Glue = areas(b.CutAway), areas(b.Glue)
	return f
}

// JSON is the report as one object on a line.
func (f Folded) JSON() ([]byte, error) { return jsonLine(f) }

func pairs(points []geom.Point) [][2]float64 {
	var out [][2]float64
	for _, q := range points {
		out = append(out, [2]float64{nanometre(q.X), nanometre(q.Y)})
	}
	return out
}
