package scene

import (
	"underflap/liner"
	"underflap/liner/geom"
)

// Shares of the pocket that the panels of a bought envelope's back take. Common
// practice, no source, and never so that a liner half as deep as the pocket
// shows its end in the throat.
const (
	apexDown  = 0.26 // of the height: a pointed bottom panel's tip, below the fold
	apexRound = 0.05 // of the width: its rounding
	sideDown  = 0.34 // of the height: how far a side panel's edge has come down in the middle
	sideOver  = 0.56 // of the width: how far a side panel reaches
	dip       = 0.055
	strip     = 0.1 // of the lesser side: a glued strip
)

// UsualPanels are the panels of the back of a bought envelope in liner space,
// the lowest first: a pointed bottom panel over two side panels; under a square
// flap a straight panel over two strips; on an upright pocket a panel glued to
// a strip at its side, and a bottom strip.
func UsualPanels(e liner.Envelope) []geom.Contour {
	w, h := e.Width, e.Height
	in := strip * min(w, h)
	switch {
	case w < h:
		throat := -dip * w
		return []geom.Contour{
			ring(3, 0, 0, 2.2*in, throat, 2.2*in, -h, 0, -h),
			ring(3, 1.3*in, throat, w-in, throat, w, 0, w, -h, 1.3*in, -h),
			ring(2, 0, -h, in, 1.3*in-h, w-in, 1.3*in-h, w, -h),
		}
	case e.Flap.Shape == liner.Square:
		throat := -dip * h
		return []geom.Contour{
			ring(4, 0, 0, 1.9*in, throat, 1.9*in, -h, 0, -h),
			ring(4, w, 0, w, -h, w-1.9*in, -h, w-1.9*in, throat),
			ring(5, 0, -h, in, throat-1, w-in, throat-1, w, -h),
		}
	}
	side := func(at func(x float64) float64) geom.Contour {
		end := -sideDown * h * sideOver / 0.5
		return ring(4, at(0), 0, at(sideOver*w), end, at(sideOver*w), end-0.15*h, at(0), -h)
	}
	return []geom.Contour{
		side(func(x float64) float64 { return x }),
		side(func(x float64) float64 { return w - x }),
		ring(apexRound*w, 0, -h, w/2, -apexDown*h, w, -h),
	}
}

// ring is a closed chain through corners given as x, y, x, y..., those between
// the pocket's edges rounded by r.
func ring(r float64, xy ...float64) geom.Contour {
	var p []geom.Point
	for i := 0; i < len(xy); i += 2 {
		p = append(p, geom.Point{X: xy[i], Y: xy[i+1]})
	}
	var c geom.Contour
	at := p[len(p)-1]
	minX, maxX := p[0].X, p[0].X
	for _, q := range p {
		minX, maxX = min(minX, q.X), max(maxX, q.X)
	}
	var first geom.Point
	for i, b := range p {
		from, to := b, b
		var arc geom.Segment
		ok := false
		if b.X > minX && b.X < maxX { // an end of a fold stays sharp
			a, n := p[(i+len(p)-1)%len(p)], p[(i+1)%len(p)]
			arc, ok = geom.Round(a, b, n, min(r, 0.49*geom.Roundest(a, b, n)))
		}
		if ok {
			from, to = arc.A, arc.B
		}
		if i == 0 {
			first = from
		} else {
			c = append(c, geom.Line(at, from))
		}
		if ok {
			c = append(c, arc)
		}
		at = to
	}
	return append(c, geom.Line(at, first))
}
