package request

import (
	"fmt"
	"strings"

	"underflap/liner"
	"underflap/pattern/words"
)

// Room that a card has in its envelope, both ends together. Common practice, no
// source: bought envelopes leave 3 mm (1/8 in) at the least; by hand one leaves
// 12 mm along the fold and 10 mm from there to the bottom, so that a card of
// 148 x 105 mm gets a pocket of 160 x 115 mm.
const (
	leastRoom                           = 3.0
	handmadeRoomLong, handmadeRoomShort = 12.0, 10.0
	mostRoom                            = 100.0
)

// room reads the room wanted beside a card: one length for both ways, or long
// side x short side.
func room(word string, long, short float64) (float64, float64, error) {
	const field = "room"
	if word == "" {
		return long, short, nil
	}
	if !strings.ContainsAny(word, "xX×") {
		v, err := words.Within(field, word, 0, mostRoom)
		return v, v, err
	}
	long, short, err := words.Size(field, word)
	if err == nil && max(long, short) > mostRoom {
		err = words.OutOf(field, word, 0, mostRoom)
	}
	return long, short, err
}

// pick takes the tightest envelope for the card, of the table and of those
// saved.
func (f *Found) pick(w Words) error {
	long, short, err := room(w.Room, leastRoom, leastRoom)
	if err != nil {
		return err
	}
	entries, problems := w.Shelf.Entries()
	f.Remarks = append(f.Remarks, PassedOver(problems)...)
	if w.FlapSide != "" { // what is saved was measured with its flap
		entries = liner.Entries()
	}
	best, ok := liner.Pick(liner.Fits(entries, *f.Card, long, short), *f.Card)
	if !ok {
		return &words.Refused{Field: "card", Given: w.Card, Why: "no envelope of the table takes it with that room",
			Accepts: "a smaller card, less --room, or --handmade " + constructions()}
	}
	if best.Family == SavedFamily {
		saved, _, err := w.Shelf.Envelope(best.Trade[0])
		if err == nil {
			err = f.saved(w, saved)
		}
		if err != nil {
			return err
		}
	} else if err := f.row(w, best.Entry); err != nil {
		return err
	}
	f.Remarks = append(f.Remarks, fmt.Sprintf("%s for a card of %s: %s and %s to spare; underflap sizes --fits lists others",
		best.Trade[0], words.MMSize(max(f.Card.Width, f.Card.Height), min(f.Card.Width, f.Card.Height)), words.MM(best.Long), words.MM(best.Short)))
	return nil
}

// checkCard refuses a card that does not go into the envelope, with the room
// asked for, and remarks on a tight one.
func (f *Found) checkCard(w Words) error {
	if f.Card == nil {
		return nil
	}
	long, short, err := room(w.Room, 0, 0)
	if err != nil {
		return err
	}
	one := []liner.Entry{{Width: f.Width, Height: f.Height}}
	if len(liner.Fits(one, *f.Card, long, short)) == 0 {
		why := "does not go into "
		if len(liner.Fits(one, *f.Card, 0, 0)) > 0 {
			why = "goes with less room into "
		}
		return &words.Refused{Field: "card", Given: w.Card, Why: why + "a pocket of " + words.MMSize(f.Width, f.Height),
			Accepts: "a smaller card, a larger pocket, or --card alone, which picks the envelope"}
	}
	if w.Room == "" && len(liner.Fits(one, *f.Card, leastRoom, leastRoom)) == 0 {
		f.Remarks = append(f.Remarks, "the card is tight in this pocket: less than "+words.MM(leastRoom)+" to spare")
	}
	return nil
}
