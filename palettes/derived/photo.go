package derived

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"path/filepath"
	"slices"

	"underflap/palettes"
	"underflap/pattern/draw"
	"underflap/pattern/stamp"
	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

// Of the colours of a photo a palette takes up to mostOfPhoto, and makes tints
// of them until it has leastInks inks.
const (
	mostOfPhoto = 7
	leastInks   = 3

	enough       = 5    // colours, past which one more
	apartFromAll = 14.0 // must be so far, in CIEDE2000, from those before it
)

// Shares of a photo, in ten thousandths. All that is under 6 % may be the blur
// between two others, which has no midst.
const (
	common   = 200 // a colour of so much is always one
	tiny     = 15  // and of so much, when it is like no other
	thin     = 600
	midst    = 20 // percent of a colour's samples
	striking = 20 // CIEDE2000 from every larger colour
)

// ofPhoto finds the colours of a picture. The ground is the lightest of those
// that cover at least half as much as the one that covers most.
func ofPhoto(ctx context.Context, from filed.Source, field, path string) (made set, remarks []string, err error) {
	img, err := stamp.Picture(ctx, from, field, path)
	if err != nil {
		return made, nil, err
	}
	s := sample(img)
	if err := ctx.Err(); err != nil {
		return made, nil, err
	}
	if s.shown == 0 {
		return made, nil, &words.Refused{Field: field, Given: path, Why: "transparent all over", Accepts: "a photo of the card or the envelope"}
	}
	name := printable(filepath.Base(path))
	list := chosen(clusters(s), int64(s.shown))
	if len(list) == 1 {
		return schemeOf("tints").from(list[0].colour), []string{fmt.Sprintf("%s has one colour, %s; the others are tints of it", name, list[0].colour.Hex())}, nil
	}
	made.ground = list[0].colour
	for _, c := range list[1:] {
		made.inks = append(made.inks, c.colour)
	}
	if n := len(made.inks); n < leastInks {
		tint(&made)
		remarks = append(remarks, fmt.Sprintf("%s has %d colours; the last %s", name, n+1, map[int]string{1: "is a tint of them", 2: "2 are tints of them"}[len(made.inks)-n]))
	}
	return made, remarks, nil
}

// tint fills up with pale and deep shades of the inks, and then of the ground.
func tint(made *set) {
	for _, of := range append(slices.Clone(made.inks), made.ground) {
		t := toneOf(of)
		night := toneOf(made.ground).L < 0.5
		for _, p := range []part{{0, deep, 0.8}, {0, soft, 0.6}} {
			made.addAll(leastInks, t.at(p.lightness(t.H, t.L, night), t.C*p.purity))
		}
	}
}

// chosen are the clusters that make the palette: the ground first, then the inks,
// those that catch the eye before the others.
func chosen(list []cluster, all int64) []cluster {
	slices.SortStableFunc(list, func(a, b cluster) int { return cmp.Compare(b.size, a.size) })
	var kept []cluster
	for _, c := range list {
		away := 200.0
		for _, k := range kept {
			away = min(away, palettes.Difference(c.colour, k.colour))
		}
		share, spread := 10_000*c.size/all, 100*c.inner < midst*c.size
		blur := share < thin && spread && between(c.colour, kept)
		if len(kept) == 0 || share >= common && !blur || share >= tiny && !spread && away >= striking {
			kept = append(kept, c)
		}
	}

	ground := 0
	for i, c := range kept {
		if 2*c.size >= kept[0].size && labOf(c.colour)[0] > labOf(kept[ground].colour)[0] {
			ground = i
		}
	}
	out := []cluster{kept[ground]}
	rest := slices.Delete(kept, ground, ground+1)
	for len(rest) > 0 && len(out) < mostOfPhoto {
		best, most := -1, 0.0
		for i, c := range rest {
			away := 200.0
			for _, o := range out {
				away = min(away, palettes.Difference(c.colour, o.colour))
			}
			if len(out) >= enough && away < apartFromAll {
				continue
			}
			if worth := math.Cbrt(float64(c.size)) * away; worth > most {
				best, most = i, worth
			}
		}
		if best < 0 {
			break
		}
		out = append(out, rest[best])
		rest = slices.Delete(rest, best, best+1)
	}
	return out
}

// between tells whether a colour lies on the line between two others in CIE
// L*a*b*, as the soft edge between two areas does.
func between(c draw.Colour, others []cluster) bool {
	const near = 8.0
	p := palettes.ToLab(c)
	for i, x := range others {
		for _, y := range others[:i] {
			a, b := palettes.ToLab(x.colour), palettes.ToLab(y.colour)
			dl, da, db := b.L-a.L, b.A-a.A, b.B-a.B
			t := ((p.L-a.L)*dl + (p.A-a.A)*da + (p.B-a.B)*db) / (dl*dl + da*da + db*db)
			if t <= 0 || t >= 1 {
				continue
			}
			l, aa, bb := p.L-a.L-t*dl, p.A-a.A-t*da, p.B-a.B-t*db
			if l*l+aa*aa+bb*bb < near*near {
				return true
			}
		}
	}
	return false
}

func schemeOf(kind string) scheme {
	for _, s := range schemes {
		if s.kind == kind {
			return s
		}
	}
	panic("derived: no scheme " + kind)
}
