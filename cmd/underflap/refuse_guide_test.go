package main

import "testing"

// TestGuidesRefused mixes the drawings to learn from with each other, and with
// words that they do not show.
func TestGuidesRefused(t *testing.T) {
	look := func(naming string, args ...string) refusal { return no(naming, append([]string{"look"}, args...)...) }
	checkAll(t, []refusal{
		look("--steps", "--explain", "--steps"),
		look("--troubles", "--steps", "--troubles"),
		look("--three", "--steps", "--three"),
		look("--pattern", "--steps", "--pattern", "dots"),
		look("--palettes", "--troubles", "--palettes", "all"),
		look("--view", "--steps", "--view", "half"),
		look("--paper", "--troubles", "--paper", "a4"),
		look("--save-job", "--steps", "--save-job", "steps.toml"),
		look("--output", "--steps", "-o", "steps.gif"),
		look("--flap-depth", "--steps", "--flap-depth", "0"),
		no("folder", "manual"),
		no("folder", "manual", "one", "two"),
		no("folder", "manual", ""),
	})
}
