package desk_test

import (
	"fmt"
	"image/color"
	"os"
	"strings"
	"testing"
)

// states are what a person may have on the page, each after the one before.
var states = []struct {
	name string
	come func(b *tab)
}{
	{"first", func(b *tab) { b.drawn() }},
	{"measuring", func(b *tab) {
		b.pick("way", "measure")
		b.write("pocket", "160")
		b.write("pocket-height", "115")
		b.write("flap-depth", "70")
		b.shows("--pocket 160")
	}},
	{"own-colours", func(b *tab) {
		b.pick("colours", "own")
		b.write("ink-1", "navy")
		b.shows("navy")
	}},
	{"stamp", func(b *tab) {
		b.pickPattern("stamps")
		b.upload("stamp", painted(b.T, "a-long-name-of-holly-for-the-winter-fair-at-tarn-lane.png", color.NRGBA{240, 240, 240, 255}, color.NRGBA{60, 60, 70, 255}, 0.1))
		b.shows("--stamp a-long-name")
		b.until(`['stamp-original', 'stamp-cleaned'].every(id => (e => e.complete && e.naturalWidth > 50)(document.getElementById(id)))`)
	}},
	{"all-open", func(b *tab) {
		eval[bool](b, `([...document.querySelectorAll('details')].forEach(d => d.open = true), true)`)
		b.pressID("all-patterns")
	}},
	{"problem", func(b *tab) {
		b.write("side-gap", "400")
		b.until(`document.getElementById('side-gap').getAttribute('aria-invalid') === 'true'`)
	}},
	{"dialog", func(b *tab) {
		b.write("side-gap", "4")
		b.shows("--side-gap 4")
		b.pressID("print")
		b.until(`document.getElementById('print-dialog').open`)
	}},
}

// axe-core finds nothing serious or critical in any state of the page, by the
// rules of WCAG 2.0 to 2.2, levels A and AA, and its own best practices; narrow or
// wide, nothing reaches past the window's side.
func TestNobodyIsKeptOut(t *testing.T) {
	axe, err := os.ReadFile("testdata/axe/axe.min.js")
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range []view{wide, narrow, {1440, 1000, true}, {360, 780, true}} {
		shade := map[bool]string{false: "light", true: "dark"}[v.dark]
		t.Run(fmt.Sprintf("%d-%s", v.width, shade), func(t *testing.T) {
			b := visit(t, v)
			eval[bool](b, string(axe)+"\n;true")
			for _, state := range states {
				state.come(b)
				b.shot(fmt.Sprintf("%s-%d-%s", state.name, v.width, shade))
				for _, found := range eval[[]string](b, `axe.run(document, {resultTypes: ['violations']}).then(r => {
					if (r.testEngine.name !== 'axe-core' || r.passes.length < 20) throw new Error('axe did not look');
					return r.violations.filter(v => v.impact === 'serious' || v.impact === 'critical')
						.map(v => v.impact + ' ' + v.id + ': ' + v.help + ': ' + v.nodes.slice(0, 6).map(n => n.target.join(' ') + ' ' + (n.any[0]?.message || n.failureSummary)).join(' | '));
				})`) {
					t.Errorf("%s: %s", state.name, found)
				}
				b.fits(state.name)
			}
		})
	}
}

// fits tells what reaches past the side of the window.
func (b *tab) fits(when string) {
	b.Helper()
	if over := eval[[]string](b, `document.documentElement.scrollWidth <= innerWidth ? [] : [document.documentElement.scrollWidth + ' of ' + innerWidth,
		...[...document.querySelectorAll('body *')].filter(e => e.getBoundingClientRect().right > innerWidth + 1).slice(0, 5).map(e => e.tagName + '#' + e.id + '.' + e.className)]`); len(over) > 0 {
		b.Errorf("%s: wider than the window: %s", when, strings.Join(over, ", "))
	}
	// words that stand out of the tile or button that they are in
	if over := eval[[]string](b, `[...document.querySelectorAll('.tile, button, .button, summary, .says, .remarks li')].filter(e => e.clientWidth > 0 && [...e.querySelectorAll('*'), e].some(i =>
		i.scrollWidth > i.clientWidth + 1 && i.clientWidth > 0 && getComputedStyle(i).overflowX === 'visible' || i.getBoundingClientRect().right > e.getBoundingClientRect().right + 1))
		.map(e => e.textContent.trim().replace(/\s+/g, ' ').slice(0, 40))`); len(over) > 0 {
		b.Errorf("%s: words stand out of %q", when, over)
	}
}

// At widths between, and at 200 % on a small screen, everything fits; what is pressed
// is at least 24 pixels each way (WCAG 2.2, 2.5.8), unless it stands in a line of
// text or its label is as large.
func TestWidthsAndTargets(t *testing.T) {
	b := visit(t, wide)
	for _, width := range []int64{320, 360, 480, 640, 768, 1024, 1280, 1920} {
		b.see(view{width, 780, false})
		b.fits(fmt.Sprint(width))
		b.shot(fmt.Sprintf("width-%d", width))
		for _, small := range eval[[]string](b, `[...document.querySelectorAll('button, select, input, summary, a')].filter(e => {
			const r = (e.closest('label') || e).getBoundingClientRect();
			return r.width > 1 && !e.matches('.skip') && (r.width < 24 || r.height < 24);
		}).map(e => (e.id || e.name || e.textContent) + ' ' + e.getBoundingClientRect().width + ' x ' + e.getBoundingClientRect().height)`) {
			t.Errorf("at %d: too small to press: %s", width, small)
		}
	}
}

// Nothing moves when the pictures change: what is below them stays where it is.
func TestNothingJumps(t *testing.T) {
	b := visit(t, wide)
	const places = `JSON.stringify(['enlarge-look', 'envelope-part', 'pattern-head', 'print'].map(id => Math.round(document.getElementById(id).getBoundingClientRect().top + scrollY)))`
	eval[bool](b, `(scrollTo(0, 0), true)`)
	before := eval[string](b, places)
	b.pick("palette", "hop-garden")
	b.shows("hop-garden")
	eval[bool](b, `(scrollTo(0, 0), true)`)
	b.until(places + ` === ` + quote(before))
}
