package vector

import (
	"fmt"
	"math"

	"underflap/pattern/draw"
)

// pen is how a stroke is drawn.
type pen struct {
	width, miter float64
	cap, join    string
	dashes       []float64
	offset       float64
}

// with is the pen changed by what an element says.
func (p pen) with(said map[string]string) (pen, error) {
	var err error
	for name, into := range map[string]*float64{"stroke-width": &p.width, "stroke-miterlimit": &p.miter, "stroke-dashoffset": &p.offset} {
		if v := said[name]; v != "" && v != "inherit" {
			got, bad := length(v, 0)
			if bad != nil {
				err = bad
			}
			*into = got
		}
	}
	for name, into := range map[string]*string{"stroke-linecap": &p.cap, "stroke-linejoin": &p.join} {
		if v := said[name]; v != "" && v != "inherit" {
			*into = v
		}
	}
	if v := said["stroke-dasharray"]; v != "" && v != "inherit" {
		p.dashes = nil
		if v != "none" {
			list, bad := numbers(v)
			if bad != nil {
				return p, fmt.Errorf("dashes %q, which are not understood", short(v))
			}
			sum := 0.0
			for _, d := range list {
				if d < 0 {
					return p, fmt.Errorf("dashes %q, which are not understood", short(v))
				}
				sum += d
			}
			if len(list)%2 == 1 {
				list = append(list, list...)
			}
			if sum > 0 {
				p.dashes = list
			}
		}
	}
	return p, err
}

// vertex is a point of a line; smooth ones lie inside a curve.
type vertex struct {
	draw.Point
	smooth bool
}

// line is a subpath in chords.
type line struct {
	v      []vertex
	closed bool
}

// outline is the edge of the stroke along a path, by the non-zero rule, in no
// more than most steps. made is how many it took, those between dashes too.
func (p pen) outline(path draw.Path, most int) (out draw.Path, made int, err error) {
	var lines []line
	chords(path, func(at draw.Point, first, closed, smooth bool) {
		if first {
			lines = append(lines, line{})
		}
		l := &lines[len(lines)-1]
		if closed {
			l.closed = true
		}
		if n := len(l.v); n > 0 && l.v[n-1].Point == at {
			l.v[n-1].smooth = l.v[n-1].smooth && smooth
			return
		}
		if made++; made <= most { // curves have up to 128 chords each: not all are gathered and then counted
			l.v = append(l.v, vertex{at, smooth})
		}
	})
	if made > most {
		return out, made, errSteps
	}
	for _, l := range lines {
		if n := len(l.v); l.closed && n > 1 && l.v[0].Point == l.v[n-1].Point {
			l.v = l.v[:n-1]
		}
		parts := []line{l}
		if len(p.dashes) > 0 {
			if parts, err = p.dashed(l, most); err != nil {
				return out, made, err
			}
		}
		for _, part := range parts {
			p.trace(&out, part)
			if len(out.Verbs) > most {
				return out, made, errSteps
			}
		}
	}
	return out, max(made, len(out.Verbs)), nil
}

// dashed cuts a line into dashes.
func (p pen) dashed(l line, most int) (parts []line, err error) {
	sum := 0.0
	for _, d := range p.dashes {
		sum += d
	}
	rest, i := math.Mod(p.offset, sum), 0
	if rest < 0 {
		rest += sum
	}
	for rest > 0 && rest >= p.dashes[i] { // a dash of no length may be the first
		rest -= p.dashes[i]
		i = (i + 1) % len(p.dashes)
	}
	left := p.dashes[i] - rest
	v := l.v
	if l.closed {
		v = append(append([]vertex{}, v...), v[0])
	}
	open := line{v: []vertex{{v[0].Point, false}}}
	reach := func(at vertex) { // a dash may end, or begin, on a point of the line
		if n := len(open.v); open.v[n-1].Point != at.Point {
			open.v = append(open.v, at)
		} else {
			open.v[n-1].smooth = open.v[n-1].smooth && at.smooth
		}
	}
	for k := 1; k < len(v); k++ {
		a, b := v[k-1].Point, v[k]
		whole := math.Hypot(b.X-a.X, b.Y-a.Y)
		done := 0.0
		for whole-done > left {
			done += left
			at := vertex{draw.Point{X: a.X + (b.X-a.X)*done/whole, Y: a.Y + (b.Y-a.Y)*done/whole}, false}
			if i%2 == 0 {
				reach(at)
				parts = append(parts, open)
			}
			if len(parts) > most {
				return nil, errSteps
			}
			open = line{v: []vertex{at}}
			i = (i + 1) % len(p.dashes)
			left = p.dashes[i]
		}
		left -= whole - done
		if i%2 == 0 {
			reach(b)
		}
	}
	if i%2 == 0 && len(open.v) > 1 {
		parts = append(parts, open)
	}
	return parts, nil
}

// trace adds the outline of one line: along its left side and back along its
// right one, or each a loop of its own when it is closed. On the inner side of
// a corner the outline passes through the corner itself, so that the non-zero
// rule fills what it should.
func (p pen) trace(out *draw.Path, l line) {
	n := len(l.v)
	if n == 1 {
		p.dot(out, l.v[0].Point)
		return
	}
	if l.closed && n > 2 {
		for _, step := range []int{1, -1} {
			var side []draw.Point
			for k := range n {
				i := k
				if step < 0 {
					i = n - 1 - k
				}
				side = p.corner(side, l.v[((i-step)%n+n)%n].Point, l.v[i], l.v[((i+step)%n+n)%n].Point)
			}
			loop(out, side)
		}
		return
	}
	var side []draw.Point
	for _, step := range []int{1, -1} {
		at := func(k int) vertex {
			if step < 0 {
				k = n - 1 - k
			}
			return l.v[k]
		}
		side = append(side, p.beside(at(0).Point, at(1).Point, at(0).Point))
		for k := 1; k < n-1; k++ {
			side = p.corner(side, at(k-1).Point, at(k), at(k+1).Point)
		}
		side = p.end(side, at(n-2).Point, at(n-1).Point)
	}
	loop(out, side)
}

func loop(out *draw.Path, side []draw.Point) {
	out.Move(side[0].X, side[0].Y)
	for _, q := range side[1:] {
		out.Line(q.X, q.Y)
	}
	out.Close()
}

// beside is the point half a width to the left of at, going from a to b.
func (p pen) beside(a, b, at draw.Point) draw.Point {
	l := math.Hypot(b.X-a.X, b.Y-a.Y)
	return draw.Point{X: at.X + (b.Y-a.Y)/l*p.width/2, Y: at.Y - (b.X-a.X)/l*p.width/2}
}

// corner adds the left side around a point between two others.
func (p pen) corner(side []draw.Point, before draw.Point, v vertex, after draw.Point) []draw.Point {
	at := v.Point
	a, b := p.beside(before, at, at), p.beside(at, after, at)
	in, out := draw.Point{X: at.X - before.X, Y: at.Y - before.Y}, draw.Point{X: after.X - at.X, Y: after.Y - at.Y}
	cross, along := in.X*out.Y-in.Y*out.X, in.X*out.X+in.Y*out.Y
	turn := math.Atan2(cross, along)                          // positive is clockwise: the left side is the outer one
	back := (b.X-a.X)*(in.X+out.X)+(b.Y-a.Y)*(in.Y+out.Y) < 0 // the bend is tighter than the line is wide
	switch {
	case turn <= 0 && turn > -math.Pi && (back || !v.smooth):
		return append(side, a, at, b)
	case v.smooth && turn <= 0:
		return append(side, a, b)
	case v.smooth || p.join == "round":
		return arcTo(append(side, a), at, math.Abs(turn), b)
	case p.join == "bevel" || p.join == "miter-clip" || 1 > p.miter*math.Cos(turn/2):
		return append(side, a, b)
	}
	reach := 1 / math.Cos(turn/2) / math.Cos(turn/2) / 2 // from the corner through the middle of a and b
	tip := draw.Point{X: at.X + (a.X+b.X-2*at.X)*reach, Y: at.Y + (a.Y+b.Y-2*at.Y)*reach}
	return append(side, a, tip, b)
}

// end adds the cap where a line that comes from before ends.
func (p pen) end(side []draw.Point, before, at draw.Point) []draw.Point {
	a := p.beside(before, at, at)
	b := draw.Point{X: 2*at.X - a.X, Y: 2*at.Y - a.Y}
	ahead := draw.Point{X: -(a.Y - at.Y), Y: a.X - at.X}
	switch p.cap {
	case "round":
		return arcTo(append(side, a), at, math.Pi, b)
	case "square":
		return append(side, draw.Point{X: a.X + ahead.X, Y: a.Y + ahead.Y}, draw.Point{X: b.X + ahead.X, Y: b.Y + ahead.Y})
	}
	return append(side, a, b)
}

// dot is the stroke of a line with no length: only its caps show.
func (p pen) dot(out *draw.Path, at draw.Point) {
	r := p.width / 2
	switch p.cap {
	case "round":
		out.Append(draw.Circle(at.X, at.Y, r))
	case "square":
		loop(out, []draw.Point{{X: at.X - r, Y: at.Y - r}, {X: at.X + r, Y: at.Y - r}, {X: at.X + r, Y: at.Y + r}, {X: at.X - r, Y: at.Y + r}})
	}
}

// arcTo adds points clockwise around c from the last one by a turn to end.
func arcTo(side []draw.Point, c draw.Point, turn float64, end draw.Point) []draw.Point {
	from := side[len(side)-1]
	n := max(1, int(math.Ceil(turn/(math.Pi/24)))) // 7.5 degrees: within 0.2 hundredths of the half width
	for i := 1; i < n; i++ {
		sin, cos := math.Sincos(turn * float64(i) / float64(n))
		d := draw.Point{X: from.X - c.X, Y: from.Y - c.Y}
		side = append(side, draw.Point{X: c.X + d.X*cos - d.Y*sin, Y: c.Y + d.X*sin + d.Y*cos})
	}
	return append(side, end)
}
