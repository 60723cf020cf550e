package handmade_test

import (
	"errors"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner"
	"underflap/liner/handmade"
	"underflap/pattern/words"
)

func TestWhatCannotBeFoldedIsRefusedByTheMeasurementToLookAt(t *testing.T) {
	two, four := a4Example, squareExample
	with := func(j handmade.Job, change func(*handmade.Job)) handmade.Job {
		change(&j)
		return j
	}
	for _, c := range []struct {
		job   handmade.Job
		field string
		says  string // among its words
	}{
		{with(two, func(j *handmade.Job) { j.Construction = "origami" }), "handmade", "two-panel, four-corner"},
		{with(two, func(j *handmade.Job) { j.Construction = "" }), "handmade", "two-panel, four-corner"},
		{with(two, func(j *handmade.Job) { j.Height = 30 }), "pocket", "from 40 mm"},
		{with(two, func(j *handmade.Job) { j.Width = math.NaN() }), "pocket", "from 40 mm"},
		{with(two, func(j *handmade.Job) { j.Width = math.Inf(1) }), "pocket", "to 1300 mm"},
		{with(two, func(j *handmade.Job) { j.Width = -160 }), "pocket", "from 40 mm"},
		{with(two, func(j *handmade.Job) { j.Width = 200 }), "from", "at least 223 × 254 mm"},
		{with(two, func(j *handmade.Job) { j.Height = 140 }), "from", "at least 183 × 304 mm"},
		{with(two, func(j *handmade.Job) { j.Sheet = sheet(297, 210) }), "from", "this one turned: 210 × 297 mm"},
		{with(two, func(j *handmade.Job) { j.Sheet.Height = math.NaN() }), "from", "at least"},
		{with(two, func(j *handmade.Job) { j.Width, j.Sheet = 900, liner.Paper{} }), "from", "no standard sheet"},
		{with(two, func(j *handmade.Job) { j.FlapDepth = 68.1 }), "flap-depth", "25 mm to 68 mm"},
		{with(two, func(j *handmade.Job) { j.FlapDepth = 24.9 }), "flap-depth", "25 mm to 68 mm"},
		{with(two, func(j *handmade.Job) { j.FlapDepth = 116 }), "flap-depth", "25 mm to 68 mm"},
		{with(two, func(j *handmade.Job) { j.FlapDepth, j.Sheet = 116, liner.Paper{} }), "flap-depth", "25 mm to 115 mm"},
		{with(two, func(j *handmade.Job) { j.FlapDepth = math.NaN() }), "flap-depth", "25 mm to 68 mm"},
		{with(two, func(j *handmade.Job) { j.Overlap = 5.9 }), "overlap", "6 mm to 76.5 mm"},
		{with(two, func(j *handmade.Job) { j.Overlap = 77 }), "overlap", "6 mm to 76.5 mm"},
		{with(two, func(j *handmade.Job) { j.Overlap = -1 }), "overlap", "6 mm to 76.5 mm"},
		{with(two, func(j *handmade.Job) { j.Overlap = 24 }), "from", "at least 211 × 254 mm"},
		// (160 + 115)/√2 + 10 = 204.45
		{with(four, func(j *handmade.Job) { j.Sheet = sheet(204.4, 400) }), "from", "at least 204.5 × 204.5 mm"},
		{with(four, func(j *handmade.Job) { j.Sheet = sheet(203.2, 203.2) }), "from", "or an overlap of up to 8.7 mm"},
		{with(four, func(j *handmade.Job) { j.Overlap = 16 }), "from", "at least 210.5 × 210.5 mm"},
		{with(four, func(j *handmade.Job) { j.FlapDepth = 60 }), "flap-depth", "two-panel"},
		// the flap, H - h/2 with H > (w+h)/2, would reach past a pocket half as high as wide
		{with(four, func(j *handmade.Job) { j.Width, j.Height = 220, 110 }), "pocket", "up to 207.5 mm wide"},
		{with(four, func(j *handmade.Job) { j.Width, j.Height = 100, 160 }), "pocket", "up to 145 mm high"},
		{with(four, func(j *handmade.Job) { j.Overlap = 60 }), "overlap", "6 mm to 46.6 mm"},
	} {
		r := refusal(t, c.job)
		if r.Field != c.field || !strings.Contains(r.Error(), c.says) {
			t.Errorf("%+v: %v, want %s and %q", c.job, r, c.field, c.says)
		}
	}
}

var (
	atLeast  = regexp.MustCompile(`a sheet of at least ([0-9.]+) × ([0-9.]+) mm`)
	upTo     = regexp.MustCompile(`^[0-9.]+ mm to ([0-9.]+) mm`)
	suchAs   = regexp.MustCompile(`such as ([^,]*)`)
	narrower = regexp.MustCompile(`or an overlap of up to ([0-9.]+) mm`)
	turned   = regexp.MustCompile(`or this one turned: ([0-9.]+) × ([0-9.]+) mm`)
	wideHigh = regexp.MustCompile(`^up to ([0-9.]+) mm (wide|high)`)
)

// What a refusal says is accepted, is; and what is a tenth less is not.
func TestWhatARefusalAcceptsIsAccepted(t *testing.T) {
	seen := map[string]int{}
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, least, most float64) float64 { return rapid.Float64Range(least, most).Draw(t, name) }
		j := anyJob(draw, rapid.SampledFrom(handmade.Constructions).Draw(t, "construction"))
		switch rapid.IntRange(0, 6).Draw(t, "slip") {
		case 0:
			j.Sheet = sheet(draw("sheet width", 50, 300), draw("sheet height", 50, 300))
		case 1:
			j.Overlap = draw("any overlap", 0.1, 200)
		case 2:
			j.FlapDepth = draw("any depth", 1, 300)
		case 3:
			j.Height = draw("any height", 40, 300)
		case 4:
			j.Sheet, j.FlapDepth = sheet(3*j.Height, 1.2*j.Width+24), 0
		case 5: // a seam between the least and the default
			seam := draw("seam", 6.2, 9.8)
			if j.Overlap, j.FlapDepth = 0, 0; j.Construction == handmade.FourCorner {
				side := max((j.Width+j.Height)/math.Sqrt2+seam, math.Sqrt2*(j.Height+seam/2))
				j.Sheet = sheet(side, side)
			} else {
				j.Sheet = sheet(j.Width+2*(seam+1.5), 3*j.Height)
			}
		}
		_, err := handmade.New(j)
		if err == nil {
			return
		}
		var r *words.Refused
		if !errors.As(err, &r) || strings.Contains(r.Error(), "\n") {
			t.Fatalf("%+v: %v", j, err)
		}
		seen[r.Field]++
		accepted := func(j handmade.Job) {
			if _, err := handmade.New(j); err != nil && strings.HasPrefix(err.Error(), r.Field) {
				t.Errorf("%+v: %v; then %+v: %v", j, r, j, err)
			}
		}
		k := j
		if m := atLeast.FindStringSubmatch(r.Accepts); m != nil {
			k.Sheet = sheet(number(m[1]), number(m[2]))
			accepted(k)
			for _, less := range []liner.Paper{sheet(k.Sheet.Width-0.11, 2000), sheet(2000, k.Sheet.Height-0.11)} {
				k.Sheet = less
				if _, err := handmade.New(k); err == nil {
					t.Errorf("%+v: %v, but %+v is accepted", j, r, less)
				}
			}
		}
		if m := suchAs.FindStringSubmatch(r.Accepts); m != nil {
			p, err := liner.ParsePaper("from", m[1])
			if err != nil {
				t.Errorf("%v: %v", r, err)
			}
			k.Sheet = p
			accepted(k)
		}
		if m := narrower.FindStringSubmatch(r.Accepts); m != nil {
			seen["narrower"]++
			k = j
			k.Overlap = number(m[1])
			made(t, k)
			k.Overlap += 0.11
			refusal(t, k)
		}
		if m := turned.FindStringSubmatch(r.Accepts); m != nil {
			seen["turned"]++
			k = j
			k.Sheet = sheet(j.Sheet.Height, j.Sheet.Width)
			made(t, k)
		}
		if m := upTo.FindStringSubmatch(r.Accepts); m != nil {
			k = j
			change := map[string]*float64{"overlap": &k.Overlap, "flap-depth": &k.FlapDepth}[r.Field]
			*change = number(m[1])
			accepted(k)
			*change += 0.11
			if _, err := handmade.New(k); err == nil {
				t.Errorf("%+v: %v, but %v is accepted", j, r, *change)
			}
		}
		if m := wideHigh.FindStringSubmatch(r.Accepts); m != nil {
			k = j
			k.Overlap = handmade.LeastOverlap
			side := map[string]*float64{"wide": &k.Width, "high": &k.Height}[m[2]]
			*side = number(m[1])
			accepted(k)
			*side += 0.11
			if r := refusal(t, k); r.Field != "pocket" {
				t.Errorf("%+v: %v, but %v is refused for its %s", j, r, *side, r.Field)
			}
		}
	})
	for _, field := range []string{"from", "overlap", "flap-depth", "pocket", "narrower", "turned"} {
		if seen[field] == 0 {
			t.Errorf("no refusal for %s in %v", field, seen)
		}
	}
}

// The smallest standard sheet by area, by trying every one.
func TestWithoutASheetTheSmallestStandardOneThatIsLargeEnoughIsTaken(t *testing.T) {
	compared := 0
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, least, most float64) float64 { return rapid.Float64Range(least, most).Draw(t, name) }
		j := anyJob(draw, rapid.SampledFrom(handmade.Constructions).Draw(t, "construction"))
		j.Sheet = liner.Paper{}
		var smallest liner.Paper
		for _, p := range liner.Papers() {
			j := j
			j.Sheet = p
			if _, err := handmade.New(j); err == nil && (smallest.Width == 0 || p.Width*p.Height < smallest.Width*smallest.Height) {
				smallest = p
			}
		}
		b, err := handmade.New(j)
		if smallest.Width == 0 {
			if err == nil {
				t.Errorf("%+v: got %v, though no standard sheet is large enough", j, b.Sheet)
			}
			return
		}
		compared++
		if err != nil {
			t.Fatalf("%+v: %v, though %s is large enough", j, err, smallest.Short)
		}
		if b.Sheet != smallest || b.Smallest != smallest {
			t.Errorf("%+v: from %s, smallest %s, want %s", j, b.Sheet.Short, b.Smallest.Short, smallest.Short)
		}
		// and it is named beside any other sheet
		j.Sheet = sheet(1300, 1300)
		if other := made(t, j); other.Smallest != smallest {
			t.Errorf("%+v: smallest %s, want %s", j, other.Smallest.Short, smallest.Short)
		}
	})
	if compared == 0 {
		t.Error("no sheet was compared")
	}
}
