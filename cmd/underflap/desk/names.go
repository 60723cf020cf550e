package desk

import "underflap/liner"

// called is what the page calls a field, where the field's name is a word of the
// command line and says too little beside a box.
var called = map[string]string{
	"card": "For a card", "pocket": "Measure it", "handmade": "Fold my own", "flap": "Shape of the flap",
	"room": "Room beside the card", "gum": "Width of the gum", "flap-side": "Side with the flap",
	"shoulder": "Shoulder of the flap", "taper": "Taper of the flap", "base-gap": "Gap at the fold",
	"tip-radius": "Rounding of the tip", "flap-corner-radius": "Rounding where the shoulders end",
	"border": "Border, without gum", "corner-radius": "Rounding of the liner’s corners",
	"from": "Sheet it is folded from", "overlap": "Overlap where it is glued", "straight-bottom": "Straight bottom flap",
	"stamp": "Your own stamp", "stamp-colour": "Print it in", "stamp-trace": "Trace its outline",
	"scale": "Everything larger or smaller", "turn": "Turned", "ink-saver": "Print only what shows",
	"paper-colour": "Colour of the paper you print on", "grey": "Black ink alone",
	"view": "How the envelope lies", "table": "Colour of the table", "show-card": "Card in the pocket, its colour", "envelope-colour": "The envelope’s own colour",
	"paper": "Paper in your printer", "count": "How many envelopes?", "per-sheet": "Liners on a sheet",
	"bleed": "Bleed, past the cut line", "gap": "Gap between liners", "layout": "How liners lie on the sheet",
	"notes": "Working steps on the sheet", "blank": "Outlines alone, no pattern",
	"registration": "Marks for a cutting machine", "registration-inset": "Those marks, from the paper’s edge",
	"registration-arm": "Length of their arms", "registration-line": "Thickness of their lines",
	"correct-x": "Printed rule measures, across", "correct-y": "Printed rule measures, down", "printer": "Printer kept by name",
}

// mixes say what stands beside a colour, for those who never saw a colour wheel.
var mixes = map[string]string{"complement": "the colour across from it, the strongest contrast", "neighbours": "the hues on either side of it, calm",
	"triad": "two more, a third of the wheel away, festive", "tints": "itself, from pale to deep"}

// named is a field as the page calls it: "side-gap" is "Side gap".
func named(field string) string {
	if name, ok := called[field]; ok {
		return name
	}
	return label(field)
}

// belongs is the way of choosing an envelope that a field goes with; with the
// others it means nothing, and would be refused.
var belongs = map[string]string{
	"room": "way=card|fold", "flap-side": "way=size|card",
	"shoulder": notFolded, "taper": notFolded, "base-gap": notFolded, "tip-radius": notFolded, "flap-corner-radius": notFolded,
}

const notFolded = "way=size|card|measure"

// paperOf is a paper by its name as advice writes it, super-b for Super B.
func paperOf(word string) string {
	paper, err := liner.ParsePaper("paper", word)
	if err != nil {
		return word
	}
	return paper.Short
}
