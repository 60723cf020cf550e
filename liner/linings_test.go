package liner_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner"
	"underflap/liner/geom"
)

// lining is one envelope with its clearances, to be compared.
type lining struct {
	envelope   liner.Envelope
	clearances liner.Clearances
}

var usualClearances = liner.Clearances{SideGap: liner.DefaultSideGap, GumClearance: liner.DefaultGumClearance, CornerRadius: liner.DefaultCornerRadius}

// changes are one measurement after another away from the usual.
var changes = []func(*lining){
	func(l *lining) { l.envelope.Gum = 0 },
	func(l *lining) { l.envelope.Gum = 6 },
	func(l *lining) { l.envelope.Gum = 18 },
	func(l *lining) { l.clearances.GumClearance = 0 },
	func(l *lining) { l.clearances.GumClearance = 4 },
	func(l *lining) { l.clearances.SideGap = 0 },
	func(l *lining) { l.clearances.SideGap = 14 },
	func(l *lining) { l.envelope.Flap.TipRadius = 0 },
	func(l *lining) { l.envelope.Flap.TipRadius = 16 },
	func(l *lining) { l.envelope.Flap.TipRadius = 25; l.envelope.Gum = 5 },
	func(l *lining) { l.envelope.Flap.BaseGap = 0; l.envelope.Flap.Taper = 0 },
	func(l *lining) { l.envelope.Flap.BaseGap = 7 },
	func(l *lining) { l.envelope.Flap.Taper = 0 },
	func(l *lining) { l.envelope.Flap.Taper = 12 },
	func(l *lining) { l.envelope.Flap.Taper = 30; l.envelope.Gum = 8 },
	func(l *lining) { l.envelope.Flap.Shoulder = 0; l.envelope.Gum = 7 },
	func(l *lining) { l.envelope.Flap.Shoulder = 18 },
	func(l *lining) { l.envelope.Flap.Shoulder, l.envelope.Flap.CornerRadius = 14, 5 },
	func(l *lining) { l.envelope.Flap.Shoulder, l.envelope.Flap.CornerRadius, l.envelope.Gum = 20, 14, 4 },
}

// tableLinings are every row of the size table with its commonest flap, as
// usual and with one change, and every thirtieth row with all shapes and all
// changes: four shapes with all changes on all rows take minutes.
func tableLinings() []lining {
	var all []lining
	for i, e := range liner.Entries() {
		for _, shape := range append([]liner.Shape{""}, liner.Shapes...) {
			if shape != "" && i%30 != 0 {
				continue
			}
			l := lining{e.Envelope(shape), usualClearances}
			all = append(all, l)
			for k, change := range changes {
				if shape != "" || k == i%len(changes) {
					changed := l
					change(&changed)
					all = append(all, changed)
				}
			}
		}
	}
	return all
}

// tableLiners are those of tableLinings that make a liner: not every
// measurement suits a pocket of 28 x 40 mm.
func tableLiners(t *testing.T) []liner.Liner {
	t.Helper()
	var made []liner.Liner
	shapes, rows := map[liner.Shape]int{}, map[string]bool{}
	all := tableLinings()
	for _, row := range all {
		l, err := liner.New(row.envelope, row.clearances)
		if err != nil {
			continue
		}
		made = append(made, l)
		shapes[row.envelope.Flap.Shape]++
		rows[row.envelope.Name] = true
	}
	for _, s := range liner.Shapes {
		if shapes[s] < 60 {
			t.Errorf("only %d %s flaps of the table make a liner", shapes[s], s)
		}
	}
	if len(made) < len(all)*8/10 || len(rows) < len(liner.Entries())-2 {
		t.Errorf("only %d of %d measurements make a liner, in %d rows of %d", len(made), len(all), len(rows), len(liner.Entries()))
	}
	return made
}

// source gives numbers from a range; tests of one thing draw them from a seed
// or let rapid choose and shrink them.
type source struct {
	between func(name string, least, most float64) float64
	choose  func(name string, n int) int
	seed    func() *rand.Rand // for the points of a trace
}

func seeded(r *rand.Rand) source {
	return source{
		between: func(_ string, least, most float64) float64 { return least + (most-least)*r.Float64() },
		choose:  func(_ string, n int) int { return r.IntN(n) },
		seed:    func() *rand.Rand { return r },
	}
}

func drawn(t *rapid.T) source {
	return source{
		between: func(name string, least, most float64) float64 { // to the millionth, as lengths are read
			return math.Round(rapid.Float64Range(least, max(least, most)).Draw(t, name)*1e6) / 1e6
		},
		choose: func(name string, n int) int { return rapid.IntRange(0, n-1).Draw(t, name) },
		seed:   func() *rand.Rand { return rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0)) },
	}
}

// anyLining is any envelope a person could measure, its flap on the long side
// or the short one; New may refuse it. Among them are flaps as wide as the
// pocket, and some whose shoulders lean in more than what follows them, which
// have hollow corners.
func anyLining(s source) lining {
	shapes := append(slices.Clone(liner.Shapes), liner.Traced)
	e := liner.Envelope{Name: "measured", Width: s.between("width", 28, 400), Height: s.between("height", 28, 300)}
	f := liner.Flap{Shape: shapes[s.choose("shape", len(shapes))], Depth: s.between("flap depth", 10, e.Height),
		BaseGap: s.between("base gap", 0, min(15, e.Width/8)), Taper: s.between("taper", 0, e.Width/5), TipRadius: s.between("tip radius", 0, min(30, e.Width/5))}
	switch f.Shape {
	case liner.Square:
	case liner.Traced:
		f = liner.TracedFlap(anyTrace(s, e.Width, f.Depth, false))
	case liner.Contour: // no steeper than upright, so no deeper than half as wide
		f.Taper /= 4
		across := e.Width/2 - f.BaseGap - f.Taper
		f.Depth = min(f.Depth, 0.99*across)
		f.Shoulder = s.between("shoulder", 0, f.Depth/2)
		rise := f.Depth - f.Shoulder
		f.TipRadius = s.between("tip's share", 0.01, 0.99) * (across*across + rise*rise) / (2 * rise)
	default: // a needle 30 times as deep as half its width is no flap
		f.Depth = min(f.Depth, 20*(e.Width/2-f.BaseGap-f.Taper))
		f.Shoulder = s.between("shoulder", 0, f.Depth/2)
	}
	if f.Shoulder > 2 && s.choose("eased", 2) == 0 {
		f.Taper = min(f.Taper, 2)
		f.CornerRadius = s.between("corner radius", 0, min(8, f.Shoulder))
	}
	if s.choose("gummed", 4) > 0 {
		e.Gum = s.between("gum", 0.5, min(20, f.Depth/2))
	}
	e.Flap = f
	border := 0.0
	if s.choose("border of its own", 2) == 1 {
		border = s.between("border", 0.5, min(12, f.Depth/2))
	}
	return lining{e, liner.Clearances{Border: border, SideGap: s.between("side gap", 0, e.Width/8), GumClearance: s.between("gum clearance", 0, 4),
		CornerRadius: s.between("bottom corners", 0, min(10, e.Width/5))}}
}

// traceKinds are what a person's trace may look like; the last has no width
// somewhere, and is no polygon.
var traceKinds = []string{"lopsided", "shaky", "steps", "humps", "spike", "plateau", "few", "needles"}

// anyTrace is a flap up to depth, measured point by point.
func anyTrace(s source, width, depth float64, polygon bool) []geom.Point {
	kinds := len(traceKinds)
	if polygon {
		kinds--
	}
	kind := traceKinds[s.choose("trace", kinds)]
	left, right := s.between("left end", 0, width/10), width-s.between("right end", 0, width/10)
	n := 4 + s.choose("points", 120)
	if kind == "few" {
		n = 3 + n%3
	}
	peak := s.between("peak", 0.15, 0.85)
	r := s.seed()
	points := make([]geom.Point, n)
	for i := range points {
		at := float64(i) / float64(n-1)
		x := left + (right-left)*at
		y := math.Sin(math.Pi / 2 * min(at/peak, (1-at)/(1-peak))) // higher on one side
		switch kind {
		case "shaky":
			y = max(0, y+0.01*r.NormFloat64())
		case "steps":
			if i%2 == 1 {
				x = points[i-1].X
			}
			y = math.Round(y*6) / 6
		case "humps":
			y = math.Abs(math.Sin(2 * math.Pi * at))
		case "spike":
			y *= 0.5
			if i == n/2 {
				y = 1
			}
		case "plateau":
			y = min(1, 3*y)
		case "few":
			y = r.Float64()
		case "needles":
			if i%9 == 4 || i%9 == 5 {
				x = points[i-1].X
			}
			if i%9 == 4 {
				y *= 1.2 * r.Float64()
			}
		}
		points[i] = geom.Point{X: x, Y: y}
	}
	top := 0.0
	for _, p := range points {
		top = max(top, p.Y)
	}
	for i := range points {
		points[i].Y *= depth / max(top, 0.01)
	}
	return points
}

// drawLiner draws until New accepts, which bounds how much is thrown away:
// rapid gives up when too little passes.
func drawLiner(t *rapid.T) liner.Liner {
	var l liner.Liner
	rapid.Custom(func(t *rapid.T) lining { return anyLining(drawn(t)) }).Filter(func(row lining) bool {
		made, err := liner.New(row.envelope, row.clearances)
		if err == nil {
			l = made
		}
		return err == nil
	}).Draw(t, "lining")
	return l
}
