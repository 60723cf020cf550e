package look

import (
	"underflap/liner"
	"underflap/liner/geom"
	"underflap/pattern/draw"
)

// Dashes in page millimetres: the fold's, and those of what lies inside the
// pocket.
const (
	foldOn, foldOff     = 3.0, 1.3
	hiddenOn, hiddenOff = 1.5, 1.1
)

// picture draws the envelope and, in its circle, the enlarged detail.
func (f *figure) picture(s *draw.Surface) {
	f.envelope(s, f.main, f.paper())
	if f.larger == 0 {
		return
	}
	glass := draw.Circle(f.glass.X, f.glass.Y, f.glass.r)
	s.Fill(glass, draw.White)
	s.Clipped(glass, func(s *draw.Surface) { f.envelope(s, f.near, f.glass.box()) })
	s.Stroke(f.glass.round(), faint, lightWidth)
	s.Stroke(f.ring().round(), faint, lightWidth)
}

// envelope draws flap, pocket and liner through a view; dashes outside the
// window are left out.
func (f *figure) envelope(s *draw.Surface, v view, window draw.Rect) {
	e := f.Envelope
	flap := geom.Contour(f.profile)
	s.Fill(v.closed(flap), insideTone)
	if e.Gum > 0 {
		s.Fill(v.closed(flap), gumTone)
		if bare := geom.Contour(f.profile.Erode(e.Gum).Over(0, 0, e.Width)); len(bare) > 0 {
			s.Fill(v.closed(bare), insideTone)
		}
	}
	s.Fill(v.closed(box(0, -e.Height, e.Width, 0)), pocketTone)

	outline := f.Outline(f.WantedPocketDepth()).Contour
	onFlap := v.closed(box(0, 0, e.Width, f.depth))
	s.Clipped(onFlap, func(s *draw.Surface) { s.Fill(v.closed(outline), linerTone) })
	inPocket := v.closed(box(0, -e.Height, e.Width, 0))
	s.Clipped(inPocket, func(s *draw.Surface) { s.Fill(v.closed(outline), hiddenTone) })

	for _, seam := range seams(e) {
		s.Stroke(v.path(seam), seamTone, lightWidth)
	}
	for _, chain := range runs(v.chain(outline), v.y, -1) {
		if dashes := dashed(chain, hiddenOn, hiddenOff, window); len(dashes.Points) > 0 {
			s.Stroke(dashes, linerEdge, lightWidth)
		}
	}
	for _, chain := range runs(v.chain(outline), v.y, 1) {
		s.Stroke(polyline(chain), linerEdge, edgeWidth)
	}
	s.Stroke(v.path(flap), paperEdge, edgeWidth)
	s.Stroke(v.path(geom.Contour{
		geom.Line(geom.Point{}, geom.Point{Y: -e.Height}),
		geom.Line(geom.Point{Y: -e.Height}, geom.Point{X: e.Width, Y: -e.Height}),
		geom.Line(geom.Point{X: e.Width, Y: -e.Height}, geom.Point{X: e.Width}),
	}), paperEdge, edgeWidth)
	fold := dashed([]draw.Point{v.xy(0, 0), v.xy(e.Width, 0)}, foldOn, foldOff, window)
	s.Stroke(fold, ink, edgeWidth)
}

func box(minX, minY, maxX, maxY float64) geom.Contour {
	a, b, c, d := geom.Point{X: minX, Y: minY}, geom.Point{X: maxX, Y: minY}, geom.Point{X: maxX, Y: maxY}, geom.Point{X: minX, Y: maxY}
	return geom.Contour{geom.Line(a, b), geom.Line(b, c), geom.Line(c, d), geom.Line(d, a)}
}

// seams are where the pocket's panels are glued: a pointed bottom panel over
// two sides, under a straight flap two side seams, and on an upright pocket a
// side seam and a bottom one.
func seams(e liner.Envelope) []geom.Contour {
	w, h := e.Width, e.Height
	in := 0.08 * min(w, h)
	line := func(ax, ay, bx, by float64) geom.Segment {
		return geom.Line(geom.Point{X: ax, Y: ay}, geom.Point{X: bx, Y: by})
	}
	switch {
	case w < h:
		return []geom.Contour{
			{line(0, -h, in, 1.3*in-h), line(in, 1.3*in-h, w-in, 1.3*in-h), line(w-in, 1.3*in-h, w, -h)},
			{line(1.5*in, 0, 1.5*in, 1.3*in-h)},
		}
	case e.Flap.Shape == liner.Square:
		return []geom.Contour{{line(0, -h, in, 0)}, {line(w, -h, w-in, 0)}}
	}
	left, right, apex := geom.Point{Y: -h}, geom.Point{X: w, Y: -h}, geom.Point{X: w / 2, Y: -0.36 * h}
	bottom := geom.Contour{geom.Line(left, apex), geom.Line(apex, right)}
	if arc, ok := geom.Round(left, apex, right, 0.06*w); ok {
		bottom = geom.Contour{geom.Line(left, arc.A), arc, geom.Line(arc.B, right)}
	}
	const k = 0.72 // of the way up the bottom panel's edge, where a side panel meets it
	meet := geom.Point{X: k * apex.X, Y: -h + k*(apex.Y+h)}
	return []geom.Contour{bottom,
		{line(0, 0, meet.X, meet.Y)},
		{line(w, 0, w-meet.X, meet.Y)},
	}
}

// runs are the stretches of a chain that lie above a level of the page, or
// below it when side is -1. What runs along the level is left out.
func runs(chain []draw.Point, level, side float64) [][]draw.Point {
	var out [][]draw.Point
	var run []draw.Point
	end := func() {
		if len(run) > 1 {
			out = append(out, run)
		}
		run = nil
	}
	over := func(p draw.Point) float64 { return side * (level - p.Y) }
	for i := 1; i < len(chain); i++ {
		a, b := chain[i-1], chain[i]
		ha, hb := over(a), over(b)
		if max(ha, hb) < 0.01 {
			end()
			continue
		}
		if ha < 0 {
			a = between(a, b, ha/(ha-hb))
		}
		if hb < 0 {
			b = between(b, a, hb/(hb-ha))
		}
		if len(run) == 0 {
			run = append(run, a)
		}
		run = append(run, b)
		if hb < 0 {
			end()
		}
	}
	end()
	return out
}

func polyline(chain []draw.Point) draw.Path {
	var p draw.Path
	p.Move(chain[0].X, chain[0].Y)
	for _, q := range chain[1:] {
		p.Line(q.X, q.Y)
	}
	return p
}
