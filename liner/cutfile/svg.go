package cutfile

import (
	"bufio"
	"fmt"
	"html"
	"io"
	"math"
	"strings"

	"underflap/liner/geom"
	"underflap/pattern/draw"
)

// hair is how wide lines are drawn: only looking at them takes it.
const hair = 0.1

// svg writes SVG 1.1 in millimetres: a group a layer, and in it one path a liner,
// with the arcs as arcs.
func (d Drawing) svg(w io.Writer) error {
	out := bufio.NewWriter(w)
	wide, high := plain(d.Width), plain(d.Height)
	fmt.Fprintf(out, `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s">
  <title>%s</title>
`, wide, high, wide, high, html.EscapeString(d.Title))
	for _, l := range d.layers() {
		fmt.Fprintf(out, "  <g id=\"%s\" fill=\"none\" stroke=\"%s\" stroke-width=\"%s\">\n", l.name, l.colour, plain(hair))
		for _, c := range l.lines {
			fmt.Fprintf(out, "    <path d=\"%s\"/>\n", pathData(c, l.closed))
		}
		out.WriteString("  </g>\n")
	}
	out.WriteString("</svg>\n")
	return out.Flush()
}

// widest is the most that one arc turns through: ends of half a turn would leave
// open which half is meant.
const widest = 2 * math.Pi / 3

// pathData is a contour as SVG writes it. A closed one leaves its last line, when it
// ends with one, to the closing.
func pathData(c geom.Contour, closed bool) string {
	var b strings.Builder
	fmt.Fprintf(&b, "M%s,%s", plain(c[0].A.X), plain(c[0].A.Y))
	for i, s := range c {
		if s.R == 0 {
			if !closed || i < len(c)-1 {
				fmt.Fprintf(&b, " L%s,%s", plain(s.B.X), plain(s.B.Y))
			}
			continue
		}
		sweep := 1 // y runs down: what is anticlockwise in numbers is clockwise to see
		if s.CW {
			sweep = 0
		}
		for _, part := range s.Split(widest) {
			fmt.Fprintf(&b, " A%s,%s 0 0 %d %s,%s", plain(s.R), plain(s.R), sweep, plain(part.B.X), plain(part.B.Y))
		}
	}
	if closed {
		b.WriteString(" Z")
	}
	return b.String()
}

// plain is a number to a millionth of a micrometre.
func plain(v float64) string { return draw.Decimals(v, 9) }
