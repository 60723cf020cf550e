package main

import (
	"os"
	"strings"
	"testing"
)

// commands that describe an envelope, and what each needs beside it.
var describing = [][]string{{"sheet"}, {"fit"}, {"look", "--explain"}}

// each puts words behind every command that describes an envelope.
func each(naming string, words ...string) (all []refusal) {
	for _, command := range describing {
		all = append(all, no(naming, append(append([]string{}, command...), words...)...))
	}
	return all
}

// TestWordsOfAnotherEnvelopeRefused gives words that are fine alone and belong
// to another way of finding an envelope: an ignored one would cost a sheet.
func TestWordsOfAnotherEnvelopeRefused(t *testing.T) {
	var all []refusal
	for naming, lists := range map[string][]string{
		"--pocket":          {"--envelope c6 --pocket 160x115 --flap-depth 60"},
		"--handmade":        {"--handmade two-panel --envelope c6", "--handmade three-panel --card a6", "--handmade four --card a6"},
		"--from":            {"--from a4", "--from a4 --envelope c6", "--from a4 --card a6", "--from a4 --pocket 160x115 --flap-depth 60"},
		"--overlap":         {"--overlap 8", "--overlap 8 --envelope c6", "--overlap twelve", "--overlap 8 --card a6"},
		"--straight-bottom": {"--straight-bottom", "--straight-bottom --card a6", "--straight-bottom --handmade two-panel --card a6"},
		"--room":            {"--room 5", "--room 5 --envelope c6", "--room 5 --handmade two-panel --pocket 160x115"},
		"--card": {"--handmade two-panel", "--handmade four-corner", "--card a5 --envelope c6", "--card a6 --pocket 150x104 --flap-depth 60", "--card 999x999",
			"--room 50 --card a6 --envelope c6", "--room 40 --card a6 --pocket 160x115 --flap-depth 60", "--handmade two-panel --card 20x20"},
		"--flap-side":          {"--flap-side short --pocket 160x115 --flap-depth 60", "--flap-side short --handmade two-panel --card a6"},
		"--flap-depth":         {"--flap-depth 50 --handmade four-corner --card a6", "--flap-depth 24 --handmade two-panel --card a6", "--flap-depth 200 --handmade two-panel --card a6", "--profile flap.csv --flap-depth 60"},
		"--flap":               {"--flap square --handmade two-panel --card a6", "--profile flap.csv --flap pointed"},
		"--shoulder":           {"--shoulder 3 --handmade two-panel --card a6", "--profile flap.csv --shoulder 3"},
		"--taper":              {"--taper 3 --handmade two-panel --card a6", "--profile flap.csv --taper 3"},
		"--base-gap":           {"--base-gap 3 --handmade four-corner --card a6", "--profile flap.csv --base-gap 3"},
		"--tip-radius":         {"--tip-radius 3 --handmade four-corner --card a6", "--profile flap.csv --tip-radius 3"},
		"--flap-corner-radius": {"--flap-corner-radius 3 --handmade four-corner --card a6", "--profile flap.csv --flap-corner-radius 3"},
		"--profile":            {"--profile flap.csv --handmade two-panel --card a6"},
	} {
		for _, words := range lists {
			all = append(all, each(naming, strings.Fields(words)...)...)
		}
	}
	for _, r := range all {
		t.Run(line(r.args), func(t *testing.T) {
			workbench(t)
			if err := os.WriteFile("flap.csv", []byte("0,5\n80,60\n160,5\n"), 0o666); err != nil {
				t.Fatal(err)
			}
			if a := r.check(t); a.status == wrong && !helps.MatchString(a.stderr) {
				t.Errorf("%s: %q does not say what would be accepted", line(r.args), a.stderr)
			}
		})
	}
}

// TestRoomsRefused gives room beside a card that is none.
func TestRoomsRefused(t *testing.T) {
	var all []refusal
	for _, w := range append([]string{"100.1", "101x5", "5x101", "0x5", "5x", "x5", "5x5x5", "5,5", "5 5", "-5x5", "5xNaN"}, noLength...) {
		all = append(all, no("--room", "sizes", "--fits", "a6", "--room", w), no("--room", "fold", "--handmade", "two-panel", "--card", "a6", "--room", w))
		all = append(all, each("--room", "--card", "a6", "--room", w)...)
	}
	all = append(all, no("--room", "sizes", "--room", "5"))
	for _, w := range []string{" ", "a66", "c6", "148", "148x", "0x105", "19.9x100", "1001x100", "148x105 parsecs", "12\n13"} {
		all = append(all, no("--fits", "sizes", "--fits", w), no("--card", "fold", "--handmade", "two-panel", "--card", w))
	}
	checkAccepted(t, all)
}

// TestFoldedByHandRefused gives sheets, overlaps and pockets that make no
// envelope.
func TestFoldedByHandRefused(t *testing.T) {
	var all []refusal
	for _, construction := range []string{"two-panel", "four-corner"} {
		for naming, lists := range map[string][]string{
			"--from": {"--card a6 --from a7", "--card a6 --from 100x100", "--card a6 --from 49x300", "--card a6 --from 2000x2000", "--card a6 --from 0x0",
				"--card a6 --from sheet", "--card a6 --from 210", "--card a6 --from 6x6in", "--card 900x900", "--pocket 600x600 --from a3"},
			"--overlap": {"--card a6 --overlap 5.9", "--card a6 --overlap 0", "--card a6 --overlap 40.1", "--card a6 --overlap -8", "--card a6 --overlap twelve",
				"--card a6 --overlap NaN", "--card a6 --overlap 1e1"},
			"--pocket":         {"--pocket 39x115", "--pocket 160x39", "--pocket 160", "--pocket 0x0", "--pocket -160x115", "--pocket 1301x200"},
			"--card":           {"--card a6 --pocket 147x104", "--from a4"},
			"--paper":          {"--card a6 --paper a66", "--card a6 --paper 49x49", "--card a6 --paper 1301x100"},
			"--printer-margin": {"--card a6 --printer-margin 100.1", "--card a6 --printer-margin -1", "--card a6 --printer-margin twelve"},
		} {
			for _, words := range lists {
				all = append(all, no(naming, append([]string{"fold", "--handmade", construction}, strings.Fields(words)...)...))
			}
		}
	}
	all = append(all,
		no("--flap-depth", "fold", "--handmade", "two-panel", "--card", "a6", "--flap-depth", "24.9"),
		no("--flap-depth", "fold", "--handmade", "two-panel", "--card", "a6", "--flap-depth", "115.1"),
		no("--flap-depth", "fold", "--handmade", "two-panel", "--card", "a6", "--from", "a4", "--flap-depth", "100"),
		no("--flap-depth", "fold", "--handmade", "two-panel", "--card", "a6", "--flap-depth", "twelve"),
		no("--handmade", "fold", "--card", "a6"),
		no("--handmade", "fold", "--card", "a6", "--handmade", "envelope"),
		no("--output", "fold", "--handmade", "two-panel", "--card", "a6", "-o", "fold.docx"),
		no("--output", "fold", "--handmade", "two-panel", "--card", "a6", "-o", ".png"),
		no("--dpi", "fold", "--handmade", "two-panel", "--card", "a6", "--dpi", "71", "-o", "fold.png"),
	)
	checkAccepted(t, all)
}

// TestProfilesRefused traces flaps that are none; the line names the file's line
// where there is one.
func TestProfilesRefused(t *testing.T) {
	for content, says := range map[string]string{
		"":                                  "0 points",
		"x,height\n":                        "0 points",
		"0,5\n160,5\n":                      "2 points",
		"0,5\n80,sixty\n160,5\n":            "line 2",
		"0,5\n80\n160,5\n":                  "line 2",
		"0,5\n80,60,1\n160,5\n":             "line 2",
		"0,5\n80,-60\n160,5\n":              "line 2",
		"0,5\n80,NaN\n160,5\n":              "line 2",
		"0,5\n80,1e3\n160,5\n":              "line 2",
		"0,5\n80,6000\n160,5\n":             "line 2",
		"0,5\n\n# middle\n80;60;1\n160,5\n": "line 4",
		"0,5\n80,60\n70,61\n160,5\n":        "line 3",
		"0,5\n80,60\n190,5\n":               "past the pocket",
		"0,5\n80,60\n160,5\nthe end\n":      "line 4",
		"0,0\n80,0\n160,0\n":                "",
		strings.Repeat("0,5\n", 5001):       "too many points",
		strings.Repeat("9", 100000):         "without an end",
		"\x89PNG\r\n\x1a\n\x00\x00":         "",
	} {
		name := strings.ReplaceAll(content[:min(len(content), 20)], "\n", "|")
		t.Run(name, func(t *testing.T) {
			workbench(t)
			if err := os.WriteFile("flap.csv", []byte(content), 0o666); err != nil {
				t.Fatal(err)
			}
			for _, command := range describing {
				r := no("--profile", append(append([]string{}, command...), "--pocket", "160x115", "--profile", "flap.csv")...)
				if a := r.check(t); !strings.Contains(a.stderr, says) || a.status == wrong && !helps.MatchString(a.stderr) {
					t.Errorf("%s: %q does not say %q and what would be accepted", line(r.args), a.stderr, says)
				}
			}
		})
	}
	workbench(t)
	if err := os.Mkdir("folder.csv", 0o777); err != nil {
		t.Fatal(err)
	}
	for _, file := range []string{"missing.csv", "folder.csv", "missing/flap.csv", " "} {
		no("--profile", "fit", "--profile", file).check(t)
	}
}
