package liner_test

import (
	"errors"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/pattern/words"
)

// refusedAs is the refusal of a lining, nil when it is accepted.
func refusedAs(t *testing.T, l lining) *words.Refused {
	t.Helper()
	_, err := liner.New(l.envelope, l.clearances)
	var refused *words.Refused
	if err != nil && !errors.As(err, &refused) {
		t.Errorf("%+v: %v is no refusal", l, err)
	}
	return refused
}

func c6(f liner.Flap) lining {
	return lining{liner.Envelope{Name: "measured", Width: 162, Height: 114, Gum: 12, Flap: f}, usualClearances}
}

// Refusals name the measurement to look at.
func TestMeasurementsThatMakeNoLinerAreRefusedByTheirField(t *testing.T) {
	pointed, square := liner.UsualFlap(liner.Pointed, 64, 162), liner.UsualFlap(liner.Square, 45, 162)
	rounded, contour := liner.UsualFlap(liner.Rounded, 50, 162), liner.UsualFlap(liner.Contour, 50, 162)
	with := func(f liner.Flap, change func(*liner.Flap)) lining {
		change(&f)
		return c6(f)
	}
	changed := func(change func(*lining)) lining {
		l := c6(pointed)
		change(&l)
		return l
	}
	for name, c := range map[string]struct {
		lining
		field string
	}{
		"shoulder as high as the flap":        {with(pointed, func(f *liner.Flap) { f.Shoulder = 64 }), "shoulder"},
		"rounded: shoulder above the flap":    {with(rounded, func(f *liner.Flap) { f.Shoulder = 60 }), "shoulder"},
		"contour: shoulder as high":           {with(contour, func(f *liner.Flap) { f.Shoulder = 50 }), "shoulder"},
		"taper to the middle":                 {with(square, func(f *liner.Flap) { f.Taper = 80 }), "taper"},
		"rounded: taper to the middle":        {with(rounded, func(f *liner.Flap) { f.Taper = 80 }), "taper"},
		"base gap to the middle":              {with(pointed, func(f *liner.Flap) { f.BaseGap = 80 }), "base-gap"},
		"contour: base gap to the middle":     {with(contour, func(f *liner.Flap) { f.BaseGap = 80 }), "base-gap"},
		"tip rounder than a point":            {with(pointed, func(f *liner.Flap) { f.TipRadius = 90 }), "tip-radius"},
		"tip of a steep flap, as wide":        {with(pointed, func(f *liner.Flap) { f.Depth, f.TipRadius = 112, 80 }), "tip-radius"},
		"corners rounder than the sides":      {with(square, func(f *liner.Flap) { f.TipRadius = 60 }), "tip-radius"},
		"contour: an end with no hollow":      {with(contour, func(f *liner.Flap) { f.TipRadius = 1000 }), "tip-radius"},
		"contour: deeper than half its width": {with(contour, func(f *liner.Flap) { f.Depth = 100 }), "flap-depth"},
		"pointed: corner above its shoulder":  {with(pointed, func(f *liner.Flap) { f.CornerRadius = 40 }), "flap-corner-radius"},
		"contour: corner above its shoulder":  {with(contour, func(f *liner.Flap) { f.CornerRadius = 40 }), "flap-corner-radius"},
		"rounded: corner above its shoulder":  {with(rounded, func(f *liner.Flap) { f.Shoulder, f.CornerRadius = 9, 70 }), "flap-corner-radius"},
		"flap deeper than the pocket":         {with(pointed, func(f *liner.Flap) { f.Depth = 115 }), "flap-depth"},
		"unknown shape":                       {with(pointed, func(f *liner.Flap) { f.Shape = "wavy" }), "flap"},
		"no points":                           {c6(liner.TracedFlap(nil)), "profile"},
		"two points":                          {c6(liner.TracedFlap([]geom.Point{{X: 10, Y: 40}, {X: 150, Y: 40}})), "profile"},
		"points to the left":                  {c6(liner.TracedFlap([]geom.Point{{X: 10, Y: 40}, {X: 90, Y: 60}, {X: 80, Y: 40}})), "profile"},
		"points past the pocket":              {c6(liner.TracedFlap([]geom.Point{{X: 10, Y: 40}, {X: 90, Y: 60}, {X: 163, Y: 40}})), "profile"},
		"points left of the pocket":           {c6(liner.TracedFlap([]geom.Point{{X: -3, Y: 40}, {X: 90, Y: 60}, {X: 160, Y: 40}})), "profile"},
		"a height below the fold":             {c6(liner.TracedFlap([]geom.Point{{X: 3, Y: 40}, {X: 90, Y: -6}, {X: 160, Y: 40}})), "profile"},
		"a height that is no number":          {c6(liner.TracedFlap([]geom.Point{{X: 3, Y: 40}, {X: 90, Y: math.NaN()}, {X: 160, Y: 40}})), "profile"},
		"a place that is no number":           {c6(liner.TracedFlap([]geom.Point{{X: 3, Y: 40}, {X: math.NaN(), Y: 60}, {X: 160, Y: 40}})), "profile"},
		"a height without end":                {c6(liner.TracedFlap([]geom.Point{{X: 3, Y: 40}, {X: 90, Y: math.Inf(1)}, {X: 160, Y: 40}})), "profile"},
		"gum as wide as the flap is deep":     {changed(func(l *lining) { l.envelope.Gum = 61 }), "gum"},
		"a shallow flap without gum":          {changed(func(l *lining) { l.envelope.Gum, l.envelope.Flap = 0, liner.UsualFlap(liner.Square, 6, 162) }), "flap-depth"},
		"side gaps that leave nothing":        {changed(func(l *lining) { l.clearances.SideGap = 41 }), "side-gap"},
		"deeper than the pocket":              {changed(func(l *lining) { l.clearances.PocketDepth = 115 }), "pocket-depth"},
		"corners rounder than the pocket":     {changed(func(l *lining) { l.clearances.CornerRadius = 41 }), "corner-radius"},
		"corners rounder than it is deep":     {changed(func(l *lining) { l.clearances.CornerRadius, l.clearances.PocketDepth = 12, 10 }), "corner-radius"},
	} {
		refused := refusedAs(t, c.lining)
		if refused == nil || refused.Field != c.field || refused.Accepts == "" {
			t.Errorf("%s: %+v, want a refusal of %s", name, refused, c.field)
		}
	}
}

// Where the shoulder does not end in a corner that turns inwards, no radius
// helps: the refusal must not offer one "less than 0 mm".
func TestACornerRadiusWithoutACornerIsRefusedAndNoRadiusOffered(t *testing.T) {
	for name, f := range map[string]liner.Flap{
		"pointed, no shoulder":                {Shape: liner.Pointed, Depth: 64, TipRadius: 8},
		"pointed, no shoulder but a taper":    {Shape: liner.Pointed, Depth: 64, TipRadius: 8, Taper: 2},
		"pointed, no shoulder, a sharp tip":   {Shape: liner.Pointed, Depth: 64},
		"pointed, leaning as the slant does":  {Shape: liner.Pointed, Depth: 60, Shoulder: 20, Taper: 27},
		"pointed, leaning more than that":     {Shape: liner.Pointed, Depth: 64, TipRadius: 8, Shoulder: 10, Taper: 30},
		"rounded, no shoulder":                {Shape: liner.Rounded, Depth: 50},
		"rounded, no shoulder but a taper":    {Shape: liner.Rounded, Depth: 50, Taper: 2},
		"rounded, half a disc on its sides":   {Shape: liner.Rounded, Depth: 90, Shoulder: 9},
		"rounded, half an ellipse":            {Shape: liner.Rounded, Depth: 110, Shoulder: 9},
		"rounded, half an ellipse, a taper":   {Shape: liner.Rounded, Depth: 110, Shoulder: 9, Taper: 2},
		"contour, no shoulder":                {Shape: liner.Contour, Depth: 50, TipRadius: 40},
		"contour, no shoulder but a taper":    {Shape: liner.Contour, Depth: 50, TipRadius: 40, Taper: 2},
		"contour, no shoulder, no gap at all": {Shape: liner.Contour, Depth: 50, TipRadius: 30, BaseGap: 0},
	} {
		for _, radius := range []float64{0.01, 1, 5, 30} {
			f.CornerRadius = radius
			refused := refusedAs(t, c6(f))
			if refused == nil || refused.Field != "flap-corner-radius" || strings.Contains(refused.Accepts, "less than 0 mm") {
				t.Errorf("%s, a corner of %v: %+v", name, radius, refused)
			}
		}
		f.CornerRadius = 0
		if refused := refusedAs(t, c6(f)); refused != nil {
			t.Errorf("%s without easing: %v", name, refused)
		}
	}
}

var limit = regexp.MustCompile(`^(less than|up to) ([0-9.]+) mm`)

// A person types the limit that a refusal names, or a little less where it says
// "less than". That must be accepted, however odd the pocket, and a tenth more
// refused.
func TestWhatARefusalSaysIsAcceptedIs(t *testing.T) {
	tried := map[string]int{}
	for _, row := range []lining{
		{liner.Envelope{Width: 241.3, Height: 104.775}, usualClearances}, {liner.Envelope{Width: 146.05, Height: 111.125}, usualClearances},
		{liner.Envelope{Width: 165.1, Height: 92.075}, usualClearances}, {liner.Envelope{Width: 190.5, Height: 98.425}, usualClearances},
		{liner.Envelope{Width: 162, Height: 114}, usualClearances}, {liner.Envelope{Width: 57, Height: 40}, usualClearances},
		{liner.Envelope{Width: 101.3, Height: 230.17}, usualClearances},
	} {
		w, h := row.envelope.Width, row.envelope.Height
		for _, shape := range liner.Shapes {
			deep := 0.4 * min(w, h)
			f := liner.UsualFlap(shape, deep, w)
			row.envelope.Gum = 4
			for field, set := range map[string]func(*lining, float64){
				"tip-radius":         func(l *lining, v float64) { l.envelope.Flap.TipRadius = v },
				"flap-corner-radius": func(l *lining, v float64) { l.envelope.Flap.CornerRadius = v },
				"flap-depth":         func(l *lining, v float64) { l.envelope.Flap.Depth = v },
				"side-gap":           func(l *lining, v float64) { l.clearances.SideGap = v },
				"pocket-depth":       func(l *lining, v float64) { l.clearances.PocketDepth = v },
				"corner-radius":      func(l *lining, v float64) { l.clearances.CornerRadius = v },
			} {
				row.envelope.Flap = f
				if field == "flap-corner-radius" && shape != liner.Square {
					row.envelope.Flap.Shoulder = deep / 3
				}
				l, most := row, 0.0
				set(&l, 1000)
				for range 2 { // a contour flap's second limit is its width
					refused := refusedAs(t, l)
					if refused == nil {
						break
					}
					m := limit.FindStringSubmatch(refused.Accepts)
					if refused.Field != field || m == nil {
						t.Errorf("%s %v x %v, a %s of 1000: %v", shape, w, h, field, refused)
						break
					}
					most, _ = strconv.ParseFloat(m[2], 64)
					if m[1] == "less than" {
						most -= 0.01
					}
					l = row
					set(&l, most)
					tried[field]++
				}
				if most == 0 { // nothing is refused where it means nothing
					if field != "tip-radius" || shape != liner.Rounded {
						t.Errorf("%s %v x %v: a %s of 1000 is accepted", shape, w, h, field)
					}
					continue
				}
				more := row
				if set(&more, most+0.13); refusedAs(t, more) == nil {
					t.Errorf("%s %v x %v: a %s of %v is accepted, past the limit of %v", shape, w, h, field, most+0.13, most)
				}
				if refused := refusedAs(t, l); refused != nil {
					t.Errorf("%s %v x %v: its own limit is refused: %v", shape, w, h, refused)
				}
			}
		}
	}
	if len(tried) != 6 {
		t.Errorf("tried %v", tried)
	}
}
