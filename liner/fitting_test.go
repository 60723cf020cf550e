package liner_test

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner"
)

func pockets(sizes ...[2]float64) []liner.Entry {
	var entries []liner.Entry
	for i, s := range sizes {
		entries = append(entries, liner.Entry{Name: fmt.Sprintf("iso_row%d_1x1mm", i), Width: s[0], Height: s[1]})
	}
	return entries
}

func namesOf(fits []liner.Fitting) []string {
	var names []string
	for _, f := range fits {
		names = append(names, f.Name[4:8])
	}
	return names
}

var postcard = liner.Card{Name: "iso_a6_105x148mm", Width: 105, Height: 148}

// The flap may be on either side: a card goes in turned as the pocket is.
func TestACardFitsAPocketEitherWayRound(t *testing.T) {
	entries := pockets([2]float64{162, 114}, [2]float64{114, 162}, [2]float64{147, 400}, [2]float64{400, 104.9})
	for _, card := range []liner.Card{postcard, {Width: 148, Height: 105}} {
		fits := liner.Fits(entries, card, 3, 3)
		if got := namesOf(fits); !slices.Equal(got, []string{"row0", "row1", "row2"}) {
			t.Fatalf("%v x %v goes into %v", card.Width, card.Height, got)
		}
		for _, f := range fits[:2] {
			near(t, "room along the long side", f.Long, 14, 1e-9)
			near(t, "room along the short side", f.Short, 9, 1e-9)
		}
		near(t, "room in the long pocket", fits[2].Long, 252, 1e-9)
		near(t, "room across the long pocket", fits[2].Short, 42, 1e-9)
	}
}

// Room counts for both ends together, the long side's and the short side's each
// by its own measure, and exactly enough is enough.
func TestACardFitsWhereBothSidesLeaveTheRoomAskedFor(t *testing.T) {
	entries := pockets([2]float64{158, 112})
	for _, c := range []struct {
		long, short float64
		fits        bool
	}{{0, 0, true}, {10, 7, true}, {10.001, 7, false}, {10, 7.001, false}, {7, 10, false}, {10, 0, true}, {0, 7, true}} {
		if got := len(liner.Fits(entries, postcard, c.long, c.short)) == 1; got != c.fits {
			t.Errorf("10 and 7 mm to spare where %v and %v are asked for: %v", c.long, c.short, got)
		}
	}
	inches := pockets([2]float64{7.25 * 25.4, 5.25 * 25.4}) // 1/4 in all the way, but for rounding
	if n := len(liner.Fits(inches, liner.Card{Width: 5 * 25.4, Height: 7 * 25.4}, 6.35, 6.35)); n != 1 {
		t.Errorf("a 5x7 in card with a quarter inch to spare in 5 1/4 x 7 1/4: %d", n)
	}
	if fits := liner.Fits(nil, postcard, 0, 0); len(fits) != 0 {
		t.Errorf("no entries: %v", fits)
	}
}

func TestFittingPocketsComeTightestFirstAndAlikeOnesInTheirOrder(t *testing.T) {
	entries := pockets([2]float64{229, 162}, [2]float64{160, 115}, [2]float64{162, 114}, [2]float64{114, 162}, [2]float64{152, 110}, [2]float64{220, 110})
	// 160 x 115 is 18400 mm², 162 x 114 is 18468: not alike to a square centimetre
	if got := namesOf(liner.Fits(entries, postcard, 3, 3)); !slices.Equal(got, []string{"row4", "row1", "row2", "row3", "row5", "row0"}) {
		t.Errorf("in this order: %v", got)
	}
	alike := pockets([2]float64{160.2, 115}, [2]float64{160, 115}, [2]float64{160.1, 115})
	if got := namesOf(liner.Fits(alike, postcard, 3, 3)); !slices.Equal(got, []string{"row0", "row1", "row2"}) {
		t.Errorf("alike to a square centimetre, in this order: %v", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		tenths := func(least, most int) *rapid.Generator[float64] {
			return rapid.Map(rapid.IntRange(10*least, 10*most), func(n int) float64 { return float64(n) / 10 })
		}
		side := rapid.OneOf(tenths(80, 260), rapid.SampledFrom([]float64{110, 114, 160, 162, 220}))
		var sizes [][2]float64
		for range rapid.IntRange(0, 40).Draw(t, "entries") {
			sizes = append(sizes, [2]float64{side.Draw(t, "width"), side.Draw(t, "height")})
		}
		entries := pockets(sizes...)
		before := slices.Clone(entries)
		card := liner.Card{Width: side.Draw(t, "card"), Height: side.Draw(t, "by")}
		long, short := tenths(0, 20).Draw(t, "long"), tenths(0, 20).Draw(t, "short")
		fits := liner.Fits(entries, card, long, short)
		expected := 0
		for i, e := range entries {
			if e.Name != before[i].Name {
				t.Fatal("the entries were put in another order")
			}
			if max(e.Width, e.Height)-max(card.Width, card.Height) > long-0.01 && min(e.Width, e.Height)-min(card.Width, card.Height) > short-0.01 {
				expected++
			}
		}
		if len(fits) != expected {
			t.Fatalf("%d fit, want %d", len(fits), expected)
		}
		for i := 1; i < len(fits); i++ {
			a, b := fits[i-1], fits[i]
			if a.Width*a.Height > b.Width*b.Height+100 {
				t.Fatalf("%v x %v before %v x %v", a.Width, a.Height, b.Width, b.Height)
			}
			at := func(f liner.Fitting) int {
				return slices.IndexFunc(entries, func(e liner.Entry) bool { return e.Name == f.Name })
			}
			if a.Width*a.Height == b.Width*b.Height && at(a) > at(b) {
				t.Fatalf("%s before %s, both %v x %v", a.Name, b.Name, a.Width, a.Height)
			}
		}
	})
}

func TestTheEnvelopePickedForACardIsFromItsPartOfTheWorldWhereThatCostsLittle(t *testing.T) {
	row := func(name string, width, height float64) liner.Entry {
		return liner.Entry{Name: name, Width: width, Height: height}
	}
	us, iso, om, saved, huge := row("na_a2_4.375x5.75in", 155, 112), row("iso_c6_114x162mm", 162, 114), row("om_other_115x163mm", 163, 115), row("saved", 165, 116), row("iso_c5_162x229mm", 229, 162)
	american := liner.Card{Name: "na_index-4x6_4x6in", Width: 101.6, Height: 152.4}
	for name, c := range map[string]struct {
		entries []liner.Entry
		card    liner.Card
		want    string
	}{
		"its own, though not the tightest": {[]liner.Entry{us, iso}, postcard, iso.Name},
		"other metric sizes are at home":   {[]liner.Entry{us, om, huge}, postcard, om.Name},
		"its own are far too large":        {[]liner.Entry{us, huge}, postcard, us.Name},
		"an American card":                 {[]liner.Entry{us, iso}, american, us.Name},
		"saved ones are at home anywhere":  {[]liner.Entry{us, saved, huge}, postcard, saved.Name},
		"saved, and nothing of its own":    {[]liner.Entry{iso, saved}, american, saved.Name},
		"a card without a name":            {[]liner.Entry{us, iso}, liner.Card{Width: 105, Height: 148}, us.Name},
	} {
		f, ok := liner.Pick(liner.Fits(c.entries, c.card, 2, 2), c.card)
		if !ok || f.Name != c.want {
			t.Errorf("%s: picked %q, %v; want %s", name, f.Name, ok, c.want)
		}
	}
	if f, ok := liner.Pick(nil, postcard); ok {
		t.Errorf("picked %+v of nothing", f)
	}
}
