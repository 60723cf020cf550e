package request

import (
	"fmt"
	"math"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/liner/sheet"
	"underflap/pattern/words"
)

// Heft is what a person says of the papers' weights, as typed.
type Heft struct{ Paper, Envelope, Card string }

// Usual weights of paper in g/m². Common practice, no source: copying paper, a
// good envelope, a card's board.
const usualPaper, usualEnvelope, usualCard = 80.0, 120.0, 300.0

// Weight estimates what a lined letter weighs, in grams.
type Weight struct {
	PaperWeight float64  `json:"paperWeight"` // of the liner, g/m²
	Liner       float64  `json:"liner"`
	Envelope    float64  `json:"envelope"`
	Card        *float64 `json:"card,omitempty"` // folded or flat, when its size was said
	Letter      float64  `json:"letter"`         // all together
}

// seams is how far the panels of a bought envelope overlap where they are glued,
// along both sides and the bottom. Common practice, no source.
const seams = 15.0

// ResolvePaperWeight reads the weight of the paper printed on, in g/m².
func ResolvePaperWeight(word string) (float64, error) {
	if word == "" {
		return usualPaper, nil
	}
	return words.PaperWeight("paper-weight", word)
}

// ResolveWeight reads the papers' weights and estimates the letter.
func ResolveWeight(h Heft, f Found, p sheet.Plan) (w Weight, err error) {
	read := func(field, word string, usual float64) float64 {
		if err != nil || word == "" {
			return usual
		}
		v, refused := words.PaperWeight(field, word)
		err = refused
		return v
	}
	w.PaperWeight = read("paper-weight", h.Paper, usualPaper)
	envelope, board := read("envelope-weight", h.Envelope, usualEnvelope), read("card-weight", h.Card, usualCard)
	if err != nil {
		return w, err
	}
	if h.Card != "" && f.Card == nil {
		return w, &words.Refused{Field: "card-weight", Given: h.Card, Why: "of which card?", Accepts: "with --card"}
	}
	grams := func(mm2, perM2 float64) float64 { return mm2 / 1e6 * perM2 }
	w.Liner = grams(p.Pieces[0].Outline.Area(), w.PaperWeight)
	w.Envelope = grams(envelopeArea(f, p.Liner), envelope)
	w.Letter = w.Liner + w.Envelope
	if f.Card != nil {
		leaves := 2.0
		if f.Card.Flat {
			leaves = 1
		}
		card := grams(leaves*f.Card.Width*f.Card.Height, board)
		w.Card = &card
		w.Letter += card
	}
	for _, v := range []*float64{&w.PaperWeight, &w.Liner, &w.Envelope, w.Card, &w.Letter} {
		if v != nil {
			*v = math.Round(*v*1000) / 1000
		}
	}
	return w, nil
}

// envelopeArea is the paper in an envelope, in square millimetres: exact for
// one folded by hand, else two panels, the flap and the seams.
func envelopeArea(f Found, l liner.Liner) float64 {
	if f.Blank != nil {
		var c geom.Contour
		for i, p := range f.Blank.Outline {
			c = append(c, geom.Line(p, f.Blank.Outline[(i+1)%len(f.Blank.Outline)]))
		}
		return math.Abs(c.Area())
	}
	flap := geom.Contour(l.FlapProfile())
	flap = append(flap, geom.Line(flap[len(flap)-1].B, flap[0].A))
	return 2*f.Width*f.Height + math.Abs(flap.Area()) + seams*(2*f.Height+f.Width)
}

// Text is the estimate for people, as rows of the fit's answer.
func (w Weight) Text() string {
	rest := "with the envelope"
	if w.Card != nil {
		rest = "with envelope and card"
	}
	return fmt.Sprintf("%-14sthe liner adds %.1f g at %.0f g/m²; %s about %.0f g; what a stamp covers, your post office says\n", "weight", w.Liner, w.PaperWeight, rest, w.Letter)
}
