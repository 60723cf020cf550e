package vector

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/draw/png"
	"underflap/pattern/draw/referee"
)

// drawings are art as makers' programs write it, inside a page of 100 by 80.
var drawings = map[string]string{
	"acorn": `<path d="M30,40 C30,70 45,78 50,79 C55,78 70,70 70,40 Z" fill="#8a5a2b"/>
		<path d="m25 40q0-22 25-22t25 22z" style="fill:rgb(70, 45, 20)"/><path d="M50 18v-10" stroke="black" stroke-width="4"/>`,
	"strokes": `<g fill="none" stroke="#204060" stroke-width="6">
		<path d="M10 20 L30 10 L35 30"/><path d="M50 20 L70 10 L75 30" stroke-linejoin="round" stroke-linecap="round"/>
		<path d="M10 60 L30 50 L35 70" stroke-linejoin="bevel" stroke-linecap="square"/><path d="M50 70 L60 45 L64 70" stroke-miterlimit="2"/>
		<path d="M75 45 C95 45 75 75 95 75" /></g>`,
	"tight bends":      `<path d="M20 60 C20 10 30 10 30 60 S40 20 44 60" fill="none" stroke="black" stroke-width="9"/><path d="M60 40 C84 20 66 20 90 40" fill="none" stroke="black" stroke-width="7" stroke-linejoin="round"/>`,
	"closed strokes":   `<rect x="10" y="10" width="30" height="20" fill="none" stroke="black" stroke-width="5"/><circle cx="70" cy="40" r="20" fill="none" stroke="navy" stroke-width="8"/><polygon points="20,70 50,45 50,70" fill="none" stroke="black" stroke-width="4"/>`,
	"dashes":           `<path d="M10 20H90M10 40C40 20 60 60 90 40" fill="none" stroke="black" stroke-width="4" stroke-dasharray="9 4 2" stroke-dashoffset="3"/><circle cx="50" cy="62" r="12" fill="none" stroke="black" stroke-width="3" stroke-dasharray="6,4" stroke-linecap="round"/>`,
	"dashes at points": `<path d="M10 10H20H25H60" stroke="black" stroke-width="3" stroke-dasharray="10 5"/><path d="M10 45L14 48L18 51L30 60L50 75" fill="none" stroke="navy" stroke-width="3" stroke-dasharray="5 5" stroke-dashoffset="5" stroke-linejoin="round"/>`,
	"dots":             `<path d="M10 20H87" stroke="black" stroke-width="6" stroke-dasharray="0 8" stroke-linecap="round"/><circle cx="50" cy="55" r="20" fill="none" stroke="black" stroke-width="5" stroke-dasharray="0,9" stroke-linecap="round"/>`,
	"even odd":         `<path d="M20 10h50v50h-50zM30 20h30v30h-30z" fill-rule="evenodd"/><path d="M75 10h20v20h-20zM80 15h10v10h-10z"/>`,
	"star":             `<path d="M50 5 L73 75 L13 31 H87 L27 75Z" fill="crimson" fill-rule="evenodd" stroke="black"/>`,
	"arcs":             `<path d="M10 40a20 12 30 1 0 30-10A20 12 30 0 1 60 30a10 10 0 0120 0 5 30 -20 11 4 30z"/><path d="M5 70a1 1 0 0 1 20 0z" fill="green"/>`,
	"relative":         `<path d="m10 10 10 5-5 10zm30 0h10v10h-10zl-5 30s10 10 20 0-5-20-10 5"/>`,
	"close, then on":   `<path d="M20 20h20v20zl-10 30h30z" fill="teal"/>`,
	"transforms":       `<g transform="translate(20 10) scale(.5,1.2)"><rect width="40" height="20" transform="rotate(20)"/><g transform="skewX(20)"><ellipse cx="80" cy="30" rx="30" ry="12" stroke="red" stroke-width="5"/></g></g><rect transform="matrix(0 1 1 0 60 40) skewY(-10) rotate(30, 5, 5)" width="20" height="10"/>`,
	"round rectangles": `<rect x="10" y="10" width="30" height="20" rx="6"/><rect x="50" y="10" width="30" height="20" rx="6" ry="30"/><rect x="10" y="50" width="40" height="20" ry="3"/>`,
	"style rules": `<style>/* by a program */ .a,.b{fill:#c33;stroke:none} .b { fill : #393 } #c{fill:#339} rect{fill:yellow;stroke:black;stroke-width:2px}</style>
		<rect class="a" x="5" y="5" width="20" height="20"/><rect class="b big" x="30" y="5" width="20" height="20"/><rect class="a" id="c" x="55" y="5" width="20" height="20"/><rect x="5" y="40" width="20" height="20"/><rect class="a" style="fill:black" x="40" y="40" width="20" height="20"/>`,
	"clones":          `<defs><g id="leaf"><path d="M0 0C10-10 20-10 30 0C20 10 10 10 0 0"/></g><symbol id="dot"><circle r="4"/></symbol></defs><use href="#leaf" x="10" y="20" fill="green"/><use xlink:href="#leaf" transform="translate(80 60) rotate(150)"/><use href="#dot" x="60" y="20"/>`,
	"inherited":       `<g color="purple" stroke="currentColor" fill="none" stroke-width="3"><line x1="10" y1="10" x2="80" y2="30"/><polyline points="10 40 40 60 70 40" fill="currentColor"/></g><g display="none"><rect width="100" height="80"/></g><rect width="100" height="80" visibility="hidden"/><rect width="90" height="80" opacity="0"/>`,
	"frame that fits": `<defs><clipPath id="page"><rect width="100" height="80"/></clipPath></defs><g clip-path="url(#page)"><circle cx="40" cy="40" r="20"/></g>`,
	"off the page":    `<rect x="-90" width="20" height="20"/><circle cx="50" cy="40" r="20"/>`,
	"order of paint":  `<circle cx="50" cy="40" r="20" fill="gold" stroke="black" stroke-width="10" paint-order="stroke"/>`,
	"units":           `<rect x="5mm" y="2mm" width="1cm" height=".2in"/><rect x="5mm" y="40pt" width="3pc" height="20px"/>`,
}

func page(content string) []byte {
	return []byte(`<?xml version="1.0" encoding="UTF-8"?>
<!-- made with a drawing program -->
<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="5in" height="4in" viewBox="0 0 100 80">` + content + `</svg>`)
}

// TestArtLooksAsLibrsvgDrawsIt draws each drawing with our PNG writer and
// compares it with librsvg's drawing of the same file.
func TestArtLooksAsLibrsvgDrawsIt(t *testing.T) {
	const dpi = 96 // CSS pixels to the inch, for lengths with units
	for name, content := range drawings {
		t.Run(name, func(t *testing.T) {
			r := &reader{ids: map[string]*element{}}
			root, err := parse(page(content))
			if err != nil {
				t.Fatal(err)
			}
			if err := r.prepare(root); err != nil {
				t.Fatal(err)
			}
			shapes, err := r.element(root, place{draw.Identity, initial(), 0})
			if err != nil {
				t.Fatal(err)
			}
			p := draw.NewPage(127, 101.6)
			p.Within(draw.Scale(1.27), func(to *draw.Surface) {
				for _, s := range shapes {
					if s.EvenOdd {
						to.FillEvenOdd(s.Path, s.Colour)
					} else {
						to.Fill(s.Path, s.Colour)
					}
				}
			})
			var out bytes.Buffer
			if err := png.Write(t.Context(), &out, p, dpi); err != nil {
				t.Fatal(err)
			}
			ours, theirs := referee.PNG(t, out.Bytes(), dpi), referee.SVG(t, page(content), dpi, "")
			if ours.Width != theirs.Width || ours.Height != theirs.Height {
				t.Fatalf("%d by %d pixels, librsvg's %d by %d", ours.Width, ours.Height, theirs.Width, theirs.Height)
			}
			off, wrong := 0.0, 0
			for i := range ours.Grey {
				d := max(ours.Grey[i], theirs.Grey[i]) - min(ours.Grey[i], theirs.Grey[i])
				off += float64(d) / 255
				if d > 127 {
					wrong++ // at a sharp tip the two soften differently
				}
			}
			ink := theirs.InkedShare(0, 0, theirs.Width, theirs.Height) * float64(theirs.Width*theirs.Height)
			if off > 0.007*ink || wrong > 3 || ink < 100 {
				t.Errorf("%.4f of %.0f pixels of ink differ, %d pixels are wrong", off/ink, ink, wrong)
			}
		})
	}
}

func TestArtIsCroppedToWhatIsDrawn(t *testing.T) {
	for content, want := range map[string][2]float64{
		`<circle cx="40" cy="40" r="20"/>`: {40, 40},
		`<rect x="10" y="10" width="30" height="20" fill="none" stroke="#000" stroke-width="4"/>`: {34, 24},
		drawings["off the page"]: {40, 40},
	} {
		art, err := Read(page(content))
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(art.Width-want[0]) > 1e-3 || math.Abs(art.Height-want[1]) > 1e-3 {
			t.Errorf("%s: %g by %g, want %v", content, art.Width, art.Height, want)
		}
	}
}

func TestWhatCannotBeDrawnIsNamed(t *testing.T) {
	for content, want := range map[string]string{
		`<text x="3" y="9">Tarn Lane</text>`:                                                                           "text (<text>)",
		`<g><image href="acorn.png" width="9" height="9"/></g>`:                                                        "an embedded picture",
		`<script>alert(1)</script>`:                                                                                    "a script",
		`<defs><linearGradient id="a"/></defs><rect width="9" height="9" fill="url(#a)"/>`:                             "a gradient or pattern (url(#a))",
		`<rect width="9" height="9" opacity=".5"/>`:                                                                    "half-transparent",
		`<rect width="9" height="9" fill="#ff000080"/>`:                                                                "half-transparent",
		`<rect width="9" height="9" style="fill-opacity:40%"/>`:                                                        "half-transparent",
		`<rect width="9" height="9" filter="url(#b)"/>`:                                                                "a filter",
		`<rect width="9" height="9" mask="url(#b)"/>`:                                                                  "a mask",
		`<path d="M0 0h9" stroke="red" marker-end="url(#b)"/>`:                                                         "a marker",
		`<clipPath id="c"><circle r="9"/></clipPath><rect clip-path="url(#c)" width="50" height="50"/>`:                "a clip that cuts",
		`<clipPath id="c"><rect width="20" height="20"/></clipPath><rect clip-path="url(#c)" width="50" height="50"/>`: "a clip that cuts",
		`<svg width="9" height="9"/>`:                                                                                  "a drawing in the drawing",
		`<blob/>`:                                                                                                      "<blob>",
		`<rect width="9" height="9" fill="hsl(1,2%,3%)"/>`:                                                             `the colour "hsl(1,2%,3%)"`,
		`<path d="L 9 9"/>`:                                                                                            "begins with",
		`<path d="M0 0 L 9 x"/>`:                                                                                       "broken number",
		`<path d="M0 0 A 9 9 0 2 0 9 9"/>`:                                                                             "broken path data",
		`<path d="M0 0 1e300 9"/>`:                                                                                     "broken number",
		`<rect width="9%" height="9"/>`:                                                                                `the length "9%"`,
		`<g transform="turn(9)"><rect width="9" height="9"/></g>`:                                                      "broken transform",
		`<style>rect:hover{fill:red}</style><rect width="9" height="9"/>`:                                              `"rect:hover"`,
		`<style>@import url(x.css);</style><rect width="9" height="9"/>`:                                               "@ rules",
		`<use href="#nowhere"/>`:                                                                                       `"#nowhere"`,
		`<g id="a"><use href="#a"/></g>`:                                                                               "deeper than",
		``:                                                                                                             "nothing that is drawn",
		`<line x2="9"/>`:                                                                                               "nothing that is drawn",
		`<defs><rect width="9" height="9"/></defs>`:                                                                    "nothing that is drawn",
		`<path d="M0 0H1e8" stroke="red" stroke-dasharray=".001"/>`:                                                    "more than",
		`<use href="#a" x="q" y="z"/><g id="a"/>`:                                                                      `a broken number "q", in <use>`,
		`<rect width="9" height="9" style="transform: rotate(45deg)"/>`:                                                "a transform in a style",
		`<rect width="9" height="9" transform="rotate(45)" transform-origin="4 4"/>`:                                   "transform-origin",
		`<style>` + strings.Repeat("a,", 5000) + `a{fill:red}</style><rect width="9" height="9"/>`:                     "more than 2000 style rules",
		`<style>` + strings.Repeat("a{fill:red}<!---->", 100_000) + `</style><rect width="9" height="9"/>`: "more than 2000 style rules",
		`<rect`: "broken or cut short",
	} {
		_, err := Read(page(content))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", content, err, want)
		}
		if err != nil && (strings.Contains(err.Error(), "\n") || len(err.Error()) > 150) {
			t.Errorf("%s: %q is not one readable line", content, err)
		}
	}
}

// Ten clones of ten clones, and so on, are a million from a few lines.
func TestClonesOfClonesEnd(t *testing.T) {
	var b strings.Builder
	b.WriteString(`<defs><g id="n0"><rect width="1" height="1"/></g>`)
	for i := range 9 {
		fmt.Fprintf(&b, `<g id="n%d">%s</g>`, i+1, strings.Repeat(fmt.Sprintf(`<use href="#n%d"/>`, i), 10))
	}
	b.WriteString(`</defs><use href="#n9"/>`)
	if _, err := Read(page(b.String())); err == nil || !strings.Contains(err.Error(), "more than") {
		t.Errorf("%v", err)
	}
}

// An entity of a thousand letters, thirty thousand times.
func TestEntitiesDoNotBlowUp(t *testing.T) {
	file := `<!DOCTYPE svg [<!ENTITY a "` + strings.Repeat("x", 1000) + `">]><svg xmlns="http://www.w3.org/2000/svg"><title>` +
		strings.Repeat("&a;", 30_000) + `</title><rect width="9" height="9"/></svg>`
	if _, err := Read([]byte(file)); err == nil || !strings.Contains(err.Error(), "entities") {
		t.Errorf("%v", err)
	}
}

func TestOtherSpacesAndSetsOfLettersAreRead(t *testing.T) {
	for name, file := range map[string]string{
		"a drawing program's own notes": `<svg xmlns="http://www.w3.org/2000/svg" xmlns:n="urn:notes"><n:view><rect width="900" height="1"/></n:view><metadata/><rect width="9" height="9"/></svg>`,
		"shortened spaces":              `<!DOCTYPE svg [<!ENTITY s "http://www.w3.org/2000/svg">]><svg xmlns="&s;"><rect width="9" height="9"/></svg>`,
		"prefixed":                      `<s:svg xmlns:s="http://www.w3.org/2000/svg"><s:rect width="9" height="9"/></s:svg>`,
		"latin letters":                 "<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?><svg xmlns=\"http://www.w3.org/2000/svg\"><title>\xe9</title><rect width=\"9\" height=\"9\"/></svg>",
	} {
		art, err := Read([]byte(file))
		if err != nil || art.Width != 9 || art.Height != 9 || !Is([]byte(file)) {
			t.Errorf("%s: %v, %v", name, art, err)
		}
	}
}
