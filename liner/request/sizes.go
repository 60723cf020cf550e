package request

import (
	"underflap/liner"
	"underflap/pattern/words"
)

// Size is an envelope of a list of sizes, lengths in millimetres.
type Size struct {
	Name       string    `json:"name"`
	Family     string    `json:"family"`
	Trade      []string  `json:"trade"`
	Width      float64   `json:"width"` // along the fold
	Height     float64   `json:"height"`
	FlapSide   string    `json:"flapSide"` // long or short
	Flaps      []Sold    `json:"flaps"`    // the commonest first
	SizeSource string    `json:"sizeSource"`
	FlapSource string    `json:"flapSource"`
	Room       *RoomLeft `json:"room,omitempty"` // beside the card asked for
}

// Sold is a flap that an envelope usually has.
type Sold struct {
	Shape string  `json:"shape"`
	Depth float64 `json:"depth"`
	Gum   float64 `json:"gum"`
}

// RoomLeft is the room along the pocket's long and short side, both ends
// together.
type RoomLeft struct {
	Long  float64 `json:"long"`
	Short float64 `json:"short"`
}

// Sizes lists the envelopes of the table and the shelf or, for a card, those it
// goes into, tightest first. Saved envelopes that cannot be read come back as
// problems.
func Sizes(s Shelf, card, roomWord string) (list []Size, problems []error, err error) {
	entries, problems := s.Entries()
	if card == "" {
		if roomWord != "" {
			return nil, nil, &words.Refused{Field: "room", Given: roomWord, Why: "room beside which card?", Accepts: "with --fits"}
		}
		for _, e := range entries {
			list = append(list, sizeOf(e))
		}
		return list, problems, nil
	}
	c, err := liner.ParseCard("fits", card)
	if err != nil {
		return nil, nil, err
	}
	long, short, err := room(roomWord, leastRoom, leastRoom)
	if err != nil {
		return nil, nil, err
	}
	list = []Size{} // an empty list, not none
	for _, f := range liner.Fits(entries, c, long, short) {
		size := sizeOf(f.Entry)
		size.Room = &RoomLeft{nanometre(f.Long), nanometre(f.Short)}
		list = append(list, size)
	}
	return list, problems, nil
}

func sizeOf(e liner.Entry) Size {
	side := "long"
	if e.Width < e.Height {
		side = "short"
	}
	size := Size{Name: e.Name, Family: e.Family, Trade: e.Trade, Width: nanometre(e.Width), Height: nanometre(e.Height), FlapSide: side,
		SizeSource: e.SizeSource, FlapSource: e.FlapSource}
	for _, f := range e.Flaps {
		size.Flaps = append(size.Flaps, Sold{string(f.Shape), f.Depth, f.Gum})
	}
	return size
}
