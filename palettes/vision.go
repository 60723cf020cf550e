package palettes

import (
	"github.com/lucasb-eyer/go-colorful"

	"underflap/pattern/draw"
)

// Sight is a colour-vision deficiency: how a person sees who lacks one kind of
// cone.
type Sight struct {
	Name   string // as the literature has it
	Plain  string // in plain words
	matrix [3][3]float64
}

// Sights are the three deficiencies at their full severity, where a cone is
// missing. The matrices are those of severity 1.0 in Machado, Oliveira and
// Fernandes, "A Physiologically-based Model for Simulation of Color Vision
// Deficiency", IEEE Transactions on Visualization and Computer Graphics 15(6),
// 2009; they work on linear RGB. For tritan the authors call them an
// approximation.
var Sights = []Sight{
	{"protan", "red-blind", [3][3]float64{{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}}},
	{"deutan", "green-blind", [3][3]float64{{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}}},
	{"tritan", "blue-blind", [3][3]float64{{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}}},
}

// Seen is what the colour looks like to such a person, shown to everybody else.
// What leaves the range of sRGB is cut off, as the paper does.
func (s Sight) Seen(c draw.Colour) draw.Colour {
	in := [3]float64{}
	in[0], in[1], in[2] = c.Linear()
	var out [3]float64
	for i, row := range s.matrix {
		for j, share := range row {
			out[i] += share * in[j]
		}
		out[i] = min(max(out[i], 0), 1)
	}
	r, g, b := colorful.LinearRgb(out[0], out[1], out[2]).RGB255()
	return draw.Colour{R: r, G: g, B: b}
}
