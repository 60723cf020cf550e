package vector

import (
	"runtime"
	"strings"
	"testing"
)

// Small files that would take much: each is refused in little memory, and
// before what it asks for is done.
func TestLittleDoesNotBecomeMuch(t *testing.T) {
	shape := `<rect width="9" height="9"/>`
	for name, c := range map[string]struct{ body, want string }{
		"a stroke along wide curves": {`<path stroke="#000" d="M0 0` + strings.Repeat("C1e6 2 3 4e6 5 6", 50_000) + `z"/>`, "lines and curves"},
		"between dashes":             {`<path id="p" fill="none" stroke="#000" stroke-dasharray="0 1e9" d="M0 0` + strings.Repeat("C1e6 2 3 4e6 5 6", 1_000) + `"/>` + strings.Repeat(`<use href="#p"/>`, 20) + shape, "lines and curves"},
		"clones that show nothing":   {`<path id="p" fill="none" d="M0 0` + strings.Repeat("h1", 20_000) + `"/>` + strings.Repeat(`<use href="#p"/>`, 20) + shape, "lines and curves"},
		"hidden clones":              {`<path id="p" visibility="hidden" d="M0 0` + strings.Repeat("h1", 20_000) + `"/>` + strings.Repeat(`<use href="#p"/>`, 20) + shape, "lines and curves"},
		"clones of a long element":   {`<rect id="p" width="1" height="1" data-note="` + strings.Repeat("scale(1) ", 100_000) + `"/>` + strings.Repeat(`<use href="#p"/>`, 100) + shape, "24 MB"},
		"rules for everything":       {`<style>` + strings.Repeat("*{a:"+strings.Repeat("b", 900)+"}", 2_000) + `</style>` + strings.Repeat(shape, 100), "24 MB"},
		"clips of a long element":    {`<clipPath id="c"><rect width="9" height="9" data-note="` + strings.Repeat("scale(1) ", 100_000) + `"/></clipPath>` + strings.Repeat(`<rect width="1" height="1" clip-path="url(#c)"/>`, 100), "24 MB"},
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := Read([]byte(page(c.body)))
		runtime.ReadMemStats(&after)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %.100v, want %s", name, err, c.want)
		}
		if made := (after.TotalAlloc - before.TotalAlloc) >> 20; made > 300 {
			t.Errorf("%s: %d MB were asked for", name, made)
		}
	}
}
