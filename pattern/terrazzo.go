package pattern

import (
	"math"

	"underflap/pattern/draw"
)

// Terrazzo are chips of stone in mortar: the Voronoi cells of scattered middles,
// set apart and rounded, some left out.
type Terrazzo struct {
	Size  float64 // from one chip's middle to the next, on the average
	Gap   float64 // least mortar between two chips
	Round float64 // how far a corner is cut back
	Laid  float64 // part of the chips that are laid
	Inks  []int
	seed
}

func init() {
	register(family{"terrazzo", "chips of stone in several inks", func(p *params, _ *draw.Art) Motif {
		t := &Terrazzo{}
		p.length(&t.Size, "size", 10, 1, 100, "from one chip to the next, about")
		p.length(&t.Gap, "gap", 0, 0, 50, "least width of the joint between two chips; 0 is a sixth of the size")
		p.length(&t.Round, "round", 0.9, 0, 50, "how far corners are rounded off")
		p.number(&t.Laid, "laid", 0.8, 0.05, 1, "part of the chips that are laid; the others are left out")
		p.inks(&t.Inks, "inks", "1,2,3,4", "inks, in any mixture")
		if t.Gap == 0 {
			t.Gap = t.Size / 6
		}
		p.between("gap", t.Gap, 0.1, t.Size/2)
		return t
	}})
}

// stray is how far middles stray, all told, from a grid of cells of side 1: no
// point of the plane is farther from its own cell's middle than r = (1 + stray)
// / sqrt 2, so a chip keeps within r and only middles nearer than 2 r can bound
// it. A middle three columns or rows away is at least 3 - stray away, and that is
// 2 r or more up to 0.657: the two nearest columns and rows on each side are
// enough.
const stray = 0.65

const near = 2

// most is how far a chip reaches from its middle, at side 1.
const most = (1 + stray) / math.Sqrt2

// middle is where a cell's chip grows from.
func (t *Terrazzo) middle(column, row int) draw.Point {
	falls := t.chance(column, row)
	return draw.Point{
		X: (float64(column) + float64(stray*(falls.Float64()-0.5))) * t.Size,
		Y: (float64(row) + 0.5 + float64(stray*(falls.Float64()-0.5))) * t.Size,
	}
}

// stone tells whether a cell's chip is laid, in what ink, and how much wider its
// joints are. Lots are drawn for four cells at a time, so that inks and places
// left out are even: by the cell they come in clumps.
func (t *Terrazzo) stone(column, row int) (laid bool, ink int, less float64) {
	four := (t.seed ^ 0x666f7572).chance(column>>1, row>>1)
	lot := four.Perm(4)[column&1+2*(row&1)]
	ink = cycle(t.Inks, lot+four.IntN(len(t.Inks)))
	own := (t.seed ^ 0x6f776e).chance(column, row)
	return (float64(lot)+own.Float64())/4 < t.Laid, ink, float64(0.3*own.Float64()) * t.Size
}

// chip is a cell's corners: nearer to its middle than to any other by half the
// gap and a bit of its own.
func (t *Terrazzo) chip(column, row int) []draw.Point {
	m := t.middle(column, row)
	_, _, less := t.stone(column, row)
	r := most * t.Size
	corners := []draw.Point{{X: -r, Y: -r}, {X: r, Y: -r}, {X: r, Y: r}, {X: -r, Y: r}} // about the middle
	for y := row - near; y <= row+near; y++ {
		for x := column - near; x <= column+near; x++ {
			if x == column && y == row {
				continue
			}
			o := t.middle(x, y)
			dx, dy := o.X-m.X, o.Y-m.Y
			far := math.Sqrt(float64(dx*dx) + float64(dy*dy))
			corners = cut(corners, dx/far, dy/far, (far-t.Gap-less)/2)
		}
	}
	for i := range corners {
		corners[i].X, corners[i].Y = corners[i].X+m.X, corners[i].Y+m.Y
	}
	return corners
}

// cut keeps what of a convex polygon lies at most far along the direction (x, y).
func cut(corners []draw.Point, x, y, far float64) []draw.Point {
	var kept []draw.Point
	over := func(p draw.Point) float64 { return float64(p.X*x) + float64(p.Y*y) - far }
	for i, p := range corners {
		q := cycle(corners, i+1)
		a, b := over(p), over(q)
		if a <= 0 {
			kept = append(kept, p)
		}
		if a < 0 && b > 0 || a > 0 && b < 0 {
			k := a / (a - b)
			kept = append(kept, draw.Point{X: p.X + float64(k*(q.X-p.X)), Y: p.Y + float64(k*(q.Y-p.Y))})
		}
	}
	return kept
}

// rounded is the polygon with its corners cut back by curves within it.
func rounded(corners []draw.Point, back float64) draw.Path {
	if back == 0 {
		return polygon(corners)
	}
	from := func(p, q draw.Point) draw.Point { // back from p towards q, at most half way
		k := math.Min(0.5, back/math.Hypot(q.X-p.X, q.Y-p.Y))
		return draw.Point{X: p.X + k*(q.X-p.X), Y: p.Y + k*(q.Y-p.Y)}
	}
	control := func(end, corner draw.Point) draw.Point { // of a parabola, as a cubic
		return draw.Point{X: (end.X + 2*corner.X) / 3, Y: (end.Y + 2*corner.Y) / 3}
	}
	var path draw.Path
	for i, p := range corners {
		in, out := from(p, cycle(corners, i-1)), from(p, cycle(corners, i+1))
		if i == 0 {
			path.Move(in.X, in.Y)
		} else {
			path.Line(in.X, in.Y)
		}
		path.Cubic(control(in, p), control(out, p), out)
	}
	path.Close()
	return path
}

// Count implements Motif.
func (t *Terrazzo) Count(area draw.Rect) float64 { return t.Laid * cells(area, t.Size, t.Size) }

// Draw implements Motif.
func (t *Terrazzo) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	reach := (most + stray) * t.Size
	for row := int(math.Floor((area.MinY - reach) / t.Size)); float64(row)*t.Size <= area.MaxY+reach; row++ {
		for column := int(math.Floor((area.MinX - reach) / t.Size)); float64(column)*t.Size <= area.MaxX+reach; column++ {
			laid, ink, _ := t.stone(column, row)
			if !laid || ink == 0 {
				continue
			}
			if corners := t.chip(column, row); len(corners) > 2 {
				s.Fill(rounded(corners, t.Round), inks.Ink(ink))
			}
		}
	}
}
