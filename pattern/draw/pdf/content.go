package pdf

import (
	"strings"

	"underflap/pattern/draw"
)

// num writes a number with at most five decimals: a hundred-thousandth of a
// millimetre.
func num(v float64) string { return draw.Decimals(v, 5) }

func nums(b *strings.Builder, vs ...float64) {
	for _, v := range vs {
		b.WriteString(num(v))
		b.WriteByte(' ')
	}
}

// cm is a change of space. Turns and scales carry more digits than places: they
// are multiplied by lengths.
func cm(m draw.Matrix) string {
	var b strings.Builder
	for _, v := range []float64{m.A, m.B, m.C, m.D} {
		b.WriteString(draw.Decimals(v, 10))
		b.WriteByte(' ')
	}
	nums(&b, m.E, m.F)
	b.WriteString("cm ")
	return b.String()
}

// rgb sets a colour. A grey is set as one, which printers take from the black ink
// alone.
func rgb(c draw.Colour, operator string) string {
	var b strings.Builder
	if c.R == c.G && c.G == c.B {
		nums(&b, float64(c.R)/255)
		return b.String() + operator[1:] + " " // g of rg, G of RG
	}
	nums(&b, float64(c.R)/255, float64(c.G)/255, float64(c.B)/255)
	return b.String() + operator + " "
}

func path(p draw.Path) string {
	var b strings.Builder
	operator := map[draw.Verb]string{draw.Move: "m ", draw.Line: "l ", draw.Cubic: "c ", draw.Close: "h "}
	p.Steps(func(v draw.Verb, points []draw.Point) {
		for _, q := range points {
			nums(&b, q.X, q.Y)
		}
		b.WriteString(operator[v])
	})
	return b.String()
}
