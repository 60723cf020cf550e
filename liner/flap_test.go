package liner_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/pattern/words"
)

// measures are the fields of a flap by their flags.
var measures = map[string]func(*liner.Flap) *float64{
	"shoulder":           func(f *liner.Flap) *float64 { return &f.Shoulder },
	"taper":              func(f *liner.Flap) *float64 { return &f.Taper },
	"base-gap":           func(f *liner.Flap) *float64 { return &f.BaseGap },
	"tip-radius":         func(f *liner.Flap) *float64 { return &f.TipRadius },
	"flap-corner-radius": func(f *liner.Flap) *float64 { return &f.CornerRadius },
}

// What a shape takes changes its flap, and what it does not take changes
// nothing.
func TestAShapeTakesWhatChangesItsFlapAndNothingElse(t *testing.T) {
	const width, depth = 170.0, 62.0
	for _, shape := range liner.Shapes {
		base := liner.UsualFlap(shape, depth, width)
		if slices.Contains(shape.Takes(), "shoulder") {
			base.Shoulder = 14 // a corner to be eased
		}
		usual := mustProfile(t, base, width)
		for field, of := range measures {
			changed := base
			*of(&changed) += 2.5
			p, err := changed.Profile(width)
			if err != nil {
				t.Errorf("%s with %s of %v: %v", shape, field, *of(&changed), err)
				continue
			}
			if takes, same := slices.Contains(shape.Takes(), field), slices.Equal(p, usual); takes == same {
				t.Errorf("%s takes %s: %v; it changed the flap: %v", shape, field, takes, !same)
			}
		}
		for _, field := range shape.Takes() {
			if measures[field] == nil {
				t.Errorf("%s takes %q", shape, field)
			}
			if !slices.Contains(liner.Taking(field), string(shape)) {
				t.Errorf("%s takes %s, which %v take", shape, field, liner.Taking(field))
			}
		}
	}
	for field := range measures {
		for _, shape := range liner.Taking(field) {
			if !slices.Contains(liner.Shape(shape).Takes(), field) {
				t.Errorf("%s is among those that take %s, but takes %v", shape, field, liner.Shape(shape).Takes())
			}
		}
	}
	if takes := liner.Traced.Takes(); len(takes) != 0 || len(liner.Taking("depth")) != 0 {
		t.Errorf("a traced flap takes %v, depth is taken by %v", takes, liner.Taking("depth"))
	}
}

func TestEveryShapeIsFoundByItsNameAndSaysWhatItLooksLike(t *testing.T) {
	said := map[string]bool{}
	for _, shape := range liner.Shapes {
		for _, given := range []string{string(shape), strings.ToUpper(string(shape)), "  " + string(shape) + "\t"} {
			if got, err := liner.ParseShape("flap", given); err != nil || got != shape {
				t.Errorf("%q: %q, %v", given, got, err)
			}
		}
		about := shape.About()
		if about == "" || said[about] || strings.Contains(about, "\n") {
			t.Errorf("%s: %q", shape, about)
		}
		said[about] = true
	}
	for _, given := range []string{"", "round", "traced", "pointed square", "контур"} {
		_, err := liner.ParseShape("flap", given)
		var refused *words.Refused
		if !errors.As(err, &refused) || refused.Field != "flap" {
			t.Errorf("%q: %v", given, err)
			continue
		}
		for _, shape := range liner.Shapes {
			if !strings.Contains(refused.Accepts, string(shape)) {
				t.Errorf("%q: %v does not list %s", given, err, shape)
			}
		}
	}
}

// What is filled in must go together: on any pocket, from one of 28 x 40 mm,
// a flap as deep as the shape can be carries its usual measurements.
func TestTheUsualMeasurementsMakeAFlapOnEveryPocket(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.Float64Range(28, 1300).Draw(t, "width")
		shape := rapid.SampledFrom(liner.Shapes).Draw(t, "shape")
		deepest := width
		if shape == liner.Contour {
			deepest = width/2 - 2 // no steeper than upright
		}
		depth := rapid.Float64Range(5, deepest).Draw(t, "depth")
		f := liner.UsualFlap(shape, depth, width)
		p, err := f.Profile(width)
		if err != nil {
			t.Fatalf("%+v: %v", f, err)
		}
		if f.Shape != shape || f.Depth != depth {
			t.Fatalf("%s of %v became %+v", shape, depth, f)
		}
		whole(t, string(shape), p)
		if got := p.Height(); got < depth-1e-9 || got > depth+1e-9 {
			t.Fatalf("%+v is %v deep", f, got)
		}
		if shape == liner.Rounded && f.Shoulder != 0 || f.CornerRadius != 0 {
			t.Fatalf("usual shoulder or corner: %+v", f)
		}
	})
	if f := liner.UsualFlap(liner.Traced, 50, 160); f.Shape != liner.Traced || f.Depth != 50 || f.Shoulder != 0 {
		t.Errorf("nothing is usual on a traced flap: %+v", f)
	}
}

// Every flap that is accepted is a profile: it stands on the fold, between the
// pocket's sides, as deep as was said, and its left half mirrors its right.
func TestEveryFlapAcceptedIsAWholeProfile(t *testing.T) {
	accepted := map[liner.Shape]int{}
	rapid.Check(t, func(t *rapid.T) {
		row := anyLining(drawn(t))
		f, width := row.envelope.Flap, row.envelope.Width
		p, err := f.Profile(width)
		var refused *words.Refused
		if err != nil {
			if !errors.As(err, &refused) || refused.Field == "" || refused.Accepts == "" {
				t.Fatalf("%+v: %v", f, err)
			}
			return
		}
		accepted[f.Shape]++
		whole(t, string(f.Shape), p)
		first, last := p[0].A, p[len(p)-1].B
		if first.Y != 0 || last.Y != 0 || first.X < -1e-9 || last.X > width+1e-9 {
			t.Fatalf("%+v over %v runs from %v to %v", f, width, first, last)
		}
		if f.Shape != liner.Traced && (first.X != f.BaseGap || last.X != width-f.BaseGap) {
			t.Fatalf("%+v over %v runs from %v to %v", f, width, first, last)
		}
		if h := p.Height(); h < f.Depth-1e-9 || h > f.Depth+1e-9 {
			t.Fatalf("%+v is %v deep", f, h)
		}
		if f.Shape != liner.Traced {
			for i, s := range p {
				o := p[len(p)-1-i]
				if a, b := (geom.Point{X: width - o.B.X, Y: o.B.Y}), (geom.Point{X: width - o.A.X, Y: o.A.Y}); s.A.Distance(a) > 1e-9 || s.B.Distance(b) > 1e-9 || s.R != o.R {
					t.Fatalf("%+v: piece %d, %+v, is not the mirror image of %+v", f, i, s, o)
				}
			}
		}
	})
	if len(accepted) != 5 {
		t.Errorf("accepted %v", accepted)
	}
}
