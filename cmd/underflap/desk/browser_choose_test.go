package desk_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// pickPattern chooses a pattern, after asking for all of them where few are shown.
func (b *tab) pickPattern(name string) {
	b.Helper()
	tile := `document.querySelector('input[name=pattern][value="` + name + `"]').closest('label')`
	if eval[bool](b, tile+`.getBoundingClientRect().width === 0`) {
		b.pressID("all-patterns")
		b.until(tile + `.getBoundingClientRect().width > 0`)
	}
	b.pick("pattern", name)
}

// Three choices, and the pictures follow each.
func TestChoosing(t *testing.T) {
	b := visit(t, wide)
	before := b.pictures()
	for _, step := range []struct{ name, value string }{{"envelope", "b6"}, {"pattern", "scallops"}, {"palette", "hop-garden"}, {"flap", "square"}} {
		if step.name == "pattern" {
			b.pickPattern(step.value)
		} else {
			b.pick(step.name, step.value)
		}
		b.shows("--" + step.name + " " + step.value)
		now := b.pictures()
		if now.Look == before.Look || now.Sheet == before.Sheet {
			t.Errorf("%s: the pictures did not change", step.value)
		}
		if !strings.Contains(now.LookAbout, "B6") || !strings.Contains(now.SheetAbout, "A4") {
			t.Errorf("%s: said of the pictures is %q and %q", step.value, now.LookAbout, now.SheetAbout)
		}
		before = now
	}
	if !strings.Contains(before.LookAbout, "lined with scallops in hop garden") {
		t.Errorf("who cannot see the picture is told %q", before.LookAbout)
	}
	b.see(view{1280, 880, false})
	b.do(chromedp.MouseEvent(chromedp.MouseMoved, 1, 1))
	eval[bool](b, `(document.activeElement.blur(), scrollTo(0, 0), true)`)
	b.until(whole)
	b.shot("desk") // the README's picture
}

// Every tile of a pattern comes to have its picture when it is looked at, and
// another one in other colours.
func TestPatternsArePictures(t *testing.T) {
	b := visit(t, wide)
	b.pressID("all-patterns")
	const tiles = `[...document.querySelectorAll('img[data-sample]')]`
	seen := func() []string {
		b.Helper()
		for i := range eval[int](b, tiles+`.length`) {
			tile := fmt.Sprintf("%s[%d]", tiles, i)
			eval[bool](b, `(e => (e.scrollIntoView({block: 'center', behavior: 'instant'}), true))(`+tile+`)`)
			b.until(`(e => e.src && e.complete && e.naturalWidth >= 240)(` + tile + `)`)
		}
		return eval[[]string](b, tiles+`.map(e => e.src)`)
	}
	first := seen()
	if len(first) < 10 {
		t.Fatalf("%d pictures of patterns", len(first))
	}
	b.pick("palette", "barn-lantern")
	b.shows("--palette barn-lantern")
	eval[bool](b, `(`+tiles+`[0].scrollIntoView({block: 'center', behavior: 'instant'}), true)`)
	b.until(tiles + `[0].src.includes('barn-lantern')`)
	for i, src := range first {
		for _, other := range first[:i] {
			if src == other {
				t.Errorf("%s stands for two patterns", src)
			}
		}
	}
}

// The envelope on the table, measured: the liner is as wide as the pocket without
// the side gaps of 3 mm (DESIGN, common practice).
func TestMeasuring(t *testing.T) {
	b := visit(t, wide)
	b.pick("way", "measure")
	b.write("pocket", "160")
	b.write("pocket-height", "115")
	b.until(`document.getElementById('flap-depth-problem')?.classList.contains('hint')`) // asked for, not told off
	if said := b.text("problems"); said != "" {
		t.Errorf("who is still measuring is told %q", said)
	}
	b.write("flap-depth", "70")
	b.shows("--pocket 160", "115", "--flap-depth 70")
	if says := b.text("says"); !strings.Contains(strings.ToLower(says), "liner 154 ") {
		t.Errorf("said is %q", says)
	}
	b.until(`(e => e.complete && e.naturalWidth > 100 && e.src.includes('160'))(document.getElementById('explain'))`)
	b.shot("measured-wide")
}

// Inches by one switch, and back to what was typed. An inch is 25.4 mm.
func TestInches(t *testing.T) {
	b := visit(t, wide)
	b.pick("way", "measure")
	b.write("pocket", "160")
	b.write("pocket-height", "114.3")
	b.write("flap-depth", "70")
	b.shows("--pocket 160")
	mm := b.pictures()
	b.pick("units", "in")
	b.until(`document.getElementById('pocket-height').value === '4.5' || document.getElementById('pocket-height').value === '4 1/2'`)
	b.until(`/\d in/.test(document.getElementById('says').textContent) && !/\d mm/.test(document.getElementById('says').textContent)`)
	b.shot("inches-wide")
	b.pick("units", "mm")
	b.until(`['160', '114.3', '70'].join() === ['pocket', 'pocket-height', 'flap-depth'].map(id => document.getElementById(id).value).join()`)
	b.until(whole + ` && /\d mm/.test(document.getElementById('says').textContent)`)
	if b.pictures() != mm {
		t.Error("the pictures are others after the switch and back")
	}

	// 6 1/4 in are 158.75 mm, and the liner 152.75 mm: typed in inches it is the
	// same picture as in millimetres
	b.pick("units", "in")
	b.write("pocket", "6 1/4")
	b.write("pocket-height", "4.5")
	b.write("flap-depth", "2.5")
	b.until(whole + ` && document.getElementById('command').textContent.match(/--pocket ["']?(6 1\/4 ?in ?x ?4\.5 ?in|158\.75)/)`)
	inches := b.pictures()
	b.pick("units", "mm")
	b.write("pocket", "158.75")
	b.write("pocket-height", "114.3")
	b.write("flap-depth", "63.5")
	b.shows("158.75", "114.3", "63.5")
	if again := b.pictures(); again.Look != inches.Look {
		t.Error("the same envelope in inches looks otherwise")
	}
	if says := b.text("says"); !strings.Contains(says, "152.8") {
		t.Errorf("said is %q", says)
	}
}

func TestForACard(t *testing.T) {
	b := visit(t, wide)
	b.pick("way", "card")
	b.choose("card", "a6")
	b.shows("--card a6")
	if remarks := b.text("remarks"); !strings.Contains(remarks, "C6") {
		t.Errorf("remarks are %q", remarks)
	}
	b.choose("card", "")
	b.write("card-width", "140")
	b.write("card-height", "95")
	b.shows("--card", "140", "95")
}

// Twelve liners, two on a sheet, are six sheets.
func TestCopies(t *testing.T) {
	b := visit(t, wide)
	b.write("count", "12")
	b.shows("--count 12")
	if says := b.text("copies"); !strings.Contains(says, "12 liners: 6 sheets of A4") {
		t.Errorf("said is %q", says)
	}
	b.choose("paper", "letter")
	b.shows("--paper letter")
	if says := b.text("copies"); !strings.Contains(says, "12 liners") || !strings.Contains(says, "Letter") {
		t.Errorf("said is %q", says)
	}
}

// A slider and the box beside it say the same, whichever is moved.
func TestSliders(t *testing.T) {
	b := visit(t, wide)
	const slider, box = `document.querySelector('[data-settings=dots] [data-slides]')`, `document.getElementById(document.querySelector('[data-settings=dots] [data-slides]').dataset.slides)`
	before, usual := b.pictures(), eval[string](b, box+`.value`)
	at := eval[[]float64](b, `(e => { e.scrollIntoView({block: 'center', behavior: 'instant'}); const r = e.getBoundingClientRect(); return [r.left + 0.7 * r.width, r.top + r.height / 2]; })(`+slider+`)`)
	b.do(chromedp.MouseClickXY(at[0], at[1]))
	b.until(box + `.value !== ` + quote(usual) + ` && Number(` + box + `.value) === Number(` + slider + `.value)`)
	name := eval[string](b, box+`.dataset.set`)
	b.shows("--set " + name + "=" + eval[string](b, box+`.value`))
	if now := b.pictures(); now.Look == before.Look {
		t.Error("the picture did not change")
	}
	b.write(eval[string](b, box+`.id`), "5")
	b.shows("--set " + name + "=5")
	if eval[string](b, slider+`.value`) != "5" {
		t.Errorf("the slider is at %s", eval[string](b, slider+`.value`))
	}
	b.write("turn", "30")
	b.shows("--turn 30")
	b.pressID("another")
	b.shows("--turn 30", "--seed 1")
}

// A reload brings back the design and the unit.
func TestReloadKeepsTheDesign(t *testing.T) {
	b := visit(t, wide)
	b.pick("envelope", "dl")
	b.pickPattern("scallops")
	b.pick("palette", "rowan-jelly")
	b.pick("units", "in")
	b.write("count", "7")
	b.shows("--envelope dl", "--pattern scallops", "--palette rowan-jelly", "--count 7")
	b.until(`location.hash.includes('count=7')`)
	before, command := b.pictures(), b.text("command")
	b.do(chromedp.Reload())
	b.drawn()
	b.shows("--count 7")
	if b.pictures() != before || b.text("command") != command {
		t.Errorf("after a reload it is %s, was %s", b.text("command"), command)
	}
	if b.value("count") != "7" || !eval[bool](b, `document.querySelector('[name=units][value=in]').checked && document.querySelector('[name=envelope][value=dl]').checked`) {
		t.Error("the controls say otherwise")
	}
	b.pressID("afresh")
	b.shows("!--count", "!scallops")
}
