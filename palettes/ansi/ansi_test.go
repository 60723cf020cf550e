package ansi

import (
	"bytes"
	"os"
	"regexp"
	"strings"
	"testing"
)

func TestTheEnvironmentSaysHowManyColours(t *testing.T) {
	for given, want := range map[string]Depth{
		"":                                    Plain,
		"TERM=xterm":                          Plain, // 8 colours, as people set them
		"TERM=linux":                          Plain,
		"TERM=xterm-256color":                 Indexed,
		"TERM=screen-256color":                Indexed,
		"TERM=xterm-direct":                   True, // terminfo's name for direct colour
		"TERM=xterm-256color COLORTERM=24bit": True,
		"TERM=xterm COLORTERM=truecolor":      True,
		"TERM=xterm COLORTERM=TrueColor":      True,
		"TERM=xterm COLORTERM=rxvt":           Plain,
		"TERM=dumb":                           Plain,
		"TERM=dumb COLORTERM=truecolor":       Plain,
		// no-color.org: "when present and not an empty string (regardless of its value)"
		"TERM=xterm-256color COLORTERM=truecolor NO_COLOR=1": Plain,
		"TERM=xterm-256color COLORTERM=truecolor NO_COLOR=0": Plain,
		"TERM=xterm-256color COLORTERM=truecolor NO_COLOR=":  True,
	} {
		env := map[string]string{}
		for _, word := range strings.Fields(given) {
			name, value, _ := strings.Cut(word, "=")
			env[name] = value
		}
		if got := Said(func(name string) string { return env[name] }); got != want {
			t.Errorf("%s: %d, want %d", given, got, want)
		}
	}
}

func TestPipesAndFilesGetPlainText(t *testing.T) {
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	defer w.Close()
	file, err := os.Create(t.TempDir() + "/list.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	all := func(string) string { return "truecolor" }
	if Of(w, all) != Plain || Of(file, all) != Plain || Of(&bytes.Buffer{}, all) != Plain {
		t.Error("colours in a pipe, a file or memory")
	}
}

// The sequences are those of ECMA-48's SGR, 48 and 38 with 2;r;g;b or 5;n as
// ITU-T T.416 has them, in the semicolon form that xterm documents.
func TestColoursStandOnThemselves(t *testing.T) {
	const text = "ink 1  #b4472e  and #f6ecd9, not #12345 nor #1234567"
	const wantTrue = "ink 1  \x1b[48;2;180;71;46;38;2;255;255;255m#b4472e\x1b[0m  and \x1b[48;2;246;236;217;38;2;0;0;0m#f6ecd9\x1b[0m, not #12345 nor #1234567"
	if got := True.Paint(text); got != wantTrue {
		t.Errorf("%q", got)
	}
	if got := Plain.Paint(text); got != text {
		t.Errorf("%q", got)
	}
	sequence := regexp.MustCompile("\x1b\\[[0-9;]*m")
	for _, d := range []Depth{Indexed, True} {
		if got := sequence.ReplaceAllString(d.Paint(text), ""); got != text {
			t.Errorf("without its colours: %q", got)
		}
	}
	if got := Indexed.Paint("#ff0000"); got != "\x1b[48;5;196;38;5;16m#ff0000\x1b[0m" {
		t.Errorf("%q", got)
	}
}

// From 256colres.h of xterm: 16 is #000000, 17 #00005f, 21 #0000ff, 67 #5f87af,
// 196 #ff0000, 231 #ffffff, 232 #080808, 255 #eeeeee.
func TestEntriesAreThoseOfXterm(t *testing.T) {
	for n, want := range map[int]string{16: "#000000", 17: "#00005f", 21: "#0000ff", 67: "#5f87af", 196: "#ff0000", 231: "#ffffff", 232: "#080808", 255: "#eeeeee"} {
		if got := Entry(n).Hex(); got != want {
			t.Errorf("%d is %s, want %s", n, got, want)
		}
	}
	for n := firstFixed; n < 256; n++ {
		if got := Entry(Nearest(Entry(n))); got != Entry(n) {
			t.Errorf("%s is shown as %s", Entry(n).Hex(), got.Hex())
		}
	}
}
