package svgpath

import (
	"math"

	"underflap/pattern/draw"
)

// arc draws an elliptical arc from the current point to p: rx, ry its radii, phi
// its turn in degrees, large and sweep which of four it is. SVG 1.1, F.6.2 to
// F.6.6: a radius of zero (or as good as) is a line, radii too small for the way grow, and the
// middle is found as F.6.5 says. The pieces are those of a circle, stretched
// (draw.Path.Arc), 45 degrees or less each.
func (b *builder) arc(rx, ry, phi float64, large, sweep bool, p draw.Point) {
	from := b.now
	rx, ry = math.Abs(rx), math.Abs(ry)
	switch {
	case from == p: // F.6.2: left out
		return
	case rx < 1e-9 || ry < 1e-9:
		b.line(p)
		return
	}
	turn := draw.Turn(phi)
	toUnit := draw.Matrix{A: 1 / rx, D: 1 / ry}.After(turn.Inverse())
	// half the way, in the circle's space: (F.6.5.1), each over its radius
	half := toUnit.Apply(draw.Point{X: (from.X - p.X) / 2, Y: (from.Y - p.Y) / 2})
	lambda := half.X*half.X + half.Y*half.Y // (F.6.6.2)
	if lambda < 1e-32 {                     // both ends are one, as far as numbers of 53 bits tell
		b.line(p)
		return
	}
	grow, away := 1.0, 0.0
	if lambda > 1 {
		grow = math.Sqrt(lambda)
		half.X, half.Y = half.X/grow, half.Y/grow
	} else {
		away = math.Sqrt((1 - lambda) / lambda) // (F.6.5.2)
	}
	if large == sweep {
		away = -away
	}
	middle := draw.Point{X: away * half.Y, Y: -away * half.X}
	first := math.Atan2(half.Y-middle.Y, half.X-middle.X)
	sweeps := math.Atan2(-half.Y-middle.Y, -half.X-middle.X) - first
	if sweep && sweeps < 0 { // (F.6.5.6)
		sweeps += 2 * math.Pi
	} else if !sweep && sweeps > 0 {
		sweeps -= 2 * math.Pi
	}
	if sweeps == 0 { // so short a way on so large a circle
		b.line(p)
		return
	}
	var unit draw.Path
	unit.Move(math.Cos(first), math.Sin(first))
	unit.Arc(draw.Point{}, sweeps)
	back := turn.After(draw.Matrix{A: rx * grow, D: ry * grow})
	c := back.Apply(middle)
	c.X, c.Y = c.X+(from.X+p.X)/2, c.Y+(from.Y+p.Y)/2 // (F.6.5.3)
	back.E, back.F = c.X, c.Y
	pieces := unit.Transform(back).Points[1:]
	pieces[len(pieces)-1] = p // exactly
	for ; len(pieces) > 0; pieces = pieces[3:] {
		b.cubic(pieces[0], pieces[1], pieces[2])
	}
}
