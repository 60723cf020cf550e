package svgpath_test

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/draw/referee"
	"underflap/pattern/draw/svg"
	"underflap/pattern/draw/svgpath"
)

// librsvg reads the same data in its own way and must draw the same: filled,
// and as a line.
func TestLibrsvgDrawsTheSamePath(t *testing.T) {
	for _, data := range []string{
		"M10,10h30v20H10z m5 5v10h20v-10z",
		"M5 40C5 5 45 5 45 40S85 75 85 40s-10-30-20-10",
		"M5 20Q25-10 45 20T85 20t-20 30T5 60z",
		"M20 20a15 8 30 1 0 9 4a15 8 30 0 1-9-4zM60 60A25 10-40 1 1 40 40A5 30 700 0 0 60 60",
		"M50 50A30 30 0 11 50.1 50zM10 80a4 9 20 00.5.5",
		"M.5.5L90-.0L90 9e1-90 0M45 45l0 0",
		"M30,30 A0.5,0.25 60 0,1 70,55 A-20 12 0 0 1 30 30 M10 10z l5 30 30-5",
		"M45 45m-20 0 20-20 20 20-20 20zl0 20h-5z",
		random(1), random(2), random(3),
	} {
		p, err := svgpath.Parse(data)
		if err != nil {
			t.Errorf("%s: %v", data, err)
			continue
		}
		page := draw.NewPage(90, 90)
		page.Fill(p, draw.Colour{R: 128, G: 128, B: 128})
		page.Stroke(p, draw.Colour{}, 0.6)
		var ours bytes.Buffer
		if err := svg.Write(t.Context(), &ours, page); err != nil {
			t.Fatal(err)
		}
		theirs := fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="90mm" viewBox="0 0 90 90"><path fill="#808080" d="%[1]s"/>
<path fill="none" stroke="#000" stroke-width="0.6" stroke-linecap="round" stroke-linejoin="round" d="%[1]s"/></svg>`, data)
		a, b := referee.SVG(t, ours.Bytes(), 200, ""), referee.SVG(t, []byte(theirs), 200, "")
		differ, inked := 0, 0
		for i := range a.Grey {
			if math.Abs(float64(a.Grey[i])-float64(b.Grey[i])) > 40 {
				differ++
			}
			if b.Grey[i] < 200 {
				inked++
			}
		}
		if inked < 100 || differ > inked/2000 {
			t.Errorf("%s: %d pixels differ of %d inked", data, differ, inked)
		}
	}
}

// random is path data of every command.
func random(seed uint64) string {
	chance := rand.New(rand.NewPCG(seed, 0))
	var b strings.Builder
	n := func(span float64) string { return fmt.Sprintf(" %.2f", span*chance.Float64()) }
	fmt.Fprint(&b, "M45 45")
	for range 40 {
		switch c := "LHVCSQTAlhvcsqtaZ"[chance.IntN(17)]; c {
		case 'Z':
			b.WriteByte(c)
		default:
			b.WriteByte(c)
			count := map[byte]int{'l': 2, 'h': 1, 'v': 1, 'c': 6, 's': 4, 'q': 4, 't': 2}[c|0x20]
			span, off := 90.0, 0.0
			if c >= 'a' {
				span, off = 30, -15
			}
			v := func() string { return fmt.Sprintf(" %.2f", span*chance.Float64()+off) }
			if c|0x20 == 'a' {
				fmt.Fprint(&b, n(20), n(20), n(360), " ", chance.IntN(2), chance.IntN(2))
				count = 2
			}
			for range count {
				fmt.Fprint(&b, v())
			}
		}
	}
	return b.String()
}
