package liner

import (
	_ "embed"
	"strings"
	"sync"

	"underflap/pattern/words"
)

//go:embed cards.csv
var cardTable string

// Card is what goes into the envelope: of the table short side first, else as
// it was given.
type Card struct {
	Name   string   // self-describing: iso_a6_105x148mm; for a size alone, of millimetres or inches, "om_card" or "na_card"
	Trade  []string // short names, the usual one first
	Width  float64
	Height float64
	Flat   bool // of one leaf, not folded
	Source string
}

// Short is what people call the card.
func (c Card) Short() string {
	if len(c.Trade) > 0 {
		return c.Trade[0]
	}
	return words.MMSize(c.Width, c.Height)
}

// Cards is the table of cards.
var Cards = sync.OnceValue(func() []Card {
	return rows(cardTable, func(cell func(string) string) (Card, error) {
		w, h, err := SelfDescribed(cell("name"))
		return Card{Name: cell("name"), Trade: strings.Split(cell("trade"), "|"), Width: w, Height: h, Flat: cell("leaves") == "1", Source: cell("source")}, err
	})
})

// CardNames lists the usual name of every card.
func CardNames() []string {
	var names []string
	for _, c := range Cards() {
		names = append(names, c.Trade[0])
	}
	return names
}

const leastCard, mostCard = 20.0, 1000.0

// ParseCard finds a card by name or reads its size, "148x105".
func ParseCard(field, given string) (Card, error) {
	for _, c := range Cards() {
		if SameName(given, c.Name) || named(given, c.Trade) {
			return c, nil
		}
	}
	w, h, err := words.Size(field, given)
	if err != nil || min(w, h) < leastCard || max(w, h) > mostCard {
		refused := &words.Refused{Field: field, Given: given, Accepts: strings.Join(CardNames()[:5], ", ") + ", or width x height such as 148x105 or 5.5x4.25in"}
		if err == nil && max(w, h) < 20 {
			refused.Why = "that small in millimetres; write in behind inches"
		}
		return Card{}, refused
	}
	c := Card{Name: "om_card", Width: w, Height: h}
	if strings.Contains(given, "in") || strings.Contains(given, `"`) {
		c.Name = "na_card"
	}
	return c, nil
}
