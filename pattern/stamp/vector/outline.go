package vector

import (
	"fmt"
	"math"
	"strings"

	"underflap/pattern/draw"
)

// outline is the path of a shape; known is false for other elements.
func outline(e *element) (p draw.Path, known bool, err error) {
	get := func(name string) (v float64) {
		if err == nil {
			v, err = length(e.attrs[name], 0)
		}
		return v
	}
	switch e.name {
	case "path":
		p, err = pathData(e.attrs["d"])
	case "rect":
		p = roundRect(get("x"), get("y"), get("width"), get("height"), get("rx"), get("ry"), e.attrs["rx"] != "" && e.attrs["rx"] != "auto", e.attrs["ry"] != "" && e.attrs["ry"] != "auto")
	case "circle":
		if r := get("r"); r > 0 {
			p = draw.Circle(get("cx"), get("cy"), r)
		}
	case "ellipse":
		if rx, ry := get("rx"), get("ry"); rx > 0 && ry > 0 {
			p = draw.Circle(0, 0, 1).Transform(draw.Matrix{A: rx, D: ry, E: get("cx"), F: get("cy")})
		}
	case "line":
		p.Move(get("x1"), get("y1"))
		p.Line(get("x2"), get("y2"))
	case "polyline", "polygon":
		var v []float64
		v, err = numbers(e.attrs["points"])
		for i := 0; i+1 < len(v); i += 2 {
			if i == 0 {
				p.Move(v[0], v[1])
			} else {
				p.Line(v[i], v[i+1])
			}
		}
		if len(v) > 1 && e.name == "polygon" {
			p.Close()
		}
	default:
		return p, false, nil
	}
	return p, true, err
}

// roundRect has corners of rx by ry; one not given is as the other.
func roundRect(x, y, w, h, rx, ry float64, hasX, hasY bool) (p draw.Path) {
	if w <= 0 || h <= 0 {
		return p
	}
	if !hasX {
		rx = ry
	}
	if !hasY {
		ry = rx
	}
	rx, ry = min(rx, w/2), min(ry, h/2)
	if rx <= 0 || ry <= 0 {
		return draw.Rectangle(draw.Rect{MinX: x, MinY: y, MaxX: x + w, MaxY: y + h})
	}
	w, h = w/rx, h/ry // in a space where corners are round
	quarter := math.Pi / 2
	p.Move(1, 0)
	p.Line(w-1, 0)
	p.Arc(draw.Point{X: w - 1, Y: 1}, quarter)
	p.Line(w, h-1)
	p.Arc(draw.Point{X: w - 1, Y: h - 1}, quarter)
	p.Line(1, h)
	p.Arc(draw.Point{X: 1, Y: h - 1}, quarter)
	p.Line(0, 1)
	p.Arc(draw.Point{X: 1, Y: 1}, quarter)
	p.Close()
	return p.Transform(draw.Matrix{A: rx, D: ry, E: x, F: y})
}

// takes is how many numbers each step of path data takes (SVG 1.1, 8.3).
var takes = map[byte]int{'m': 2, 'l': 2, 'h': 1, 'v': 1, 'c': 6, 's': 4, 'q': 4, 't': 2, 'a': 7, 'z': 0}

// pathData reads a path's d.
func pathData(d string) (draw.Path, error) {
	w := &walker{}
	var step byte
	for {
		d = strings.TrimLeft(d, " \t\r\n,")
		if d == "" {
			return w.path, nil
		}
		switch c := d[0]; {
		case takes[c|0x20] > 0 || c|0x20 == 'z':
			step, d = c, d[1:]
		case step == 0 || step|0x20 == 'z':
			return w.path, fmt.Errorf("broken path data %q", short(d))
		}
		if len(w.path.Verbs) == 0 && step|0x20 != 'm' {
			return w.path, fmt.Errorf("path data that begins with %q", string(step))
		}
		v := make([]float64, takes[step|0x20])
		for i := range v {
			if flag := step|0x20 == 'a' && (i == 3 || i == 4); flag { // one digit, maybe run together
				d = strings.TrimLeft(d, " \t\r\n,")
				if d == "" || d[0] != '0' && d[0] != '1' {
					return w.path, fmt.Errorf("broken path data %q", short(d))
				}
				v[i], d = float64(d[0]-'0'), d[1:]
				continue
			}
			var err error
			if v[i], d, err = read(d); err != nil {
				return w.path, err
			}
		}
		if w.step(step, v); len(w.path.Verbs) > MostSteps {
			return w.path, errSteps
		}
		switch step { // what follows a move without a letter is lines
		case 'm':
			step = 'l'
		case 'M':
			step = 'L'
		}
	}
}

// walker turns steps into a path.
type walker struct {
	path       draw.Path
	at, start  draw.Point
	cubic      draw.Point // last inner point of a cubic, for s
	quadratic  draw.Point // and of a quadratic, for t
	closedLast bool
}

func (w *walker) step(step byte, v []float64) {
	from := draw.Point{}
	if step >= 'a' {
		from = w.at
	}
	point := func(i int) draw.Point { return draw.Point{X: from.X + v[i], Y: from.Y + v[i+1]} }
	if w.closedLast && step|0x20 != 'm' && step|0x20 != 'z' {
		w.path.Move(w.at.X, w.at.Y)
	}
	w.closedLast = false
	mirrored := func(inner draw.Point) draw.Point { return draw.Point{X: 2*w.at.X - inner.X, Y: 2*w.at.Y - inner.Y} }
	cubic, quadratic := w.at, w.at // what s and t mirror after other steps: nothing
	end := w.at
	switch step | 0x20 {
	case 'm':
		end = point(0)
		w.path.Move(end.X, end.Y)
		w.start = end
	case 'l':
		end = point(0)
	case 'h':
		end.X = from.X + v[0]
	case 'v':
		end.Y = from.Y + v[0]
	case 'c':
		cubic, end = point(2), point(4)
		w.path.Cubic(point(0), cubic, end)
	case 's':
		cubic, end = point(0), point(2)
		w.path.Cubic(mirrored(w.cubic), cubic, end)
	case 'q', 't':
		if step|0x20 == 'q' {
			quadratic, end = point(0), point(2)
		} else {
			quadratic, end = mirrored(w.quadratic), point(0)
		}
		third := func(a draw.Point) draw.Point {
			return draw.Point{X: a.X + (quadratic.X-a.X)*2/3, Y: a.Y + (quadratic.Y-a.Y)*2/3}
		}
		w.path.Cubic(third(w.at), third(end), end)
	case 'a':
		end = point(5)
		w.arc(v[0], v[1], v[2], v[3] == 1, v[4] == 1, end)
	case 'z':
		w.path.Close()
		end = w.start
		w.closedLast = true
	}
	if c := step | 0x20; c == 'l' || c == 'h' || c == 'v' {
		w.path.Line(end.X, end.Y)
	}
	w.at = end
	w.cubic, w.quadratic = end, end
	switch step | 0x20 {
	case 'c', 's':
		w.cubic = cubic
	case 'q', 't':
		w.quadratic = quadratic
	}
}

// arc runs along an ellipse (SVG 1.1, appendix F.6): in the space where the
// ellipse is a circle of radius 1.
func (w *walker) arc(rx, ry, turn float64, large, clockwise bool, end draw.Point) {
	rx, ry = math.Abs(rx), math.Abs(ry)
	if w.at == end {
		return
	}
	if rx == 0 || ry == 0 {
		w.path.Line(end.X, end.Y)
		return
	}
	space := draw.Turn(turn).After(draw.Matrix{A: rx, D: ry})
	a, b := space.Inverse().Apply(w.at), space.Inverse().Apply(end)
	half := math.Hypot(b.X-a.X, b.Y-a.Y) / 2
	if half > 1 { // too small to reach: enlarged until it does
		space = space.After(draw.Scale(half))
		a, b = draw.Point{X: a.X / half, Y: a.Y / half}, draw.Point{X: b.X / half, Y: b.Y / half}
		half = 1
	}
	rise := math.Sqrt(max(0, 1-half*half)) / half / 2
	if large == clockwise {
		rise = -rise
	}
	centre := draw.Point{X: (a.X+b.X)/2 - rise*(b.Y-a.Y), Y: (a.Y+b.Y)/2 + rise*(b.X-a.X)}
	from, to := math.Atan2(a.Y-centre.Y, a.X-centre.X), math.Atan2(b.Y-centre.Y, b.X-centre.X)
	sweep := to - from
	if clockwise && sweep <= 0 {
		sweep += 2 * math.Pi
	}
	if !clockwise && sweep >= 0 {
		sweep -= 2 * math.Pi
	}
	var round draw.Path
	round.Move(a.X, a.Y)
	round.Arc(centre, sweep)
	round.Points[len(round.Points)-1] = b
	piece := round.Transform(space)
	piece.Points[len(piece.Points)-1] = end
	piece.Steps(func(v draw.Verb, p []draw.Point) {
		if v == draw.Cubic {
			w.path.Cubic(p[0], p[1], p[2])
		}
	})
}
