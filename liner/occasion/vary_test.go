package occasion

import (
	"fmt"
	"image"
	_ "image/png"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"underflap/pattern"
	"underflap/pattern/draw"
	"underflap/pattern/draw/png"
	"underflap/pattern/draw/referee"
)

// The published value: 137.507764050... degrees (The On-Line Encyclopedia of Integer
// Sequences has its digits; written down here from memory, and from the closed form
// 180 (3 - √5)).
func TestTheGoldenAngle(t *testing.T) {
	if math.Abs(GoldenAngle-137.50776405003785) > 1e-12 || math.Abs(GoldenAngle-180*(3-math.Sqrt(5))) > 1e-12 {
		t.Error(GoldenAngle)
	}
}

// Turns by the golden angle keep apart, also where a pattern looks the same after a
// part of a turn: the closest two of n are no closer than 360/(n √5) degrees of a
// circle of 360 (the three-distance theorem, T. van Ravenstein, 1988), and on the
// shorter circle of a symmetric pattern still well apart.
func TestTurnsKeepApart(t *testing.T) {
	line := Line{Vary: true}
	line.Request.Design.Scale = 1
	for _, fold := range []float64{1, 2, 3, 4, 6, 12} {
		var turns []float64
		const n = 1000
		for k := range n {
			turns = append(turns, math.Mod(line.vary(k).Turn, 360/fold))
		}
		slices.Sort(turns)
		least := turns[0] + 360/fold - turns[n-1]
		for i := 1; i < n; i++ {
			least = min(least, turns[i]-turns[i-1])
		}
		if bound := 360 / fold / (n * math.Sqrt(5)); fold == 1 && least < 0.99*bound || least < 0.01 {
			t.Errorf("%g-fold: two turns are %g degrees apart", fold, least)
		}
	}
	type arrangement struct {
		seed uint64
		turn float64
	}
	seen := map[arrangement]bool{}
	for number := range 4 {
		for _, base := range []uint64{0, 1, 1000} {
			l := Line{Vary: true, number: number}
			l.Request.Design.Seed = base
			for k := range 50 {
				d := l.vary(k)
				if is := (arrangement{d.Seed, d.Turn}); d.Turn < -360 || d.Turn > 360 || seen[is] {
					t.Errorf("line %d, liner %d: seed %d, turn %g again", number, k, d.Seed, d.Turn)
				}
				seen[arrangement{d.Seed, d.Turn}] = true
			}
		}
	}
}

// artwork are the pixels of a liner's artwork at 50 dots per inch.
func artwork(t *testing.T, l Line, d pattern.Design) []byte {
	t.Helper()
	var all []byte
	png.Rows(t.Context(), l.Plan.Kept(t.Context(), d.Apart(), draw.White), 50, func(row []byte) { all = append(all, row...) })
	return all
}

// differing is the part of the bytes of two pictures that are clearly others.
func differing(a, b []byte) float64 {
	n := 0
	for i := range a {
		if math.Abs(float64(a[i])-float64(b[i])) > 24 {
			n++
		}
	}
	return float64(n) / float64(len(a))
}

// No two liners are alike, whatever the family: also of those that look the same
// after a quarter or a sixth of a turn, or have one ink.
func TestVariedLinersAllDiffer(t *testing.T) {
	for _, name := range pattern.Names() {
		if name == pattern.Stamps {
			continue // with art of a person's own: see the harvest supper
		}
		o := settled(t, fmt.Sprintf("envelope = 'c7'\npattern = '%s'\ncount = 8\ninks = 'navy'\nground = 'white'\nvary = true\n", name), Wish{})
		l := o.Lines[0]
		var all [][]byte
		for k := range 8 {
			all = append(all, artwork(t, l, l.vary(k)))
		}
		for i := range all {
			for j := range i {
				if d := differing(all[i], all[j]); d < 0.02 {
					t.Errorf("%s: liners %d and %d differ in %.2f %% only", name, j+1, i+1, 100*d)
				}
			}
		}
	}
	o := settled(t, textOf(t, "harvest-supper"), Wish{Vary: true, Only: []string{"menus"}})
	l := o.Lines[0]
	if !l.Vary || differing(artwork(t, l, l.vary(0)), artwork(t, l, l.vary(1))) < 0.02 {
		t.Error("own art is not varied")
	}
}

// Every page of the varied liners of the winter fair, as poppler renders it, is
// another; those of one design are alike.
func TestVariedSheetsAllDifferInPoppler(t *testing.T) {
	o := settled(t, textOf(t, "winter-fair"), Wish{})
	dir := filepath.Join(t.TempDir(), "fair")
	if _, err := o.Fill(t.Context(), dir, Part{}, true); err != nil {
		t.Fatal(err)
	}
	pictures := map[string]string{}
	for _, s := range o.Sheets {
		base := filepath.Join(t.TempDir(), "page")
		referee.Run(t, "pdftoppm", "-r", "25", "-png", "-singlefile", filepath.Join(dir, s.File), base)
		f, err := os.Open(base + ".png")
		if err != nil {
			t.Fatal(err)
		}
		img, _, err := image.Decode(f)
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		var b strings.Builder
		for y := range img.Bounds().Dy() {
			for x := range img.Bounds().Dx() {
				r, g, bl, _ := img.At(x, y).RGBA()
				b.WriteByte(byte(r >> 8))
				b.WriteByte(byte(g >> 8))
				b.WriteByte(byte(bl >> 8))
			}
		}
		pictures[s.File] = b.String()
		for other, picture := range pictures {
			if other != s.File && len(picture) == b.Len() {
				if d := differing([]byte(picture), []byte(b.String())); d < 0.02 {
					t.Errorf("%s and %s differ in %.2f %% only", other, s.File, 100*d)
				}
			}
		}
	}
	if len(pictures) < 10 {
		t.Errorf("%d pictures", len(pictures))
	}
}

// Another count of one line changes nothing of another's artwork.
func TestALinesArtworkIsItsOwn(t *testing.T) {
	design := func(count string) pattern.Design {
		o := settled(t, strings.Replace(fair, "count = 9", count, 1)+"[[liner]]\nname = 'tags'\npattern = 'stars'\nenvelope = 'c8'\ncount = 2\n", Wish{})
		for _, s := range o.Sheets {
			for i, pl := range s.Plan.Placements {
				if o.Lines[s.Lines[pl.Piece]].Name == "tags" {
					return s.Designs[i]
				}
			}
		}
		t.Fatal("no tags")
		return pattern.Design{}
	}
	a, b := design("count = 9"), design("count = 2")
	if a.Seed != b.Seed || a.Turn != b.Turn || a.Seed == 0 {
		t.Errorf("%d, %g and %d, %g", a.Seed, a.Turn, b.Seed, b.Turn)
	}
}
