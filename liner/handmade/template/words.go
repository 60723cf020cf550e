package template

import (
	"strconv"
	"strings"

	"underflap/liner/handmade"
	"underflap/pattern/draw/setting"
	"underflap/pattern/words"
)

// title names the envelope: "Two-panel envelope, 162 × 114 mm".
func title(b handmade.Blank) string {
	kind := string(b.Construction)
	if kind != "" {
		kind = strings.ToUpper(kind[:1]) + kind[1:] + " envelope"
	} else {
		kind = "Envelope"
	}
	return kind + ", " + words.MMSize(b.Width, b.Height)
}

// from names the sheet.
func from(b handmade.Blank) string {
	if b.Sheet.Short != "" {
		return "From a sheet of " + b.Sheet.Short + "."
	}
	return "From a sheet of " + words.MMSize(b.Sheet.Width, b.Sheet.Height) + "."
}

// steps are the working steps for the way the sheet lies on its pages.
func steps(b handmade.Blank, l Layout) []setting.Note {
	const actual = "Print at actual size, 100%, and measure the 100 mm rule."
	const blade = " A craft knife is sharp: use a cutting mat and a metal ruler, keep fingers behind the edge and cut away from yourself."
	notes := []setting.Note{{Text: title(b), Bold: true}, {Text: from(b)}}
	n := 0
	say := func(text string) {
		n++
		notes = append(notes, setting.Note{Number: strconv.Itoa(n), Text: text})
	}
	switch {
	case l.whole():
		say("Print on the sheet itself, on the side that will be inside, at actual size, 100%, and measure the 100 mm rule. Lines in the printer’s margin are lost.")
		say("Cut along the solid lines." + blade)
	case len(l.Tiles) == 1:
		say(actual)
		say("Cut along the solid lines. Or keep the template: lay it on the inside of your sheet, draw round it and mark both ends of every fold." + blade)
	default:
		say(actual)
		say("Join the pages: trim the later one on the thin grey line, lay it on its neighbour so that both halves of the diamonds with the same letter meet, and tape them.")
		say("Cut out the template along the solid lines, lay it on the inside of your sheet, draw round it and mark both ends of every fold. Cut the sheet." + blade)
	}
	say("Score every dashed fold. Fold 1 and 2 inwards, then 3 over them to see that it lies well.")
	if len(b.Glue) > 0 {
		say("Open 3 again, glue it where the template is hatched, and press it onto the side flaps. Let it dry. If the glue smells of solvent, open a window.")
	}
	say("Fold " + strconv.Itoa(len(b.Panels)-1) + " is the flap. It has no gum: line the envelope first, then close it with a sticker or a little glue.")
	return notes
}
