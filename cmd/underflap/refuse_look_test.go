package main

import "testing"

// TestPicturesRefused asks for pictures that cannot be drawn, and mixes the
// picture's words with those of the labelled drawing.
func TestPicturesRefused(t *testing.T) {
	look := func(naming string, args ...string) refusal { return no(naming, append([]string{"look"}, args...)...) }
	checkAccepted(t, []refusal{
		look("--view", "--view", "inside"),
		look("--view", "--view", "open,"),
		look("--view", "--view", "open,half,closed,front,open"),
		look("--view", "--view", "open,half", "--palettes", "all"),
		look("--envelope-colour", "--envelope-colour", "papyrus"),
		look("--envelope-colour", "--envelope-colour", "#12"),
		look("--table", "--table", "oak"),
		look("--table", "--table", "#1234567"),
		look("--show-card", "--show-card", "a6"),
		look("--show-card", "--show-card", "ivory", "--view", "closed"),
		look("--show-card", "--show-card", "ivory", "--view", "front"),
		look("--palettes", "--palettes", "rowan-jelly,plum"),
		look("--palettes", "--palettes", "rowan-jelly", "--inks", "red", "--ground", "white"),
		look("--palettes", "--palettes", "rowan-jelly,,hop-garden"),
		look("--patterns", "--palettes", "all", "--patterns", "all"),
		look("--palette", "--palettes", "all", "--palette", "rowan-jelly"),
		look("--palettes", "--palettes", "all", "--inks", "black", "--ground", "white"),
		look("--palette", "--palette", "plum"),
		look("--patterns", "--patterns", "dots,spots"),
		look("--patterns", "--patterns", ","),
		look("--pattern", "--patterns", "all", "--pattern", "dots"),
		look("--stamp", "--patterns", "all", "--stamp", "acorn.png"),
		look("--scale", "--scale", "0.05"),
		look("--paper", "--envelope", "c4", "--paper", "a5"),
		look("--three", "--three"),
		look("--output", "-o", "look.gif"),
		look("--output", "-o", "."),
		look("--dpi", "--dpi", "71"),
		look("--dpi", "--dpi", "1200", "--view", "front,front,front,front", "--envelope", "c5"),
		look("--pattern", "--explain", "--pattern", "dots"),
		look("--palette", "--explain", "--palette", "rowan-jelly"),
		look("--view", "--explain", "--view", "half"),
		look("--show-card", "--explain", "--show-card", "ivory"),
		look("--table", "--explain", "--table", "white"),
		look("--envelope-colour", "--explain", "--envelope-colour", "navy"),
		look("--palettes", "--explain", "--palettes", "all"),
		look("--paper", "--explain", "--paper", "a4"),
		look("--stamp-trace", "--explain", "--stamp-trace"),
	})
}
