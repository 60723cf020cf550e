package desk

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// inks reads the colours of the style sheet: those of light, and of dark.
func inks(t *testing.T) (light, dark map[string]string) {
	t.Helper()
	data, err := embedded.ReadFile("assets/desk.css")
	if err != nil {
		t.Fatal(err)
	}
	declared := regexp.MustCompile(`--([a-z-]+): (#[0-9a-f]{6});`)
	before, after, found := strings.Cut(string(data), "prefers-color-scheme: dark")
	if !found {
		t.Fatal("no colours for the dark")
	}
	read := func(css string) map[string]string {
		colours := map[string]string{}
		for _, m := range declared.FindAllStringSubmatch(css, -1) {
			colours[m[1]] = m[2]
		}
		return colours
	}
	return read(before), read(after)
}

// luminance is WCAG 2.2's relative luminance of an sRGB colour.
func luminance(hex string) float64 {
	v, _ := strconv.ParseUint(hex[1:], 16, 32)
	channel := func(c uint64) float64 {
		s := float64(c&255) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*channel(v>>16) + 0.7152*channel(v>>8) + 0.0722*channel(v)
}

// Text needs 4.5 to 1 (WCAG 2.2, 1.4.3), the edges of controls and the focus 3 to
// 1 (1.4.11).
func TestColoursOfThePageStandApart(t *testing.T) {
	light, dark := inks(t)
	for scheme, colours := range map[string]map[string]string{"light": light, "dark": dark} {
		least := func(least float64, front string, grounds ...string) {
			for _, ground := range grounds {
				if colours[front] == "" || colours[ground] == "" {
					t.Fatalf("%s: no colour %s or %s", scheme, front, ground)
				}
				a, b := luminance(colours[front]), luminance(colours[ground])
				if got := (max(a, b) + 0.05) / (min(a, b) + 0.05); got < least {
					t.Errorf("%s: %s on %s has %.2f to 1, and the least is %g", scheme, front, ground, got, least)
				}
			}
		}
		least(4.5, "ink", "page", "leaf", "sunk", "accent-wash", "wrong-wash")
		least(4.5, "soft", "page", "leaf", "accent-wash")
		least(4.5, "accent", "page", "leaf")
		least(4.5, "on-accent", "accent")
		least(4.5, "wrong", "page", "leaf")
		least(3, "edge", "page", "leaf")
		least(3, "focus", "page", "leaf")
	}
}
