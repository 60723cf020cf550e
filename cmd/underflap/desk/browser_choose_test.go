package desk_test

import (
	"strings"
	"testing"
)

// Three choices, and the pictures follow each.
func TestChoosing(t *testing.T) {
	b := visit(t, wide)
	b.shot("first-wide")
	before := b.pictures()
	for _, step := range []struct {
		name, value string
		about       []string // of the picture, any case
	}{
		{"envelope", "c5", []string{"c5"}},
		{"pattern", "scallops", []string{"scallops"}},
		{"palette", "hop-garden", []string{"hop-garden|hop garden"}},
		{"flap", "square", []string{"square|c5"}},
	} {
		b.pick(step.name, step.value)
		b.shows("--" + step.name + " " + step.value)
		now := b.pictures()
		if now.Look == before.Look || now.Sheet == before.Sheet {
			t.Errorf("%s: the pictures did not change", step.value)
		}
		for _, about := range step.about {
			found := false
			for _, word := range strings.Split(about, "|") {
				found = found || strings.Contains(strings.ToLower(now.LookAbout+b.text("says")), word)
			}
			if !found {
				t.Errorf("%s: said of the picture is %q and %q", step.value, now.LookAbout, b.text("says"))
			}
		}
		before = now
	}
	if before.SheetAbout == "" || before.LookAbout == "" {
		t.Error("a picture without words")
	}
	b.shot("chosen-wide")
}
