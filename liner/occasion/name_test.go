package occasion

import (
	"strings"
	"testing"
)

func TestFilesAreCalledByPlainNames(t *testing.T) {
	for _, c := range []struct{ names, want string }{
		{"replies", "replies"}, {"Seed packets|Menus", "seed-packets-menus"}, {"Grüße & Küsse", "grusse-kusse"}, {"漢字", "liners"}, {"../a\\b", "a-b"},
		{"-|-", "liners"}, {strings.Repeat("x", 40) + "|" + strings.Repeat("y", 40), strings.Repeat("x", 40) + "-" + strings.Repeat("y", 19)},
	} {
		if got := slug(strings.Split(c.names, "|")); got != c.want || len(got) > mostInName {
			t.Errorf("%q: %q, want %q", c.names, got, c.want)
		}
	}
	for n, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 99: "CV"} {
		if got := letter(n); got != want {
			t.Errorf("%d: %s, want %s", n, got, want)
		}
	}
}

// A word that shapes a sheet gives its file another name: an old file would stay in
// place else.
func TestASheetsNameTellsAllThatShapesIt(t *testing.T) {
	seen := map[string]string{}
	for _, word := range []string{"", "notes = 'short'", "registration = 'all'", "registration = 'three'", "registration = 'all'\nregistration-line = 1", "bleed = 1", "printer-margin = 6", "hidden-foot = 3",
		"blank = true", "paper = 'letter'", "correct-x = 99", "correct-y = 99", "grey = true", "paper-colour = 'tan'", "seed = 2", "turn = 10", "scale = 1.1", "ink-saver = 10",
		"pocket-depth = 60", "side-gap = 4", "gum = 13", "tip-radius = 6", "flap-depth = 40", "palette = 'hop-garden'", "pattern = 'stars'", "title = 'Supper'", "name = 'replies'"} {
		text := "envelope = 'c7'\ncount = 2\n" + word + "\n"
		if strings.HasPrefix(word, "name") {
			text = "[[liner]]\n" + text
		}
		for _, s := range settled(t, text, Wish{}).Sheets {
			if other, is := seen[s.File]; is {
				t.Errorf("%q and %q have one name, %s", word, other, s.File)
			}
			seen[s.File] = word
		}
	}
}

// Accents may be letters of their own (Unicode, NFD), as some keyboards and discs
// have them: names, titles and files are the same.
func TestAccentsApartFromTheirLettersAreTheSame(t *testing.T) {
	text := func(e string) string {
		return strings.NewReplacer("title = 'Winter fair'\n", "", "'makers'", "'caf"+e+"'").Replace(fair)
	}
	one := settled(t, text("é"), Wish{Title: "Fête", Only: []string{"cafe\u0301"}})
	other := settled(t, text("e\u0301"), Wish{Title: "Fe\u0302te", Only: []string{"café"}})
	if one.Lines[0].Name != other.Lines[0].Name || one.Title != other.Title {
		t.Errorf("%q and %q, %q and %q", one.Lines[0].Name, other.Lines[0].Name, one.Title, other.Title)
	}
	for i, s := range one.Sheets {
		if other.Sheets[i].File != s.File {
			t.Errorf("%s and %s", s.File, other.Sheets[i].File)
		}
	}
}
