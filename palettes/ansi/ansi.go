// Package ansi shows colours on a terminal: each #rrggbb of a text stands on its
// own colour. The characters stay the same, so that columns do.
package ansi

import (
	"fmt"
	"io"
	"regexp"
	"strings"

	"golang.org/x/term"

	"underflap/palettes"
	"underflap/pattern/draw"
)

// Depth is how many colours a terminal shows.
type Depth int

// The depths.
const (
	Plain   Depth = iota // none: text alone
	Indexed              // the 256 of xterm
	True                 // every sRGB colour
)

// Of tells what may be written to w: plain text unless w is a terminal that
// shows enough colours and nobody asked for none.
func Of(w io.Writer, env func(string) string) Depth {
	file, ok := w.(interface{ Fd() uintptr })
	if !ok || !term.IsTerminal(int(file.Fd())) {
		return Plain
	}
	return Said(env)
}

// Said is what the environment says of a terminal. NO_COLOR, set to anything, asks
// for plain text (no-color.org). COLORTERM and TERM are read as terminals set them:
// COLORTERM=truecolor or 24bit, TERM=xterm-256color, TERM=xterm-direct (terminfo).
// Terminals of 16 colours or fewer show none of ours as it is, so they get text.
func Said(env func(string) string) Depth {
	name := strings.ToLower(env("TERM"))
	switch colours := strings.ToLower(env("COLORTERM")); {
	case env("NO_COLOR") != "" || name == "dumb":
		return Plain
	case colours == "truecolor" || colours == "24bit" || strings.HasSuffix(name, "-direct"):
		return True
	case strings.Contains(name, "256color"):
		return Indexed
	}
	return Plain
}

var hex = regexp.MustCompile(`#[0-9a-f]{6}\b`)

// Paint puts each #rrggbb of a text on its own colour, in black or white,
// whichever reads better there.
func (d Depth) Paint(text string) string {
	if d == Plain {
		return text
	}
	return hex.ReplaceAllStringFunc(text, func(word string) string {
		var c draw.Colour
		if _, err := fmt.Sscanf(word, "#%02x%02x%02x", &c.R, &c.G, &c.B); err != nil {
			return word
		}
		if d == Indexed {
			n := Nearest(c)
			front := 16 // black
			if palettes.Lettering(Entry(n)) == draw.White {
				front = 231
			}
			return fmt.Sprintf("\x1b[48;5;%d;38;5;%dm%s\x1b[0m", n, front, word)
		}
		front := palettes.Lettering(c)
		return fmt.Sprintf("\x1b[48;2;%d;%d;%d;38;2;%d;%d;%dm%s\x1b[0m", c.R, c.G, c.B, front.R, front.G, front.B, word)
	})
}
