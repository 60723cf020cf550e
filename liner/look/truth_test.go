package look_test

import (
	"math"
	"testing"

	"underflap/liner/geom"
	"underflap/liner/look"
	"underflap/pattern/draw"
)

// Marks point at what they name: their ends are compared with the envelope's
// own measurements and, by brute force, with its flap and outline.

const exact = 0.02 // millimetres on the page, and what flattening leaves

func TestTheDrawingKeepsTheEnvelopesProportions(t *testing.T) {
	for _, d := range drawings() {
		name, found, e := d.name, d.found, d.liner.Envelope
		near(t, name+": width over height", found.Pocket.Width()/found.Pocket.Height(), e.Width/e.Height, 1e-6)
		near(t, name+": width", found.Pocket.Width(), e.Width*found.Scale, 1e-6)
		near(t, name+": flap", found.Pocket.MinY-found.Tip.Y, d.liner.FlapProfile().Height()*found.Scale, 1e-6)
	}
}

func TestTheThreeMeasurementsRunFromEdgeToEdge(t *testing.T) {
	for _, d := range drawings() {
		name, found, p := d.name, d.found, d.found.Pocket
		for _, want := range []struct {
			of       string
			from, to float64
			upright  bool
		}{{"width", p.MinX, p.MaxX, false}, {"height", p.MinY, p.MaxY, true}, {"flap depth", found.Tip.Y, p.MinY, true}} {
			line := only(t, name, found, want.of, look.Dimension)
			a, b := line.A.X, line.B.X
			if want.upright {
				a, b = line.A.Y, line.B.Y
			}
			if want.to-want.from < 6 { // arrows stand outside
				continue
			}
			near(t, name+": "+want.of+" begins", min(a, b), want.from, 1e-6)
			near(t, name+": "+want.of+" ends", max(a, b), want.to, 1e-6)
		}
	}
}

func TestLettersPointAtWhatTheyName(t *testing.T) {
	gums, gaps, tips, corners, depths := 0, 0, 0, 0, 0
	for _, d := range drawings() {
		if d.extent != look.All {
			continue
		}
		name, l, found := d.name, d.liner, d.found
		k := found.Scale
		flap, outline := onPage(found, geom.Contour(l.FlapProfile())), onPage(found, l.Outline(l.WantedPocketDepth()).Contour)
		for _, line := range found.Lines {
			switch {
			case line.Of == "gum" && l.Envelope.Gum*k > 6:
				gums++
				near(t, name+": gum", toChain(line.B, flap), l.Envelope.Gum*k, exact)
			case line.Of == "gum clearance":
				gaps++
				near(t, name+": gum clearance", toChain(line.B, flap), (l.Envelope.Gum+l.GumClearance/2)*k, exact)
			case line.Of == "tip radius":
				tips++
				near(t, name+": tip radius", toChain(line.B, flap), 0, exact)
			case line.Of == "liner corner radius":
				corners++
				near(t, name+": liner corner", toChain(line.B, outline), 0, 2*exact)
			case line.Of == "pocket depth" && line.Kind == look.Dimension:
				depths++
				if l.WantedPocketDepth()*k > 6 {
					near(t, name+": pocket depth begins", line.A.Y, found.Pocket.MinY, 1e-6)
					near(t, name+": pocket depth ends", line.B.Y, found.Pocket.MinY+l.WantedPocketDepth()*k, 1e-6)
				}
			}
		}
	}
	for what, n := range map[string]int{"gum": gums, "gum clearance": gaps, "tip": tips, "corner": corners, "depth": depths} {
		if n < 100 {
			t.Errorf("%s was compared %d times", what, n)
		}
	}
}

func TestTheEndOfTheFoldIsMeasuredAsLongAsItIs(t *testing.T) {
	compared := map[string]int{}
	for _, d := range drawings() {
		found, flap := d.found, d.liner.Envelope.Flap
		if found.Larger == 0 {
			continue
		}
		// extension lines stand on the edges that are measured
		at := map[string][]draw.Point{}
		for _, l := range found.Lines {
			if l.Kind == look.Extension {
				at[l.Of] = append(at[l.Of], l.A)
			}
			if l.Of == "side gap" && d.liner.SideGap*found.Scale*float64(found.Larger) > 6 {
				near(t, d.name+": side gap", l.B.X-found.Corner.X, d.liner.SideGap*found.Scale*float64(found.Larger), 1e-6)
				compared["side gap"]++
			}
		}
		scale := func(p draw.Point) float64 {
			if overlap(draw.Rect{MinX: p.X, MinY: p.Y, MaxX: p.X + 0.01, MaxY: p.Y + 0.01}, found.Detail) {
				return found.Scale * float64(found.Larger)
			}
			return found.Scale
		}
		if p := at["base gap"]; len(p) == 1 {
			compared["base gap"]++
			near(t, d.name+": base gap", p[0].X-found.Corner.X, flap.BaseGap*scale(p[0]), 1e-6)
		}
		if p := at["shoulder"]; len(p) == 2 {
			compared["shoulder"]++
			near(t, d.name+": shoulder", math.Abs(p[0].Y-p[1].Y), flap.Shoulder*scale(p[0]), 1e-6)
		}
		if p := at["taper"]; len(p) == 2 {
			compared["taper"]++
			near(t, d.name+": taper", math.Abs(p[0].X-p[1].X), flap.Taper*scale(p[0]), 1e-6)
		}
	}
	for _, of := range []string{"side gap", "base gap", "shoulder", "taper"} {
		if compared[of] < 100 {
			t.Errorf("%s was compared %d times", of, compared[of])
		}
	}
}

// onPage carries a contour of liner space to the page.
func onPage(found look.Labels, c geom.Contour) (out []draw.Point) {
	for _, p := range c.Flatten(0.005) {
		out = append(out, draw.Point{X: found.Pocket.MinX + p.X*found.Scale, Y: found.Pocket.MinY - p.Y*found.Scale})
	}
	return out
}

func toChain(p draw.Point, chain []draw.Point) float64 {
	least := math.Inf(1)
	for i := 1; i < len(chain); i++ {
		a, b := chain[i-1], chain[i]
		dx, dy := b.X-a.X, b.Y-a.Y
		along := 0.0
		if square := dx*dx + dy*dy; square > 0 {
			along = max(0, min(1, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/square))
		}
		least = min(least, math.Hypot(p.X-a.X-along*dx, p.Y-a.Y-along*dy))
	}
	return least
}

func only(t *testing.T, name string, found look.Labels, of string, kind look.Kind) (line look.Line) {
	t.Helper()
	n := 0
	for _, l := range found.Lines {
		if l.Of == of && l.Kind == kind {
			line = l
			n++
		}
	}
	if n != 1 {
		t.Errorf("%s: %d dimensions of %s", name, n, of)
	}
	return line
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tolerance {
		t.Errorf("%s is %.6g, want %.6g", what, got, want)
	}
}
