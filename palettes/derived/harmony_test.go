package derived

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"underflap/palettes"
	"underflap/pattern"
	"underflap/pattern/draw"
)

// sound asks of a palette from one colour what every one must have. The
// differences are CIEDE2000, which palettes checks against published pairs.
func sound(t interface{ Errorf(string, ...any) }, what string, from draw.Colour, made set) {
	if n := len(made.inks); n < 3 || n > 6 {
		t.Errorf("%s: %d inks", what, n)
	}
	if made.ground != from && !slices.Contains(made.inks, from) {
		t.Errorf("%s: the colour itself is not in it", what)
	}
	for i, ink := range made.inks {
		if d := palettes.Difference(ink, made.ground); d < palettes.LeastToGround {
			t.Errorf("%s: ink %d, %s, is %.1f from the ground %s", what, i+1, ink.Hex(), d, made.ground.Hex())
		}
		for j, other := range made.inks[:i] {
			if d := palettes.Difference(ink, other); d < palettes.LeastAmongInks {
				t.Errorf("%s: inks %d and %d, %s and %s, are %.1f apart", what, j+1, i+1, other.Hex(), ink.Hex(), d)
			}
		}
	}
	if d := palettes.Difference(made.ground, made.inks[0]); d < 15 {
		t.Errorf("%s: a pattern in one ink, %s, is lost on %s (%.1f)", what, made.inks[0].Hex(), made.ground.Hex(), d)
	}
	whole := palettes.Palette{Colours: pattern.Colours{Ground: made.ground, Inks: made.inks}}
	if alike := whole.AlikeToAll(); len(alike) > 0 {
		t.Errorf("%s: %v", what, alike)
	}
}

func everyWay(t interface{ Errorf(string, ...any) }, c draw.Colour) {
	for _, s := range schemes {
		sound(t, s.kind+":"+c.Hex(), c, s.from(c))
	}
	made := forEnvelope(c)
	sound(t, "envelope:"+c.Hex(), c, made)
	if d := palettes.Difference(made.ground, c); d < palettes.LeastToGround {
		t.Errorf("envelope:%s: the liner, %s, does not show in it (%.1f)", c.Hex(), made.ground.Hex(), d)
	}
}

func TestPalettesOfExtremes(t *testing.T) {
	for v := 0; v < 256; v += 3 { // greys
		everyWay(t, draw.Colour{R: uint8(v), G: uint8(v), B: uint8(v)})
	}
	for n := range 6 * 6 * 6 { // corners, edges and what lies between, as 0, 51, 102 ...
		everyWay(t, draw.Colour{R: uint8(n % 6 * 51), G: uint8(n / 6 % 6 * 51), B: uint8(n / 36 * 51)})
	}
}

// Where a kind of cone is missing, a derived palette tells apart as well, but for
// a few where there is no room: one in a hundred at most.
func TestHardlyAnyDerivedPaletteIsIndistinct(t *testing.T) {
	all, indistinct := 0, 0
	for n := range 7 * 7 * 7 {
		c := draw.Colour{R: uint8(n % 7 * 42), G: uint8(n / 7 % 7 * 42), B: uint8(n / 49 * 42)}
		made := []set{forEnvelope(c)}
		for _, s := range schemes {
			made = append(made, s.from(c))
		}
		for _, m := range made {
			all++
			whole := palettes.Palette{Colours: pattern.Colours{Ground: m.ground, Inks: m.inks}}
			if len(whole.AlikeInSomeSight()) > 0 {
				indistinct++
			}
		}
	}
	if 100*indistinct > all {
		t.Errorf("%d of %d", indistinct, all)
	}
}

func TestPalettesOfAnyColour(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		everyWay(t, draw.Colour{R: rapid.Byte().Draw(t, "r"), G: rapid.Byte().Draw(t, "g"), B: rapid.Byte().Draw(t, "b")})
	})
}

// hueOf is the hue as go-colorful has it.
func hueOf(c draw.Colour) float64 {
	p := oklab(channels(c))
	return math.Mod(math.Atan2(p[2], p[1])*180/math.Pi+360, 360)
}

// Each kind has inks of the hues that its name promises. The turns are those of
// any painter's colour wheel: across, a third, next to each other.
func TestHuesAreThoseThatTheNamePromises(t *testing.T) {
	for _, from := range []draw.Colour{{R: 0xc0, G: 0x57, B: 0x2f}, {R: 0x2e, G: 0x8b, B: 0x57}, {B: 0x80}, {R: 0x7a, G: 0x3b, B: 0x45}} {
		for kind, turns := range map[string][]float64{"complement": {0, 180}, "triad": {0, 120, 240}, "neighbours": {0, 18, 38, 322}, "tints": {0}} {
			made := schemeOf(kind).from(from)
			seen := map[float64]bool{}
			for _, ink := range made.inks {
				turn := math.Mod(hueOf(ink)-hueOf(from)+360, 360)
				near := slices.IndexFunc(turns, func(want float64) bool {
					d := math.Abs(turn - want)
					return min(d, 360-d) < 4 // rounding to 8 bits
				})
				if near < 0 {
					t.Errorf("%s:%s has %s, turned by %.0f", kind, from.Hex(), ink.Hex(), turn)
					continue
				}
				seen[turns[near]] = true
			}
			if len(seen) != len(turns) {
				t.Errorf("%s:%s has hues turned by %v, want all of %v", kind, from.Hex(), fmt.Sprint(seen), turns)
			}
		}
	}
}

// Every paper has three neighbours of its hue and one contrast across from it.
func TestAnEnvelopeHasItsNeighboursAndOneContrast(t *testing.T) {
	for _, p := range papers {
		if toneOf(p.colour).hueless() {
			continue
		}
		across := 0
		for _, ink := range forEnvelope(p.colour).inks {
			turn := math.Mod(hueOf(ink)-hueOf(p.colour)+540, 360) - 180
			switch {
			case math.Abs(turn) > 165:
				across++
			case math.Abs(turn) > 65:
				t.Errorf("%s: %s is turned by %.0f", p.name, ink.Hex(), turn)
			}
		}
		if across != 1 {
			t.Errorf("%s has %d inks across from it", p.name, across)
		}
	}
}
