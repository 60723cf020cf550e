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

// A sheet that is printed with another correction is another file.
func TestAFileIsNamedByItsCorrection(t *testing.T) {
	plain, corrected := settled(t, fair, Wish{}), settled(t, "correct-x = '99mm'\n"+fair, Wish{})
	for i, s := range corrected.Sheets {
		if s.File == plain.Sheets[i].File {
			t.Errorf("%s is the name of both", s.File)
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
