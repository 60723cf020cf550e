package palettes

import (
	"fmt"
	"math"
	"slices"

	"underflap/pattern"
	"underflap/pattern/draw"
)

// GreysApart is the least difference in CIE 1976 lightness, 0 to 100, of two
// colours printed in one black ink. As CIEDE2000, in which the ends of the scale
// count for less, it is 8 or more. A ground and six inks have that much room.
const GreysApart = 14.0

// rounding is what eight bits a grey may take off a distance.
const rounding = 0.5

// Grey gives ground and inks as greys for one black ink. Each keeps its lightness
// as far as it can: they keep their order, and those that would be less than
// GreysApart apart are moved, altogether as little as possible (least squares).
// Colours that are the same stay the same. Where there are too many, they are
// spread evenly, and the remark says so.
func Grey(c pattern.Colours) (out pattern.Colours, remark string) {
	all := append([]draw.Colour{c.Ground}, c.Inks...)
	var one []draw.Colour // each once
	for _, colour := range all {
		if !slices.Contains(one, colour) {
			one = append(one, colour)
		}
	}
	slices.SortStableFunc(one, func(a, b draw.Colour) int {
		la, lb := ToLab(a).L, ToLab(b).L
		switch {
		case la < lb:
			return -1
		case la > lb:
			return 1
		}
		return 0
	})
	light := make([]float64, len(one))
	for i, colour := range one {
		light[i] = ToLab(colour).L
	}
	apart := GreysApart + rounding
	if n := len(one) - 1; n > 0 && apart*float64(n) > 100 {
		apart = 100 / float64(n)
		remark = fmt.Sprintf("%d colours in one black ink look much alike: a palette of up to %d keeps them apart", len(one), 1+int(math.Floor(100/(GreysApart+rounding))))
	}
	as := map[draw.Colour]draw.Colour{}
	for i, l := range spread(light, apart) {
		as[one[i]] = greyOfLightness(l)
	}
	out = c
	out.Ground, out.Inks = as[c.Ground], nil
	for _, ink := range c.Inks {
		out.Inks = append(out.Inks, as[ink])
	}
	return out, remark
}

// spread moves rising numbers from 0 to 100 so that neighbours are at least
// apart, with the least sum of squares moved. What is left of each after taking
// off its place times apart has only to rise, and the nearest rising numbers are
// the means of the runs that fall (isotonic regression by pooling adjacent
// violators, Ayer et al., Annals of Mathematical Statistics 26, 1955), kept inside
// what is free.
func spread(rising []float64, apart float64) []float64 {
	type run struct{ sum, count float64 }
	var runs []run
	for i, v := range rising {
		runs = append(runs, run{v - apart*float64(i), 1})
		for n := len(runs); n > 1 && runs[n-2].sum/runs[n-2].count > runs[n-1].sum/runs[n-1].count; n-- {
			runs[n-2].sum += runs[n-1].sum
			runs[n-2].count += runs[n-1].count
			runs = runs[:n-1]
		}
	}
	free := 100 - apart*float64(len(rising)-1)
	var out []float64
	for _, r := range runs {
		for range int(r.count) {
			mean := math.Max(0, math.Min(free, r.sum/r.count))
			out = append(out, mean+apart*float64(len(out)))
		}
	}
	return out
}

// greyOfLightness is the grey of a CIE 1976 lightness (CIE 15).
func greyOfLightness(l float64) draw.Colour {
	if l > 8 {
		return draw.GreyOf(math.Pow((l+16)/116, 3))
	}
	return draw.GreyOf(l * 27 / 24389)
}
