package vector

import (
	"math"
	"strings"
	"testing"
	"unicode"
)

// Whatever an SVG file holds is refused in one line, or is shapes that lie in the
// art's own frame.
func FuzzDrawing(f *testing.F) {
	for _, content := range drawings {
		f.Add(page(content))
	}
	for _, seed := range []string{"", "<svg", "<svg/>", `<svg xmlns="http://www.w3.org/2000/svg">` + strings.Repeat("<g>", 300),
		`<!DOCTYPE svg [<!ENTITY a "` + strings.Repeat("b", 1000) + `">]><svg>&a;</svg>`, `<svg viewBox="0 0 1e308 NaN"><rect width="1e308" height="9"/></svg>`,
		`<svg><g id="a"><use href="#a"/></g></svg>`, `<svg><style>rect{fill:url(#a);}</style><rect width="3" height="3"/></svg>`,
		`<?xml version="1.0" encoding="utf-16"?><svg/>`, `<svg><rect width="9" height="9" transform="matrix(0 0 0 0 1e300 -1e300)"/></svg>`, `<svg><path d="M0 0h1e5" stroke="red" stroke-width="9" stroke-dasharray="1e-9"/></svg>`} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		art, err := Read(data)
		if err != nil {
			if line := err.Error(); line == "" || len([]rune(line)) > 300 || strings.ContainsFunc(line, func(r rune) bool { return !unicode.IsPrint(r) }) {
				t.Fatalf("%q", line)
			}
			return
		}
		if !(art.Width > 0 && art.Height > 0) || math.IsInf(art.Width*art.Height, 0) || len(art.Shapes) == 0 {
			t.Fatalf("%g by %g, %d shapes", art.Width, art.Height, len(art.Shapes))
		}
		steps := 0
		near := 1e-6 * (art.Width + art.Height)
		for _, s := range art.Shapes {
			steps += len(s.Path.Verbs)
			if b := extent(s.Path); !(b.MinX >= -near && b.MinY >= -near && b.MaxX <= art.Width+near && b.MaxY <= art.Height+near) {
				t.Fatalf("a shape at %+v, in %g by %g", b, art.Width, art.Height)
			}
		}
		if steps > 2*MostSteps {
			t.Fatalf("%d steps", steps)
		}
	})
}
