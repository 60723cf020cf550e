package request

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/liner/handmade"
	"underflap/pattern/words"
)

// Found is the envelope that words describe, and how it was come by.
type Found struct {
	liner.Envelope
	Card    *liner.Card     // what goes into it, when that was said
	Blank   *handmade.Blank // what it is folded from, when it is made by hand
	Remarks []string        // what a person should know of the choice, a line each
}

// ResolveEnvelope settles the envelope: named, saved, picked for a card,
// measured, or folded by hand.
func ResolveEnvelope(w Words) (Found, error) {
	var found Found
	if w.Card != "" {
		card, err := liner.ParseCard("card", w.Card)
		if err != nil {
			return found, err
		}
		found.Card = &card
	}
	if err := oneOf(w); err != nil {
		return found, err
	}
	var err error
	switch {
	case w.Handmade != "":
		err = found.fold(w)
	case w.Pocket != "":
		if w.FlapSide != "" {
			return found, &words.Refused{Field: "flap-side", Given: w.FlapSide, Why: "a pocket's width is the side with the flap", Accepts: "with --envelope; write --pocket the other way round"}
		}
		found.Envelope, err = measured(w)
	case w.Envelope == "" && found.Card != nil:
		err = found.pick(w)
	default:
		err = found.named(w, or(w.Envelope, DefaultEnvelope))
	}
	if err != nil {
		return found, err
	}
	return found, found.checkCard(w)
}

// oneOf refuses words that name two envelopes, or belong to a way of finding
// one that is not taken.
func oneOf(w Words) error {
	switch {
	case w.Pocket != "" && w.Envelope != "":
		return &words.Refused{Field: "pocket", Given: w.Pocket, Why: "an envelope is named as well", Accepts: "either --pocket or --envelope"}
	case w.Handmade != "" && w.Envelope != "":
		return &words.Refused{Field: "handmade", Given: w.Handmade, Why: "an envelope is named as well", Accepts: "either --handmade or --envelope"}
	case w.Handmade == "" && w.From != "":
		return &words.Refused{Field: "from", Given: w.From, Why: "nothing is folded from a sheet", Accepts: "with --handmade " + constructions()}
	case w.Handmade == "" && w.Overlap != "":
		return &words.Refused{Field: "overlap", Given: w.Overlap, Why: "nothing is folded from a sheet", Accepts: "with --handmade " + constructions()}
	case w.StraightBottom && w.Handmade == "":
		return &words.Refused{Field: "straight-bottom", Accepts: "with --handmade " + string(handmade.FourCorner)}
	case w.Room != "" && w.Card == "":
		return &words.Refused{Field: "room", Given: w.Room, Why: "room beside which card?", Accepts: "with --card"}
	}
	return nil
}

func constructions() string { return strings.Join(handmade.Names(), " or ") }

// named finds an envelope of the table or the shelf.
func (f *Found) named(w Words, name string) error {
	row, err := liner.LookUp(name)
	if err != nil {
		saved, ok, problem := w.Shelf.Envelope(name)
		if problem != nil {
			return &words.Refused{Field: "envelope", Given: name, Why: problem.Error()}
		}
		if !ok {
			return err
		}
		return f.saved(w, saved)
	}
	if card, err := liner.ParseCard("card", name); err == nil && f.Card == nil && strings.HasPrefix(card.Name, "iso_a") && strings.HasPrefix(row.Name, "na_a") {
		f.Remarks = append(f.Remarks, fmt.Sprintf("%s is the announcement envelope of %s; for a card of %s write --card %s", row.Trade[0], words.MMSize(row.Width, row.Height), card.Short(), strings.ToLower(card.Short())))
	}
	return f.row(w, row)
}

// row takes an envelope of the table.
func (f *Found) row(w Words, row liner.Entry) (err error) {
	switch side, err := flapSide(w); {
	case err != nil:
		return err
	case side == "long" && row.Width < row.Height, side == "short" && row.Width > row.Height:
		row = row.Turned()
	}
	shape := liner.Shape("")
	if w.Flap != "" {
		if shape, err = liner.ParseShape("flap", w.Flap); err != nil {
			return err
		}
	}
	f.Envelope = row.Envelope(shape)
	guessed := f.GuessedFlap
	if err := f.adjust(w); err != nil {
		return err
	}
	if guessed && w.Gum == "" && w.FlapDepth != "" { // the depth is measured now
		f.Gum = liner.UsualGum(row.Flaps[0].Gum, f.Flap.Depth)
	}
	return nil
}

// saved takes an envelope from the shelf. Another shape of flap keeps its depth.
func (f *Found) saved(w Words, saved Saved) error {
	if w.FlapSide != "" {
		return &words.Refused{Field: "flap-side", Given: w.FlapSide, Why: saved.Name + " was measured with its flap", Accepts: "with an envelope of the size table"}
	}
	f.Envelope = saved.Envelope
	if f.Flap.Shape == liner.Traced && w.Flap == "" {
		if m, given := firstGiven(append([]typed{{"flap-depth", w.FlapDepth}}, w.flapDetails()...)); given {
			return m.refused(saved.Name+" was measured point by point", "with --flap and a shape")
		}
	}
	if w.Flap != "" {
		shape, err := liner.ParseShape("flap", w.Flap)
		if err != nil {
			return err
		}
		if shape != f.Flap.Shape {
			f.Flap = liner.UsualFlap(shape, f.Flap.Depth, f.Width)
		}
	}
	return f.adjust(w)
}

var flapSides = []string{"long", "short"}

func flapSide(w Words) (string, error) {
	if w.FlapSide == "" {
		return "", nil
	}
	return words.Choose("flap-side", w.FlapSide, flapSides)
}

// adjust applies what was measured on the flap.
func (f *Found) adjust(w Words) error {
	e, err := adjusted(w, f.Envelope)
	f.Envelope = e
	return err
}

// measuredGum is the gum of an envelope that the table does not know. Common
// practice, no source.
const measuredGum = 12

// measured is an envelope of three measurements, or of two and a traced flap.
func measured(w Words) (liner.Envelope, error) {
	shape, err := liner.ParseShape("flap", or(w.Flap, DefaultFlap))
	if err != nil {
		return liner.Envelope{}, err
	}
	width, height, err := w.pocket()
	if err != nil {
		return liner.Envelope{}, err
	}
	if w.FlapDepth == "" && !w.tracing() {
		return liner.Envelope{}, &words.Refused{Field: "flap-depth", Why: "a measured pocket needs the distance from its fold to the flap's farthest point", Accepts: "a length such as 70"}
	}
	return adjusted(w, liner.Envelope{Name: liner.Measured, Short: words.MMSize(width, height), Width: width, Height: height,
		Flap: liner.Flap{Shape: shape}, Gum: measuredGum})
}

func (w Words) pocket() (width, height float64, err error) {
	if width, height, err = words.Size("pocket", w.Pocket); err != nil {
		return 0, 0, err
	}
	least, most := leastPocket, mostPocket
	if w.kept {
		least, most = leastKeptPocket, mostKeptPocket
	}
	if min(width, height) < least || max(width, height) > most {
		return 0, 0, words.OutOf("pocket", w.Pocket, least, most)
	}
	return width, height, nil
}

// adjusted is the envelope with what was measured on its flap.
func adjusted(w Words, e liner.Envelope) (liner.Envelope, error) {
	if w.tracing() {
		return tracedEnvelope(w, e)
	}
	var r reader
	if w.FlapDepth != "" {
		e.Flap = liner.UsualFlap(e.Flap.Shape, r.length("flap-depth", w.FlapDepth, 0, 5, mostPocket), e.Width)
		e.GuessedFlap = false
	}
	if e.Flap.Shape == liner.Square && w.TipRadius != "" && w.FlapCornerRadius != "" {
		return e, &words.Refused{Field: "flap-corner-radius", Given: w.FlapCornerRadius, Why: "on a square flap it is the tip radius, which is given as well", Accepts: "one of them"}
	}
	into := []*float64{&e.Flap.Shoulder, &e.Flap.Taper, &e.Flap.BaseGap, &e.Flap.TipRadius, &e.Flap.CornerRadius}
	for i, m := range w.flapDetails() {
		if m.word != "" && !slices.Contains(e.Flap.Shape.Takes(), m.field) {
			return e, m.refused(fmt.Sprintf("means nothing on a %s flap", e.Flap.Shape), "with --flap "+strings.Join(liner.Taking(m.field), ", "))
		}
		*into[i] = r.length(m.field, m.word, *into[i], 0, mostPocket)
	}
	if w.TipRadius == "" {
		e.Flap = roundEnough(e.Flap, e.Width)
	}
	if e.Flap.Shape == liner.Square && w.FlapCornerRadius != "" {
		e.Flap.TipRadius, e.Flap.CornerRadius = e.Flap.CornerRadius, 0
	}
	e.Gum = r.length("gum", w.Gum, e.Gum, 0, 100)
	return e, r.err
}

// roundEnough lessens a usual tip radius that the measured rest of the flap has
// no room for.
func roundEnough(f liner.Flap, width float64) liner.Flap {
	for range 8 {
		var refused *words.Refused
		if _, err := f.Profile(width); !errors.As(err, &refused) || refused.Field != "tip-radius" {
			break
		}
		f.TipRadius /= 2
	}
	return f
}

// tracing tells whether the flap comes as points.
func (w Words) tracing() bool { return w.Profile != "" || len(w.trace) > 0 }

// tracedEnvelope gives the envelope a flap measured point by point.
func tracedEnvelope(w Words, e liner.Envelope) (liner.Envelope, error) {
	if m, given := firstGiven(append([]typed{{"flap", w.Flap}, {"flap-depth", w.FlapDepth}}, w.flapDetails()...)); given {
		return e, m.refused("the traced flap says it all", "either --profile or --"+m.field)
	}
	points, err := tracePoints(w)
	if err != nil {
		return e, err
	}
	e.Flap = liner.TracedFlap(points)
	e.GuessedFlap = false
	var r reader
	e.Gum = r.length("gum", w.Gum, e.Gum, 0, 100)
	return e, r.err
}

// mostProfile bounds the file of a traced flap, in bytes.
const mostProfile = 4 << 20

func tracePoints(w Words) ([]geom.Point, error) {
	if w.Profile == "" {
		var points []geom.Point
		for i, p := range w.trace {
			if len(p) != 2 || len(w.trace) > liner.MostTracePoints {
				return nil, &words.Refused{Field: "profile", Given: fmt.Sprintf("point %d: %v", i+1, p), Accepts: fmt.Sprintf("up to %d pairs of x and height", liner.MostTracePoints)}
			}
			points = append(points, geom.Point{X: p[0], Y: p[1]})
		}
		return points, nil
	}
	data, err := w.files().Read(w.Profile, mostProfile)
	if err == nil && len(data) > mostProfile {
		err = fmt.Errorf("longer than %d MB", mostProfile>>20)
	}
	if err != nil {
		return nil, &words.Refused{Field: "profile", Given: w.Profile, Why: err.Error(), Accepts: "a file of x, height lines"}
	}
	return liner.ReadTrace("profile", bytes.NewReader(data))
}
