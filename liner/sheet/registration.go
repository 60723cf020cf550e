package sheet

import (
	"underflap/liner/geom"
	"underflap/pattern/draw"
)

// Corner is a corner of the sheet.
type Corner int

// The corners, as one reads.
const (
	TopLeft Corner = iota
	TopRight
	BottomLeft
	BottomRight
)

// CornerNames are the corners in words.
var CornerNames = [...]string{"top-left", "top-right", "bottom-left", "bottom-right"}

// Usual measures of registration marks, in millimetres. Common practice, no
// source: home cutting machines look for lines about that long and thick, about
// that far from the paper's edge, and most let one say.
const (
	UsualInset = 10.0
	UsualArm   = 20.0
	UsualLine  = 0.5
)

// Registration is the marks at the corners of a sheet by which a machine's eye, or
// a person, lines up the cut lines with what is printed: an L in each corner that
// is wanted, its arms along the sheet's edges. The zero value is none.
type Registration struct {
	Corners [len(CornerNames)]bool
	Inset   float64 // from the paper's edges to the middle of the arms
	Arm     float64 // length of an arm, from where both meet
	Line    float64 // thickness
}

// registrationClear is what artwork keeps from the marks. Common practice, no
// source: a machine's eye wants bare paper around them.
const registrationClear = 2.0

// Any tells whether marks are wanted at all.
func (r Registration) Any() bool { return r.Corners != [len(CornerNames)]bool{} }

// edge is the border that cut lines keep clear of, for their artwork to keep clear
// of the marks.
func (t Task) edge() float64 {
	if !t.Registration.Any() {
		return t.PrinterMargin
	}
	return max(t.PrinterMargin, t.Registration.inside()+t.Bleed)
}

// inside is the border that all that is printed keeps clear of.
func (r Registration) inside() float64 { return r.Inset + r.Line/2 + registrationClear }

// noteRoom is the part of the sheet that rule and steps may lie in.
func (t Task) noteRoom() geom.Box {
	if !t.Registration.Any() {
		return t.room()
	}
	return geom.Box{MaxX: t.Paper.Width, MaxY: t.Paper.Height}.Grow(-max(t.PrinterMargin, t.Registration.inside()))
}

// CornerMark is one mark on the page: where its arms meet, and their ends.
type CornerMark struct {
	Corner    Corner
	At        geom.Point
	Level, Up geom.Point // the ends of the level and of the upright arm
}

// CornerMarks are the registration marks in page space.
func (t Task) CornerMarks() []CornerMark {
	r := t.Registration
	var all []CornerMark
	for i, wanted := range r.Corners {
		if !wanted {
			continue
		}
		at, dx, dy := geom.Point{X: r.Inset, Y: r.Inset}, r.Arm, r.Arm
		if c := Corner(i); c == TopRight || c == BottomRight {
			at.X, dx = t.Paper.Width-r.Inset, -dx
		}
		if c := Corner(i); c == BottomLeft || c == BottomRight {
			at.Y, dy = t.Paper.Height-r.Inset, -dy
		}
		all = append(all, CornerMark{Corner(i), at, geom.Point{X: at.X + dx, Y: at.Y}, geom.Point{X: at.X, Y: at.Y + dy}})
	}
	return all
}

// arms are the boxes of a mark's two arms, which both have the corner.
func (m CornerMark) arms(line float64) [2]geom.Box {
	around := func(p, q geom.Point) geom.Box {
		return geom.Box{MinX: min(p.X, q.X), MinY: min(p.Y, q.Y), MaxX: max(p.X, q.X), MaxY: max(p.Y, q.Y)}
	}
	level, up := around(m.At, m.Level), around(m.At, m.Up)
	half := line / 2
	level.MinY, level.MaxY = level.MinY-half, level.MaxY+half
	up.MinX, up.MaxX = up.MinX-half, up.MaxX+half
	// an arm begins at the outer edge of the other
	if m.Level.X > m.At.X {
		level.MinX -= half
	} else {
		level.MaxX += half
	}
	return [2]geom.Box{level, up}
}

// drawRegistration prints the marks, in black.
func (t Task) drawRegistration(s *draw.Surface) {
	for _, m := range t.CornerMarks() {
		for _, arm := range m.arms(t.Registration.Line) {
			s.Fill(draw.Rectangle(rect(arm)), draw.Colour{})
		}
	}
}

// onMarks tells whether a box comes near a registration mark.
func (t Task) onMarks(b geom.Box) bool {
	for _, m := range t.CornerMarks() {
		for _, arm := range m.arms(t.Registration.Line) {
			if arm.Grow(registrationClear / 2).Meets(b) {
				return true
			}
		}
	}
	return false
}
