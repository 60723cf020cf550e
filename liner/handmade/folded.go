package handmade

import "underflap/liner/geom"

// Folded are the panels that close the pocket's back, as they lie in the folded
// envelope: closed chains in liner space, in the order they fold. The panel that
// lies still and the flap are not among them.
func (b Blank) Folded() []geom.Contour {
	var out []geom.Contour
	o, r, d := b.Panels[0].Shape[0], b.Panels[0].Shape[1], b.Panels[0].Shape[3] // the fold's ends, and the foot
	for _, p := range b.Panels[1 : len(b.Panels)-1] {
		var c geom.Contour
		at := func(i int) geom.Point {
			q := p.Fold.mirrored(p.Shape[i%len(p.Shape)])
			x := ((q.X-o.X)*(r.X-o.X) + (q.Y-o.Y)*(r.Y-o.Y)) / b.Width
			y := ((q.X-o.X)*(d.X-o.X) + (q.Y-o.Y)*(d.Y-o.Y)) / b.Height
			return geom.Point{X: x, Y: -y}
		}
		for i := range p.Shape {
			c = append(c, geom.Line(at(i), at(i+1)))
		}
		out = append(out, c)
	}
	return out
}
