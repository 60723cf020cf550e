package desk_test

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// focus is what has the keyboard: its id or name and value, and whether that shows.
type focus struct{ name, value, kind, shown string }

func (b *tab) focused() focus {
	b.Helper()
	// a ring is an outline, or a shadow, on the control or on the tile that it fills
	f := eval[[]string](b, `(e => {
		const ring = e => { const s = getComputedStyle(e); return (s.outlineStyle !== 'none' && parseFloat(s.outlineWidth) >= 2) || s.boxShadow !== 'none'; };
		const label = e.closest('label'), next = e.nextElementSibling;
		const shown = [e, label, label && label.querySelector('span'), next].filter(Boolean).some(ring);
		const r = (label || e).getBoundingClientRect(), inside = r.bottom > 0 && r.top < innerHeight && r.right > 0 && r.left < innerWidth && r.width > 0;
		const over = document.elementFromPoint(Math.max(r.left + 2, Math.min(r.right - 2, r.left + r.width / 2)), r.top + r.height / 2);
		const free = !over || over === e || e.contains(over) || over.contains(e) || label && (label.contains(over) || over.contains(label)); // WCAG 2.2, 2.4.11
		return [e.id || e.name || e.className || e.tagName, e.value || '', e.type || e.tagName, !shown ? 'no ring' : !inside ? 'outside the window' : !free ? 'behind ' + (over.id || over.className || over.tagName) : 'yes'];
	})(document.activeElement)`)
	return focus{f[0], f[1], f[2], f[3]}
}

func (b *tab) key(keys string) { b.Helper(); b.do(chromedp.KeyEvent(keys)) }

// tabTo presses Tab until a condition of document.activeElement holds, and sees at
// each stop that a person can see where she is.
func (b *tab) tabTo(condition string) {
	b.Helper()
	stops := ""
	for range 250 {
		if eval[bool](b, `!!(e => `+condition+`)(document.activeElement)`) {
			return
		}
		b.key(kb.Tab)
		f := b.focused()
		stops += " " + f.name
		if f.name == "BODY" { // around the page once
			continue
		}
		if f.shown != "yes" {
			b.Errorf("at %s %q: %s", f.name, f.value, f.shown)
		}
	}
	b.Fatalf("Tab never comes to %s; it stops at%s", condition, stops)
}

// From the first Tab to the print dialog and back without a mouse.
func TestKeyboardAlone(t *testing.T) {
	b := visit(t, wide)
	b.key(kb.Tab)
	if f := b.focused(); eval[string](b, `document.activeElement.className`) != "skip" || f.shown != "yes" {
		t.Errorf("the first stop is %v, not the way past the head", f)
	}
	b.shot("skip-wide")
	b.key(kb.Enter)
	b.tabTo(`e.name === 'way'`)
	b.key(kb.ArrowRight)
	b.key(kb.ArrowRight)
	b.until(`document.querySelector('[name=way][value=measure]').checked`)
	b.tabTo(`e.id === 'pocket'`)
	b.key("160")
	b.tabTo(`e.id === 'pocket-height'`)
	b.key("115")
	b.tabTo(`e.id === 'flap-depth'`)
	b.key("70")
	b.shows("--pocket 160", "--flap-depth 70")
	b.tabTo(`e.name === 'flap'`)
	b.key(kb.ArrowDown)
	b.shows("--flap pointed")
	b.tabTo(`e.name === 'pattern'`)
	chosen := eval[string](b, `document.activeElement.value`)
	b.key(kb.ArrowRight)
	b.until(`document.activeElement.name === 'pattern' && document.activeElement.value !== ` + quote(chosen))
	b.shows("--pattern " + eval[string](b, `document.activeElement.value`))
	b.shot("keyboard-wide")
	b.tabTo(`e.type === 'range' && e.closest('[data-settings]')`)
	box := eval[string](b, `document.activeElement.dataset.slides`)
	before := b.value(box)
	for range 5 {
		b.key(kb.ArrowRight)
	}
	b.until(`document.getElementById(` + quote(box) + `).value !== ` + quote(before))
	b.shows("--set")
	b.tabTo(`e.name === 'palette'`)
	b.key(kb.ArrowRight)
	b.shows("--palette " + eval[string](b, `document.activeElement.value`))
	b.tabTo(`e.id === 'count'`)
	b.key("12")
	b.shows("--count 12")
	b.tabTo(`e.id === 'paper'`)
	b.key("US Letter") // as people find a line of a list
	b.key("\x1b")
	b.tabTo(`e.tagName === 'SUMMARY'`)
	b.key(" ")
	b.until(`document.activeElement.parentElement.open`)
	b.tabTo(`e.id === 'print' || e.id === 'enlarge-look'`)
	b.tabTo(`e.id === 'print'`)
	b.key(kb.Enter)
	b.until(`document.getElementById('print-dialog').open && document.getElementById('print-dialog').contains(document.activeElement)`)
	for range 4 { // the dialog keeps the keyboard, but for what the browser itself has
		b.key(kb.Tab)
		if f := b.focused(); f.name != "BODY" && !eval[bool](b, `document.getElementById('print-dialog').contains(document.activeElement)`) {
			t.Errorf("behind the dialog: %v", f)
		}
	}
	b.tabTo(`e.id === 'print-pdf'`)
	b.key("\x1b")
	b.until(`!document.getElementById('print-dialog').open && document.activeElement.id === 'print'`)
}

// On a narrow screen the pictures that stay in view hide nothing that has the
// keyboard, on the way through the page and back.
func TestKeyboardOnANarrowScreen(t *testing.T) {
	b := visit(t, narrow)
	b.key(kb.Tab)
	b.tabTo(`e.id === 'print'`)
	for range 40 {
		b.do(chromedp.KeyEvent(kb.Tab, chromedp.KeyModifiers(chromedp.ModifierShift)))
		if f := b.focused(); f.name != "BODY" && f.shown != "yes" {
			t.Errorf("backwards at %s %q: %s", f.name, f.value, f.shown)
		}
	}
}

// Shift and Tab goes the same way back.
func TestKeyboardBackwards(t *testing.T) {
	b := visit(t, wide)
	var there []string
	for range 30 {
		b.key(kb.Tab)
		there = append(there, b.focused().name)
	}
	for i := len(there) - 2; i >= 0; i-- {
		b.do(chromedp.KeyEvent(kb.Tab, chromedp.KeyModifiers(chromedp.ModifierShift)))
		if back := b.focused().name; back != there[i] {
			t.Fatalf("back from %s comes %s, not %s", there[i+1], back, strings.TrimSpace(there[i]))
		}
	}
}
