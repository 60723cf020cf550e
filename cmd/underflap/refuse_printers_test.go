package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// correcting are the commands that take a printer's corrections.
var correcting = [][]string{{"sheet"}, {"ruler"}, {"fold", "--handmade", "two-panel", "--card", "a6"}}

// TestCorrectionsRefused measures rules that no printer prints.
func TestCorrectionsRefused(t *testing.T) {
	var all []refusal
	for _, flag := range []string{"--correct-x", "--correct-y"} {
		for _, w := range []string{" ", "0", "0/100", "100/0", "0/0", "-98.7", "-100/98.7", "100/-98.7", "50", "89", "112", "1.2", "0.89", "90/100.1/2", "100/98.7mm",
			"NaN", "Inf", "NaN/NaN", "Inf/Inf", "1e99", "98,7", "98.7%", "98.7 parsecs", "twelve", "100/twelve", "/98.7", "100/", "3.5in", "4.5in", "12\n13"} {
			for _, command := range correcting {
				all = append(all, no(flag, append(append([]string{}, command...), flag, w)...))
				all = append(all, no(flag, append(append([]string{}, command...), "--printer", "kitchen", flag, w)...))
			}
		}
	}
	checkAccepted(t, all)
}

// badNames are names under which nothing is kept.
var badNames = []string{" ", ".", "..", "...", ".hidden", "../attic", "a/b", `a\b`, "/etc/passwd", "a\nb", "a\x00b", "a:b", "a*b", "a\x1b[31m", `C:\attic`, "~", "$HOME", strings.Repeat("a", 61)}

// TestNamesRefused keeps envelopes and printers under names that are no names of
// a file, or names of the size table.
func TestNamesRefused(t *testing.T) {
	var all []refusal
	for _, name := range badNames {
		all = append(all, each("--save-envelope", "--save-envelope", name)...)
		all = append(all, no("--save-envelope", "fold", "--handmade", "two-panel", "--card", "a6", "--save-envelope", name))
		for _, command := range correcting {
			all = append(all, no("--printer", append(append([]string{}, command...), "--printer", name)...))
			all = append(all, no("--printer", append(append([]string{}, command...), "--correct-x", "99", "--printer", name)...))
		}
	}
	for _, name := range []string{"c6", "C6", "C-6", "No. 10", "#10", "number10", "iso_c6_114x162mm", "155 square", "yo2"} {
		all = append(all, each("--save-envelope", "--pocket", "160x115", "--flap-depth", "70", "--save-envelope", name)...)
		all = append(all, no("--save-envelope", "fold", "--handmade", "two-panel", "--card", "a6", "--save-envelope", name))
	}
	for _, command := range correcting {
		all = append(all, no("--printer", append(append([]string{}, command...), "--printer", "nobody-told")...))
	}
	checkAccepted(t, all)
}

// TestWeightsRefused gives papers' weights that are none.
func TestWeightsRefused(t *testing.T) {
	var all []refusal
	for _, flag := range []string{"--paper-weight", "--envelope-weight", "--card-weight"} {
		for _, w := range []string{" ", "0", "-80", "19.9", "601", "20lb", "20 lb", "20#", "20lb card", "4lb bond", "160lb bond", "heavy", "80 bond", "80gsm bond", "lb bond", "bond",
			"NaN", "Inf", "1e99", "0x50", "80,5", "80 oz", "80gsm80gsm", "80\n90"} {
			all = append(all, no(flag, "fit", "--card", "a6", flag, w))
		}
	}
	all = append(all, no("--card-weight", "fit", "--card-weight", "300"), no("--card-weight", "fit", "--envelope", "c6", "--card-weight", "300"))
	checkAccepted(t, all)
}

// TestBlankTakesNoPattern gives a sheet without a pattern words about one.
func TestBlankTakesNoPattern(t *testing.T) {
	var all []refusal
	for flag, word := range map[string]string{"--pattern": "dots", "--palette": "rowan-jelly", "--set": "size=3", "--stamp": "acorn.png", "--repeat": "brick",
		"--scale": "2", "--turn": "45", "--seed": "1", "--bleed": "2"} {
		all = append(all, no(flag, "sheet", "--blank", flag, word))
	}
	checkAccepted(t, all)
}

// TestRulersRefused asks for rulers on papers that have no room for them.
func TestRulersRefused(t *testing.T) {
	var all []refusal
	for naming, lists := range map[string][]string{
		"--paper":          {"--paper 50x50", "--paper 120x160", "--paper 1301x200", "--paper a44", "--printer-margin 100", "--paper a5 --printer-margin 30"},
		"--printer-margin": {"--printer-margin 100.1", "--printer-margin -1", "--printer-margin twelve", "--printer-margin NaN"},
		"--dpi":            {"--dpi 71", "--dpi 1201 -o ruler.png", "--dpi NaN", "--paper 600x800 --dpi 1200 -o ruler.png"},
		"--output":         {"-o ruler", "-o ruler.docx", "-o .svg"},
	} {
		for _, words := range lists {
			all = append(all, no(naming, append([]string{"ruler"}, strings.Fields(words)...)...))
		}
	}
	checkAccepted(t, all)
}

// TestLooksRefused asks for pictures that are not drawn.
func TestLooksRefused(t *testing.T) {
	checkAccepted(t, []refusal{
		no("--output", "look", "--explain", "-o", "look.gif"),
		no("--dpi", "look", "--explain", "--dpi", "1201"),
		no("--flap-depth", "look", "--explain", "--flap-depth", "115"),
		no("--pocket-depth", "look", "--explain", "--pocket-depth", "115"),
	})
}

// TestNothingIsMadeWhereNothingCanBeKept keeps things where there is no folder
// for them, or none that can be made: the reason is said.
func TestNothingIsMadeWhereNothingCanBeKept(t *testing.T) {
	saving := map[string][][]string{
		"--save-envelope": {{"sheet"}, {"fit"}, {"look", "--explain"}, {"fold", "--handmade", "two-panel", "--card", "a6"}},
		"--save-palette":  {{"sheet", "--ground", "ivory"}, {"palettes", "hop-garden"}},
		"--printer":       {{"sheet"}, {"ruler"}, {"fold", "--handmade", "two-panel", "--card", "a6"}},
	}
	for flag, commands := range saving {
		for _, command := range commands {
			args := append(append([]string{}, command...), flag, "attic")
			if flag == "--printer" {
				args = append(args, "--correct-x", "99")
			}
			t.Run(line(args), func(t *testing.T) {
				workbench(t)
				home := os.Getenv("HOME")
				for name := range homes(home) {
					t.Setenv(name, "")
				}
				t.Run("no home", func(t *testing.T) {
					os.Setenv("HOME", "")
					before, _ := os.ReadDir(".")
					a := call(t, args...)
					after, _ := os.ReadDir(".")
					if a.status != wrong || !strings.Contains(a.stderr, flag+": \"attic\": ") || !strings.Contains(a.stderr, "accepted: with HOME") || strings.Count(a.stderr, "\n") != 1 || len(before) != len(after) {
						t.Errorf("status %d, stderr %q, %d files", a.status, a.stderr, len(after))
					}
				})
				for name, dir := range homes(home) {
					t.Setenv(name, dir)
				}
				if err := os.WriteFile(filepath.Join(home, ".config"), []byte("a file"), 0o666); err != nil {
					t.Fatal(err)
				}
				a := call(t, args...)
				if a.status != failed || !strings.Contains(a.stderr, "underflap: cannot make ") || !strings.Contains(a.stderr, "not a directory") {
					t.Errorf("status %d, stderr %q", a.status, a.stderr)
				}
			})
		}
	}
}
