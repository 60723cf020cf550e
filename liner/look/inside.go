package look

import (
	"underflap/liner/geom"
	"underflap/pattern/draw"
)

// detail is what the lines and words of the enlarged detail are filed under.
const detail = "detail"

// leastSeen is the least drawn length, in millimetres, that arrows can show.
const leastSeen = 0.7

// inside marks the pocket depth, and the liner's corners, inside the pocket.
func (b *board) inside(f *figure) {
	e, v, depth := f.Envelope, f.main, f.WantedPocketDepth()
	var depths []*mark
	for _, share := range []float64{0.78, 0.7, 0.84, 0.6, 0.3, 0.5} {
		m := &mark{of: pocketDepth}
		from, to := v.xy(share*e.Width, 0), v.xy(share*e.Width, -depth)
		at := between(from, to, 0.5)
		if to.Y-from.Y < onLine {
			at.X -= discAway - 0.5
		}
		m.span(from, to, at)
		depths = append(depths, m)
	}
	b.try(depths...)

	if f.CornerRadius*v.scale < leastSeen {
		return
	}
	const out = 0.29 // of the radius, from the rounded corner to where sharp edges would meet
	var corners []*mark
	for _, side := range []float64{1, -1} {
		x := f.SideGap + out*f.CornerRadius
		if side > 0 {
			x = e.Width - x
		}
		tip := v.at(geom.Point{X: x, Y: out*f.CornerRadius - depth})
		for _, reach := range []draw.Point{{X: 6, Y: 6}, {X: 8, Y: 4}, {X: 4, Y: 8}, {X: 5, Y: 4}} {
			m := &mark{of: cornerRadius}
			m.point(tip, draw.Point{X: tip.X - side*reach.X, Y: tip.Y - reach.Y})
			corners = append(corners, m)
		}
	}
	b.try(corners...)
}
