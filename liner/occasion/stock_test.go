package occasion

import "testing"

// Three and three C6 at two on an A4 sheet are three sheets when they share, and
// four when the file says that they do not, or when they are printed in other ways.
func TestWhatKeepsLinersApart(t *testing.T) {
	const a, b = "[[liner]]\nname = 'a'\ncount = 3\n", "[[liner]]\nname = 'b'\ncount = 3\n"
	for text, want := range map[string]int{
		a + b:                        3,
		"share = false\n" + a + b:    4,
		a + "apart = true\n" + b:     4,
		a + b + "correct-x = '99mm'": 4,
		a + b + "grey = true":        4,
		a + b + "paper = 'letter'":   4,
	} {
		o := settled(t, "envelope = 'c6'\npaper = 'a4'\n"+text, Wish{})
		if o.Count() != want {
			t.Errorf("%q: %d sheets, want %d", text, o.Count(), want)
		}
	}
}
