package main

import "testing"

// TestInkWordsRefused gives colours of paper that are none and depths that cannot
// be, wherever they are taken.
func TestInkWordsRefused(t *testing.T) {
	var all []refusal
	for _, w := range []string{" ", "kraftish", "#12345", "#1234567", "#gggggg", "#", "255,0,0", "rgb(1,2,3)", "c9a77c", "0", "white\nblack", "../paper"} {
		for _, command := range []string{"sheet", "fit", "swatch"} {
			all = append(all, no("--paper-colour", command, "--paper-colour", w))
		}
	}
	for _, w := range append([]string{"0", "0.9", "701", "-25", "usually", "all", "25 parsecs", "1e1", "25%"}, noLength...) {
		for _, command := range []string{"sheet", "fit"} {
			all = append(all, no("--ink-saver", command, "--ink-saver", w))
		}
	}
	for flag, words := range map[string][]string{"--paper-colour": {"tan"}, "--ink-saver": {"25"}, "--grey": nil, "--ink": nil} {
		all = append(all, no(flag, append([]string{"sheet", "--blank", flag}, words...)...))
	}
	checkAccepted(t, all)
}

// TestInkSaverNeedsADepth leaves the word away or gives it to commands that print
// no sheet.
func TestInkSaverNeedsADepth(t *testing.T) {
	for _, r := range []refusal{
		no("--ink-saver", "sheet", "--ink-saver"),
		no("--ink-saver", "swatch", "--ink-saver", "25"),
		no("--ink", "swatch", "--ink"),
		no("--grey", "sheet", "--grey=maybe"),
		no("--ink", "fit", "--ink=much"),
		no("--grey", "fold", "--handmade", "two-panel", "--card", "a6", "--grey"),
		no("--scale", "fit", "--ink", "--scale", "0.05", "--pattern", "dots", "--set", "size=0.5", "--set", "spacing=0.6"),
	} {
		t.Run(line(r.args), func(t *testing.T) {
			workbench(t)
			r.check(t)
		})
	}
}
