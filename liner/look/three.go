package look

import "underflap/pattern/draw"

// Distances from the envelope to its dimensions, and from a dimension to a
// letter beside it.
const (
	widthAway   = 7.5
	heightsAway = 7.5
	discAway    = 4.0
)

// three marks the measurements a maker takes: the width below the pocket, the
// two heights right of it, one above the other.
func (b *board) three(f *figure) {
	e, v := f.Envelope, f.main
	left, right := v.xy(0, -e.Height), v.xy(e.Width, -e.Height)
	y := left.Y + widthAway
	a := &mark{of: widthOf, main: true}
	from, to := draw.Point{X: left.X, Y: y}, draw.Point{X: right.X, Y: y}
	a.extend(left, from)
	a.extend(right, to)
	at := between(from, to, 0.5)
	if to.X-from.X < onLine {
		at.Y += discAway
	}
	a.span(from, to, at)
	b.put(a)

	fold, tip := v.xy(e.Width, 0), v.at(f.tip())
	x := fold.X + heightsAway
	high, mid, low := draw.Point{X: x, Y: tip.Y}, draw.Point{X: x, Y: fold.Y}, draw.Point{X: x, Y: right.Y}
	body, flap := &mark{of: heightOf, main: true, shared: mid}, &mark{of: depthOf, main: true, shared: mid}
	body.extend(fold, mid)
	body.extend(right, low)
	flap.extend(draw.Point{X: v.xy(f.shelf(), 0).X, Y: tip.Y}, high)
	bodyAt, flapAt := between(mid, low, 0.5), between(high, mid, 0.5)
	if min(low.Y-mid.Y, mid.Y-high.Y) < onLine { // beside their lines, and clear of each other
		bodyAt.X += discAway
		flapAt.X += discAway
		apart := 2*mainDisc + 2*clearLabel
		if low.Y-mid.Y > mid.Y-high.Y {
			bodyAt.Y = max(bodyAt.Y, flapAt.Y+apart)
		} else {
			flapAt.Y = min(flapAt.Y, bodyAt.Y-apart)
		}
	}
	body.span(mid, low, bodyAt)
	flap.span(high, mid, flapAt)
	b.put(body)
	b.put(flap)
}

// onLine is the length from which a dimension carries its letter.
const onLine = 11.0
