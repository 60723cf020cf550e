package main

import "testing"

// lengths are the flags that take one length, and whether none is a length
// that makes sense there.
var lengths = []struct {
	flag     string
	zeroFine bool
}{
	{"--flap-depth", false},
	{"--shoulder", true},
	{"--taper", true},
	{"--base-gap", true},
	{"--tip-radius", true},
	{"--flap-corner-radius", true},
	{"--gum", true},
	{"--gum-clearance", true},
	{"--side-gap", true},
	{"--pocket-depth", false},
	{"--corner-radius", true},
	{"--printer-margin", true},
	{"--bleed", true},
	{"--gap", true},
}

// noLength are words that are no length anywhere. The empty word is asked of
// every flag at once in TestEmptyWordsRefused.
var noLength = []string{
	"-3", "-0.5mm", "NaN", "Inf", "-Inf", "+Inf", "1e99", "0x10", "twelve", " ", "mm", "12 parsecs", "3/0", "1/2/3", "1,5", "12;",
	"100000", "100000mm", "10000cm", "4000in", "99999999999999999999999999999999999999", "4 3/8 5in", "12\n13",
}

func TestLengthsRefused(t *testing.T) {
	var all []refusal
	for _, l := range lengths {
		words := noLength
		if !l.zeroFine {
			words = append([]string{"0", "0mm", "0in"}, words...)
		}
		for _, w := range words {
			all = append(all, no(l.flag, "sheet", l.flag, w), no(l.flag, "fit", l.flag, w))
		}
	}
	checkAccepted(t, all)
}

// TestZeroWhereItMakesSense keeps the table above honest: these flags do take
// zero, and a liner comes of it.
func TestZeroWhereItMakesSense(t *testing.T) {
	for _, l := range lengths {
		if l.zeroFine {
			t.Run(l.flag, func(t *testing.T) {
				workbench(t)
				makes(t, "liners.svg", "sheet", l.flag, "0", "-o", "liners.svg")
			})
		}
	}
}

func TestSizesRefused(t *testing.T) {
	var all []refusal
	for _, w := range []string{
		" ", "x", "114", "114x", "x162", "0x114", "162x0", "-162x114", "162x-114", "NaNx114", "162xInf", "1e99x114", "162xtwelve",
		"100000x114", "162x100000mm", "162x114x3", "10x10", "3000x3000", "162 by 114", "162x114 parsecs",
	} {
		all = append(all,
			no("--pocket", "sheet", "--flap-depth", "60", "--pocket", w),
			no("--pocket", "fit", "--flap-depth", "60", "--pocket", w),
			no("--paper", "sheet", "--paper", w),
			no("--paper", "fit", "--paper", w))
	}
	checkAccepted(t, all)
}

// TestMeasuresThatCannotGoTogether holds lengths that are fine alone.
func TestMeasuresThatCannotGoTogether(t *testing.T) {
	var all []refusal
	for _, command := range []string{"sheet", "fit"} {
		all = append(all,
			no("--flap-depth", command, "--flap-depth", "115"),
			no("--flap-depth", command, "--pocket", "160x60", "--flap-depth", "61"),
			no("--flap-depth", command, "--flap-depth", "4.9"),
			no("--flap-depth", command, "--flap-depth", "6", "--gum", "0"),
			no("--flap-depth", command, "--pocket", "160x115"),
			no("--gum", command, "--gum", "64"),
			no("--gum", command, "--gum", "61"),
			no("--gum", command, "--gum", "101"),
			no("--gum-clearance", command, "--gum-clearance", "51"),
			no("--gum-clearance", command, "--gum", "0", "--gum-clearance", "2"),
			no("--border", command, "--border", "5"),
			no("--border", command, "--gum", "0", "--border", "0"),
			no("--border", command, "--gum", "0", "--border", "50.1"),
			no("--border", command, "--gum", "0", "--border", "-5"),
			no("--border", command, "--gum", "0", "--border", "twelve"),
			no("--shoulder", command, "--shoulder", "64"),
			no("--shoulder", command, "--shoulder", "70"),
			no("--shoulder", command, "--flap", "square", "--shoulder", "5"),
			no("--shoulder", command, "--flap", "square", "--shoulder", "0"),
			no("--tip-radius", command, "--tip-radius", "100"),
			no("--tip-radius", command, "--tip-radius", "700"),
			no("--tip-radius", command, "--flap", "square", "--tip-radius", "60"),
			no("--taper", command, "--taper", "80"),
			no("--base-gap", command, "--base-gap", "80"),
			no("--side-gap", command, "--side-gap", "41"),
			no("--side-gap", command, "--side-gap", "51"),
			no("--side-gap", command, "--pocket", "40x60", "--flap-depth", "30", "--side-gap", "11"),
			no("--pocket-depth", command, "--pocket-depth", "115"),
			no("--pocket-depth", command, "--pocket-depth", "9.9"),
			no("--corner-radius", command, "--corner-radius", "60"),
			no("--corner-radius", command, "--corner-radius", "101"),
			no("--flap-corner-radius", command, "--flap-corner-radius", "60"),
			no("--flap-corner-radius", command, "--shoulder", "0", "--flap-corner-radius", "3"),
			no("--flap-corner-radius", command, "--flap", "square", "--tip-radius", "6", "--flap-corner-radius", "6"),
			no("--tip-radius", command, "--flap", "rounded", "--tip-radius", "6"),
			no("--tip-radius", command, "--flap", "contour", "--tip-radius", "300"),
			no("--shoulder", command, "--flap", "contour", "--shoulder", "90"),
			no("--flap-depth", command, "--flap", "rounded", "--flap-depth", "115"),
			no("--paper", command, "--paper", "100x100"),
			no("--paper", command, "--paper", "50x1300"),
			no("--paper", command, "--paper", "49x300"),
			no("--paper", command, "--paper", "1301x300"),
			no("--paper", command, "--envelope", "c5", "--paper", "6in x 9in"),
			no("--printer-margin", command, "--printer-margin", "96"),
			no("--printer-margin", command, "--printer-margin", "101"),
			no("--bleed", command, "--bleed", "20.1"),
			no("--gap", command, "--gap", "100.1"),
			no("--pocket", command, "--pocket", "160x115", "--flap-depth", "70", "--envelope", "c6"),
			no("--per-sheet", command, "--envelope", "c5", "--per-sheet", "2"),
			no("--per-sheet", command, "--envelope", "c6", "--per-sheet", "9"),
			no("--per-sheet", command, "--envelope", "c6", "--paper", "letter", "--layout", "straight", "--per-sheet", "3"),
			no("--hidden-foot", command, "--hidden-foot", "30.1"),
			no("--hidden-foot", command, "--hidden-foot", "-1"),
		)
	}
	checkAccepted(t, all)
}
