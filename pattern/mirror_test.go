package pattern

import (
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/draw/referee"
)

// The two halves of a pointed flap mirror each other where the pattern allows:
// every family does unless its own parameters forbid it.
func TestHalvesMirrorEachOtherWhereThePatternAllows(t *testing.T) {
	motif := func(family string, words map[string]string) Motif {
		given := map[string]Setting{}
		for name, word := range words {
			given[name] = Setting{"set " + name, word}
		}
		m, err := New(family, given, nil)
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	cases := []struct {
		name    string
		motif   Motif
		turn    float64
		mirrors bool
	}{
		{"dots as they come", motif("dots", nil), 0, true},
		{"square dots", motif("dots", map[string]string{"repeat": "square"}), 0, true},
		{"half-drop dots", motif("dots", map[string]string{"repeat": "half-drop"}), 0, true},
		{"square dots of one ink turned 45 degrees", motif("dots", map[string]string{"repeat": "square", "inks": "1"}), 45, true},
		{"stripes as they come", motif("stripes", nil), 0, true},
		{"stripes across", motif("stripes", nil), 90, true},
		{"scallops as they come", motif("scallops", nil), 0, true},
		{"pinstripes as they come", motif("pinstripes", nil), 0, true},
		{"double pinstripes of two inks", motif("pinstripes", map[string]string{"lines": "2", "inks": "1,2"}), 0, true},
		{"crosshatch as it comes", motif("crosshatch", nil), 0, true},
		{"gingham as it comes", motif("gingham", nil), 0, true},
		{"gingham of two inks", motif("gingham", map[string]string{"inks": "1,2"}), 0, true},
		{"gingham on the bias", motif("gingham", nil), 45, true},
		{"plaid as it comes", motif("plaid", nil), 0, true},
		{"plaid of another weft", motif("plaid", map[string]string{"sett": "8:1,3:2,5:0,2:3", "weft": "6:3,9:0,1:2"}), 0, true},
		{"plaid on the bias", motif("plaid", map[string]string{"sett": "12:1,8:0,3:2"}), 45, true},
		{"checks as they come", motif("checks", nil), 0, true},
		{"checks of three inks, a row each", motif("checks", map[string]string{"inks": "1,2,3"}), 0, true},
		{"basketweave as it comes", motif("basketweave", nil), 0, true},
		{"basketweave of two inks", motif("basketweave", map[string]string{"inks": "1,2"}), 0, true},
		{"chevron as it comes", motif("chevron", nil), 0, true},
		{"waves as they come", motif("waves", nil), 0, true},
		{"houndstooth about its slant", motif("houndstooth", nil), -45, true},
		{"houndstooth as it comes", motif("houndstooth", nil), 0, false},
		{"herringbone, which steps aside", motif("herringbone", map[string]string{"inks": "1,2"}), 0, false},
		{"crosshatch of two inks", motif("crosshatch", map[string]string{"inks": "1,2"}), 0, false},
		{"quatrefoils", motif("quatrefoil", nil), 0, true},
		{"argyle", motif("argyle", nil), 0, true},
		{"ogees", motif("ogee", nil), 0, true},
		{"slanting stripes", motif("stripes", nil), 45, false},
		{"stripes that read differently backwards", motif("stripes", map[string]string{"bands": "3:1,3:2,3:3"}), 0, false},
	}
	// one grey each, so that swapped inks would show
	colours := Colours{Name: "greys", Ground: draw.White, Inks: []draw.Colour{{R: 20, G: 20, B: 20}, {R: 100, G: 100, B: 100}, {R: 180, G: 180, B: 180}}}
	for _, c := range cases {
		for _, seed := range []uint64{0, 1, 77} {
			page := pageOf(Design{Name: c.name, Motif: c.motif, Colours: colours, Scale: 1, Turn: c.turn, Seed: seed}, 25.4*3)
			raster := referee.PNG(t, written(t, page, "png", 200), 200) // 600 pixels, the centre line between two of them
			differ := 0
			for y := range raster.Height {
				for x := range raster.Width / 2 {
					a, b := raster.Grey[y*raster.Width+x], raster.Grey[y*raster.Width+raster.Width-1-x]
					if max(a, b)-min(a, b) > 24 { // more than edges rounded the other way
						differ++
					}
				}
			}
			share := float64(differ) / float64(raster.Width*raster.Height/2)
			if c.mirrors && share > 0.001 || !c.mirrors && share < 0.05 {
				t.Errorf("%s, seed %d: %.4f of the pixels differ from their mirror image; mirrors: %v", c.name, seed, share, c.mirrors)
			}
		}
	}
}

// Seeds are told apart by eye where a pattern has more than one arrangement.
func TestSeedsAreArrangementsOfTheSameDesign(t *testing.T) {
	colours := Colours{Name: "greys", Ground: draw.White, Inks: []draw.Colour{{}, {R: 100, G: 100, B: 100}, {R: 180, G: 180, B: 180}}}
	for _, family := range []string{"dots", "scallops"} {
		motif, err := New(family, nil, nil)
		if err != nil {
			t.Fatal(err)
		}
		drawn := func(seed uint64) string {
			page := pageOf(Design{Name: family, Motif: motif, Colours: colours, Scale: 1, Seed: seed}, 70)
			return string(referee.PNG(t, written(t, page, "png", 100), 100).Grey)
		}
		seen := map[string]uint64{}
		for _, seed := range []uint64{0, 1, 2, 3, 77, 1 << 30} {
			page := drawn(seed)
			if other, there := seen[page]; there {
				t.Errorf("%s: seeds %d and %d look the same", family, seed, other)
			}
			seen[page] = seed
			if drawn(seed) != page {
				t.Errorf("%s: seed %d differs from one run to the next", family, seed)
			}
		}
	}
}
