package request

import "testing"

// A liner's own repeat replaces the top's symmetry, and its symmetry a repeat;
// its printer takes no correction from the top.
func TestOneWordReplacesAnother(t *testing.T) {
	for text, gone := range map[string]string{
		"symmetry = 'p6'\n[[liner]]\nrepeat = 'brick'":               "symmetry",
		"repeat = 'brick'\n[[liner]]\nsymmetry = 'p6'":               "repeat",
		"correct-x = '99mm'\n[[liner]]\nprinter = 'the kitchen one'": "correct-x",
	} {
		o, err := ParseOccasion([]byte(text))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range o.Lines[0].Look.Fields() {
			if f.Name == gone && *f.Text != "" {
				t.Errorf("%q: %s is still %q", text, gone, *f.Text)
			}
		}
	}
}
