package handmade_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner"
	"underflap/liner/handmade"
	"underflap/pattern/words"
)

// sheet is a paper of a size.
func sheet(width, height float64) liner.Paper {
	return liner.Paper{Short: words.MMSize(width, height), Width: width, Height: height}
}

var (
	squareExample = handmade.Job{Construction: handmade.FourCorner, Width: 160, Height: 115, Sheet: sheet(210, 210)}
	a4Example     = handmade.Job{Construction: handmade.TwoPanel, Width: 160, Height: 115, Sheet: sheet(210, 297)}
)

// between draws a length.
type between func(name string, least, most float64) float64

// anyJob is any envelope a person could ask for on a sheet that is about large
// enough; New may refuse it.
func anyJob(draw between, c handmade.Construction) handmade.Job {
	j := handmade.Job{Construction: c, Width: draw("width", 40, 320), StraightBottom: draw("straight", 0, 2) > 1}
	if draw("overlap asked for", 0, 2) > 1 {
		j.Overlap = draw("overlap", handmade.LeastOverlap, 18)
	}
	if c == handmade.FourCorner {
		j.Height = j.Width * draw("height by width", 0.55, 1.4)
		least := (j.Width + j.Height) / math.Sqrt2
		j.Sheet = sheet(least+draw("more width", 0, 150), least+draw("more height", 0, 150))
		return j
	}
	j.Height = draw("height", 40, 320)
	j.Sheet = sheet(j.Width*draw("sheet by width", 1.1, 2.2)+12, j.Height*draw("sheet by height", 2, 3.2)+24)
	if draw("depth asked for", 0, 2) > 1 {
		j.FlapDepth = draw("depth", handmade.LeastFlap, j.Height)
	}
	return j
}

// drawBlank draws until New accepts, which bounds how much is thrown away:
// rapid gives up when too little passes.
func drawBlank(t *rapid.T) handmade.Blank {
	var b handmade.Blank
	rapid.Custom(func(t *rapid.T) handmade.Job {
		return anyJob(func(name string, least, most float64) float64 { return rapid.Float64Range(least, most).Draw(t, name) },
			rapid.SampledFrom(handmade.Constructions).Draw(t, "construction"))
	}).Filter(func(j handmade.Job) bool {
		made, err := handmade.New(j)
		if err == nil {
			b = made
		}
		return err == nil
	}).Draw(t, "job")
	return b
}

// blanksToFold are the two examples, table envelopes folded from every standard
// sheet, and random ones of both constructions.
func blanksToFold(t *testing.T) []handmade.Blank {
	var all []handmade.Blank
	count := map[handmade.Construction]int{}
	add := func(j handmade.Job) {
		if b, err := handmade.New(j); err == nil {
			all = append(all, b)
			count[j.Construction]++
		}
	}
	add(squareExample)
	add(a4Example)
	for _, c := range handmade.Constructions {
		for _, size := range [][2]float64{{162, 114}, {220, 110}, {90, 55}, {130, 130}, {130, 150}, {114, 162}} {
			for _, p := range liner.Papers() {
				for _, straight := range []bool{false, true} {
					add(handmade.Job{Construction: c, Width: size[0], Height: size[1], Sheet: p, StraightBottom: straight})
				}
			}
		}
		r := rand.New(rand.NewPCG(3, 4))
		for range 200 {
			add(anyJob(func(_ string, least, most float64) float64 { return least + (most-least)*r.Float64() }, c))
		}
	}
	t.Logf("folded: %v", count)
	for _, c := range handmade.Constructions {
		if count[c] < 40 {
			t.Fatalf("only %d of %s were accepted", count[c], c)
		}
	}
	return all
}

// refusal is New's, which must be one.
func refusal(t rapid.TB, j handmade.Job) *words.Refused {
	t.Helper()
	_, err := handmade.New(j)
	var refused *words.Refused
	if !errors.As(err, &refused) {
		t.Fatalf("%+v: got %v, want a refusal", j, err)
	}
	return refused
}

func made(t rapid.TB, j handmade.Job) handmade.Blank {
	t.Helper()
	b, err := handmade.New(j)
	if err != nil {
		t.Fatalf("%+v: %v", j, err)
	}
	return b
}

// measured is the value of a measure.
func measured(t rapid.TB, b handmade.Blank, name string) float64 {
	t.Helper()
	for _, m := range b.Measures {
		if m.Name == name {
			return m.MM
		}
	}
	t.Fatalf("no measure %q in %v", name, b.Measures)
	return 0
}
