package look

import (
	"math"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/pattern/draw"
)

// along marks what is measured along the flap's free edge: the roundings of
// tip and corners, the gum and what the liner keeps clear of it.
func (b *board) along(f *figure) {
	b.roundings(f)
	e, v := f.Envelope, f.main
	if e.Gum*v.scale >= leastSeen {
		var marks []*mark
		for _, share := range []float64{0.7, 0.66, 0.74, 0.6, 0.8, 0.55, 0.3, 0.4} {
			edge, bare, n, ok := f.across(share, e.Gum)
			if !ok {
				continue
			}
			m := &mark{of: gum}
			away := tail + sideDisc + 0.8
			m.span(edge, bare, draw.Point{X: edge.X + n.X*away, Y: edge.Y + n.Y*away})
			marks = append(marks, m)
		}
		b.try(marks...)
	}
	if e.Gum > 0 && f.GumClearance*v.scale >= leastSeen/2 {
		var marks []*mark
		for _, share := range []float64{0.62, 0.58, 0.66, 0.54, 0.7, 0.46, 0.4, 0.36, 0.3} {
			_, gap, n, ok := f.across(share, e.Gum+f.GumClearance/2)
			if !ok {
				continue
			}
			for _, reach := range []float64{6.5, 5, 8} {
				m := &mark{of: gumClearance}
				m.point(gap, draw.Point{X: gap.X - n.X*reach, Y: gap.Y - n.Y*reach})
				marks = append(marks, m)
			}
		}
		b.try(marks...)
	}
}

// across goes from the flap's free edge, a share of the way along it, straight
// inwards by d millimetres of the envelope. It gives both ends on the page and
// the direction outwards, and false where another part of the edge or the fold
// is nearer.
func (f *figure) across(share, d float64) (edge, end, out draw.Point, ok bool) {
	p, n := onEdge(f.profile, share)
	q := geom.Point{X: p.X - n.X*d, Y: p.Y - n.Y*d}
	return f.main.at(p), f.main.at(q), draw.Point{X: n.X, Y: -n.Y}, q.Y > 0 && f.fromEdge(q) > d-0.02
}

// fromEdge is a point's distance from the flap's free edge.
func (f *figure) fromEdge(p geom.Point) float64 {
	least := math.Inf(1)
	chain := geom.Contour(f.profile).Flatten(0.01)
	for i := 1; i < len(chain); i++ {
		a, b := chain[i-1], chain[i]
		dx, dy := b.X-a.X, b.Y-a.Y
		t := 0.0
		if square := dx*dx + dy*dy; square > 0 {
			t = clamp(((p.X-a.X)*dx+(p.Y-a.Y)*dy)/square, 0, 1)
		}
		least = min(least, p.Distance(geom.Point{X: a.X + t*dx, Y: a.Y + t*dy}))
	}
	return least
}

// onEdge is the point a share of the way along a profile, and the normal that
// points away from the flap.
func onEdge(p geom.Profile, share float64) (at, normal geom.Point) {
	total := 0.0
	for _, s := range p {
		total += s.Length()
	}
	left := share * total
	for i, s := range p {
		length := s.Length()
		if left > length && i < len(p)-1 {
			left -= length
			continue
		}
		return onSegment(s, left/length)
	}
	return geom.Point{}, geom.Point{Y: 1}
}

// onSegment is the point a share of the way along a segment, and its normal to
// the left of the way.
func onSegment(s geom.Segment, share float64) (at, normal geom.Point) {
	if s.R == 0 {
		length := s.Length()
		return geom.Point{X: s.A.X + (s.B.X-s.A.X)*share, Y: s.A.Y + (s.B.Y-s.A.Y)*share},
			geom.Point{X: -(s.B.Y - s.A.Y) / length, Y: (s.B.X - s.A.X) / length}
	}
	angle := math.Atan2(s.A.Y-s.C.Y, s.A.X-s.C.X) + share*s.Sweep()
	sin, cos := math.Sincos(angle)
	normal = geom.Point{X: cos, Y: sin}
	if !s.CW {
		normal = geom.Point{X: -cos, Y: -sin}
	}
	return geom.Point{X: s.C.X + s.R*cos, Y: s.C.Y + s.R*sin}, normal
}

// roundings points at the arcs of the tip and of the flap's corners.
func (b *board) roundings(f *figure) {
	flap, half := f.Envelope.Flap, len(f.profile)/2
	if flap.Shape == liner.Traced {
		return
	}
	for i, s := range f.profile[half:] { // the right half, from the centre line down
		last := half+i == len(f.profile)-1
		switch {
		case s.R == 0 || s.Length()*f.main.scale < leastSeen:
		case alike(s.R, flap.TipRadius) && !last:
			b.round(f, tipRadius, s, 0.3)
			flap.TipRadius = 0 // once
		case alike(s.R, flap.CornerRadius):
			b.round(f, flapCorner, s, 0.5)
		}
	}
}

// round points at an arc from outside, on the flap's left where the heights
// are measured from the tip to the right.
func (b *board) round(f *figure, of string, s geom.Segment, share float64) {
	p, n := onSegment(s, share)
	var marks []*mark
	for _, side := range []float64{1, -1} {
		x := p.X
		if side < 0 {
			x = f.Envelope.Width - p.X
		}
		tip := f.main.xy(x, p.Y)
		for _, reach := range []float64{7, 8.5, 6} {
			for _, lean := range []float64{0, 0.3, -0.3, 0.6, -0.6} {
				sin, cos := math.Sincos(math.Atan2(n.Y, n.X) + lean)
				m := &mark{of: of}
				m.point(tip, draw.Point{X: tip.X + side*cos*reach, Y: tip.Y - sin*reach})
				marks = append(marks, m)
			}
		}
	}
	b.try(marks...)
}

func alike(a, b float64) bool { return math.Abs(a-b) < 1e-6 && b > 0 }
