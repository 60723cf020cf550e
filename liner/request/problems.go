package request

import (
	"context"
	"errors"

	"underflap/palettes"
	"underflap/palettes/derived"
	"underflap/pattern/words"
)

// Problems are all refusals that can be told at once of the words for a picture
// and its sheets: the envelope, the liner in it, the paper, the pattern and the
// colours are each asked on their own, so that a form can say what is wrong
// beside every field and not beside the first alone. There is one of a field at
// most. None does not mean that all is well: how parts go together is seen when
// they are put together. err is what is no refusal.
func Problems(ctx context.Context, l Look) (list []*words.Refused, err error) {
	blamed := map[string]bool{}
	ask := func(answer error) bool {
		var refused *words.Refused
		switch {
		case answer == nil:
			return true
		case !errors.As(answer, &refused):
			err = errors.Join(err, answer)
		case !blamed[refused.Field]:
			blamed[refused.Field] = true
			list = append(list, refused)
		}
		return false
	}
	w := l.Words
	found, answer := ResolveEnvelope(w)
	if ask(answer) {
		_, answer = resolveTask(w, found.Envelope)
		ask(answer)
	}
	for _, m := range append([]typed{{"flap-depth", w.FlapDepth}, {"gum", w.Gum}}, w.flapDetails()...) { // each side of a flap is measured on its own
		if m.word != "" {
			_, answer = words.Length(m.field, m.word)
			ask(answer)
		}
	}
	_, _, answer = resolvePaper(w)
	ask(answer)
	_, answer = resolveCorrection(w)
	ask(answer)
	_, _, answer = resolveMotif(ctx, w)
	ask(answer)
	_, _, answer = ResolvePalette(ctx, w)
	ask(answer)
	_, answer = resolvePress(w)
	ask(answer)
	_, answer = resolveViews(l)
	ask(answer)
	for _, colour := range []typed{{"envelope-colour", l.EnvelopeColour}, {"show-card", l.ShowCard}} {
		if colour.word != "" {
			_, answer = derived.PaperColour(colour.field, colour.word)
			ask(answer)
		}
	}
	if l.Table != "" {
		_, answer = palettes.Colour("table", l.Table)
		ask(answer)
	}
	return list, err
}
