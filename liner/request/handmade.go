package request

import (
	"errors"
	"fmt"
	"strings"

	"underflap/liner"
	"underflap/liner/handmade"
	"underflap/pattern/words"
)

// fold works out an envelope folded by hand.
func (f *Found) fold(w Words) error {
	job, err := resolveJob(w, f.Card)
	if err != nil {
		return err
	}
	settled := append([]typed{{"flap", w.Flap}}, w.flapDetails()...)
	if m, given := firstGiven(append(settled, typed{"profile", w.Profile}, typed{"flap-side", w.FlapSide})); given {
		return m.refused("the construction settles the flap", "without --handmade")
	}
	if w.From == "" {
		job = f.usualSheet(job)
	}
	blank, err := handmade.New(job)
	if err != nil {
		return f.aboutCard(w, err)
	}
	if job.StraightBottom && !blank.StraightBottom {
		return &words.Refused{Field: "straight-bottom", Why: "the bottom flap of this pocket has no corner to trim: it is no wider than high", Accepts: "without it"}
	}
	f.Blank, f.Envelope = &blank, blank.Envelope
	var r reader
	f.Gum = r.length("gum", w.Gum, f.Gum, 0, 100)
	return r.err
}

// usualSheet chooses the sheet when none is named: the smallest that is commonly
// sold, A4 rather than Letter where both would do; and of a larger one only the
// square that short shoulders need.
func (f *Found) usualSheet(job handmade.Job) handmade.Job {
	if job.Construction == handmade.FourCorner {
		job.Side = handmade.UsualSide(job.Width, job.Height)
	}
	best := job
	for _, p := range liner.Papers() {
		try := job
		try.Sheet = p
		if !p.Common() || best.Sheet.Width > 0 && p.Width*p.Height > hardly*best.Sheet.Width*best.Sheet.Height {
			continue
		}
		if _, err := handmade.New(try); err == nil {
			best = try
		}
	}
	if best.Sheet.Width > 0 {
		name := strings.ToLower(best.Sheet.Short)
		f.Remarks = append(f.Remarks, fmt.Sprintf("folded from %s; write --from %s, or another sheet, with fold and with sheet alike, so that envelope and liner match", best.Sheet.Short, name))
	}
	return best
}

// hardly smaller is no reason to take another sheet than the table's earlier
// one: Letter has 0.97 of the area of A4.
const hardly = 0.95

// aboutCard puts a refusal of the pocket that a card made into words about the
// card.
func (f *Found) aboutCard(w Words, err error) error {
	var refused *words.Refused
	if f.Card == nil || w.Pocket != "" || !errors.As(err, &refused) || refused.Field != "pocket" {
		return err
	}
	why := "with its room it wants a pocket of " + refused.Given
	if refused.Why != "" {
		why += ": " + refused.Why
	}
	return &words.Refused{Field: "card", Given: w.Card, Why: why, Accepts: refused.Accepts}
}

func resolveJob(w Words, card *liner.Card) (j handmade.Job, err error) {
	construction, err := handmade.ParseConstruction("handmade", w.Handmade)
	if err != nil {
		return j, err
	}
	j = handmade.Job{Construction: construction, StraightBottom: w.StraightBottom}
	switch {
	case w.Pocket != "":
		if j.Width, j.Height, err = w.pocket(); err != nil {
			return j, err
		}
		if w.Room != "" {
			return j, &words.Refused{Field: "room", Given: w.Room, Why: "the pocket is given", Accepts: "either --room with --card or --pocket"}
		}
	case card != nil:
		long, short, err := room(w.Room, handmadeRoomLong, handmadeRoomShort)
		if err != nil {
			return j, err
		}
		j.Width, j.Height = max(card.Width, card.Height)+long, min(card.Width, card.Height)+short
	default:
		return j, &words.Refused{Field: "card", Why: "an envelope is folded around something", Accepts: "--card a6, --card 148x105, or --pocket 160x115"}
	}
	if w.From != "" {
		if j.Sheet, err = liner.ParsePaper("from", w.From); err != nil {
			return j, err
		}
	}
	if j.StraightBottom && j.Construction != handmade.FourCorner {
		return j, &words.Refused{Field: "straight-bottom", Why: "its bottom panel is straight already", Accepts: "with --handmade " + string(handmade.FourCorner)}
	}
	if w.FlapDepth != "" && j.Construction != handmade.TwoPanel {
		return j, &words.Refused{Field: "flap-depth", Given: w.FlapDepth, Why: "the square's size settles it", Accepts: "with --handmade " + string(handmade.TwoPanel)}
	}
	var r reader
	j.FlapDepth = r.length("flap-depth", w.FlapDepth, 0, 5, mostPocket)
	j.Overlap = r.length("overlap", w.Overlap, handmade.DefaultOverlap, handmade.LeastOverlap, 40)
	return j, r.err
}
