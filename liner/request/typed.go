package request

import "underflap/pattern/words"

// typed is a field with the word a person typed for it, "" when there is none.
type typed struct{ field, word string }

// refused says why the word cannot stand here.
func (t typed) refused(why, accepts string) error {
	return &words.Refused{Field: t.field, Given: t.word, Why: why, Accepts: accepts}
}

// firstGiven is the first of the fields that has a word.
func firstGiven(fields []typed) (typed, bool) {
	for _, f := range fields {
		if f.word != "" {
			return f, true
		}
	}
	return typed{}, false
}

// flapDetails are the words about a flap beside its shape and depth.
func (w Words) flapDetails() []typed {
	return []typed{{"shoulder", w.Shoulder}, {"taper", w.Taper}, {"base-gap", w.BaseGap}, {"tip-radius", w.TipRadius}, {"flap-corner-radius", w.FlapCornerRadius}}
}
