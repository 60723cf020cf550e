package main

import (
	"testing"

	"github.com/spf13/pflag"
)

// choices are the flags that take one of a list.
var choices = []struct {
	flag  string
	words []string
}{
	{"--envelope", []string{" ", "c66", "114x162", "NaN", "c6;dl", "../c6"}},
	{"--flap", []string{" ", "round", "point", "0", "pointed,square"}},
	{"--paper", []string{" ", "a44", "foolscap", "A-", "a4 landscape"}},
	{"--layout", []string{" ", "crooked", "0"}},
	{"--pattern", []string{" ", "tartan", "dot", "dots,stripes", "0"}},
	{"--palette", []string{" ", "beige", "#c0572f", "orchard", "../orchard-table.toml"}},
	{"--repeat", []string{" ", "random", "bricks", "0"}},
	{"--notes", []string{" ", "many", "0", "none,short", "f"}},
	{"--flap-side", []string{" ", "top", "0", "long,short", "left"}},
	{"--card", []string{" ", "a66", "c6", "card", "148", "148x", "0x105", "19.9x100", "1001x100", "-148x105", "148x105x2", "148 by 105", "NaNxNaN", "148x105 parsecs"}},
}

func TestChoicesRefused(t *testing.T) {
	var all []refusal
	for _, c := range choices {
		for _, w := range c.words {
			all = append(all, no(c.flag, "sheet", c.flag, w))
			if newFit().Flags().Lookup(c.flag[2:]) != nil {
				all = append(all, no(c.flag, "fit", c.flag, w))
			}
		}
	}
	checkAccepted(t, all)
}

func TestNumbersRefused(t *testing.T) {
	noNumber := []string{" ", "NaN", "Inf", "-Inf", "1e99", "twelve", "1,5", "100000mm", "5 %", "12\n13"}
	more := map[string][]string{
		"--dpi":       {"0", "-1", "71", "71.9", "1201", "abc", "300dpi"},
		"--count":     {"0", "-1", "1.5", "9999999", "1001", "0x10", "99999999999999999999"},
		"--per-sheet": {"0", "-1", "121", "1.5", "both", "mostly"},
		"--scale":     {"0", "-1", "0.0001", "0.049", "50.1", "1:2"},
		"--turn":      {"361", "-361", "45°", "north"},
		"--seed":      {"-1", "1.5", "9999999999", "0x10"},
	}
	var all []refusal
	for flag, words := range more {
		for _, w := range append(words, noNumber...) {
			all = append(all, no(flag, "sheet", "-o", "liners.png", flag, w))
			if flag == "--count" || flag == "--per-sheet" {
				all = append(all, no(flag, "fit", flag, w))
			}
		}
	}
	checkAccepted(t, all)
}

func TestSettingsRefused(t *testing.T) {
	checkAccepted(t, []refusal{
		no("--set", "sheet", "--set", "nonsense"),
		no("--set", "sheet", "--set", ""),
		no("--set", "sheet", "--set", "=3"),
		no("--set", "sheet", "--set", "bogus=3"),
		no("--set size", "sheet", "--set", "size=0.001"),
		no("--set size", "sheet", "--set", "size="),
		no("--set size", "sheet", "--set", "size=0"),
		no("--set size", "sheet", "--set", "size=-4"),
		no("--set size", "sheet", "--set", "size=NaN"),
		no("--set size", "sheet", "--set", "size=1e99"),
		no("--set size", "sheet", "--set", "size=twelve"),
		no("--set size", "sheet", "--set", "size=100000mm"),
		no("--set size", "sheet", "--set", "size=4=5"),
		no("--set spacing", "sheet", "--set", "spacing=0.1"),
		no("--set inks", "sheet", "--set", "inks="),
		no("--set inks", "sheet", "--set", "inks=1,two"),
		no("--set inks", "sheet", "--set", "inks=1,,2"),
		no("--set inks", "sheet", "--set", "inks=13"),
		no("--set inks", "sheet", "--set", "inks=-1"),
		no("--set repeat", "sheet", "--set", "repeat=random"),
		no("--set rise", "sheet", "--pattern", "scallops", "--set", "rise=13"),
		no("--set rings", "sheet", "--pattern", "scallops", "--set", "rings=0"),
		no("--set rings", "sheet", "--pattern", "scallops", "--set", "rings=1.5"),
		no("--set bands", "sheet", "--pattern", "stripes", "--set", "bands="),
		no("--set bands", "sheet", "--pattern", "stripes", "--set", "bands=6"),
		no("--set bands", "sheet", "--pattern", "stripes", "--set", "bands=6:1,0:2"),
		no("--set bands", "sheet", "--pattern", "stripes", "--set", "bands=6:1,2:99"),
		no("--set", "sheet", "--pattern", "stripes", "--set", "size=4"),
		no("--repeat", "sheet", "--pattern", "stripes", "--repeat", "brick"),
		no("--repeat", "sheet", "--pattern", "scallops", "--repeat", "straight"),
		no("--scale", "sheet", "--scale", "0.05"),
		no("--scale", "sheet", "--scale", "0.06", "-o", "liners.png", "--dpi", "1200"),
		no("--scale", "sheet", "--pattern", "stripes", "--scale", "0.05", "--set", "bands=0.2:1,0.2:2"),
	})
}

// TestCommandLineWrong holds what the words themselves have no part in.
func TestCommandLineWrong(t *testing.T) {
	checkAll(t, []refusal{
		no("frobnicate", "frobnicate"),
		no("shet", "shet"),
		no("--bogus", "--bogus"),
		no("--bogus", "sheet", "--bogus"),
		no("--bogus", "sheet", "--bogus=4"),
		no("flag -z", "sheet", "-z"),
		no("--dpi", "fit", "--dpi", "300"),
		no("--json", "sheet", "--json"),
		no("--notes", "fit", "--notes", "short"),
		no("harvest", "sheet", "harvest"),
		no("harvest", "fit", "harvest"),
		no("harvest", "sizes", "harvest"),
		no("harvest", "patterns", "harvest"),
		no("harvest", "palettes", "harvest"),
		no("harvest", "look", "harvest"),
		no("harvest", "fold", "harvest"),
		no("harvest", "ruler", "harvest"),
		no("--blank", "fit", "--blank"),
		no("--paper-weight", "sheet", "--paper-weight", "80"),
		no("--envelope", "fold", "--envelope", "c6"),
		no("--envelope", "ruler", "--envelope", "c6"),
		no("--card", "sizes", "--card", "a6"),
		no("--printer", "fit", "--printer", "kitchen"),
		no("--straight-bottom", "sheet", "--straight-bottom=perhaps"),
		no("--dpi", "sheet", "--dpi"),
		no("--count", "sheet", "--count"),
		no("-o", "sheet", "-o"),
		no("--json", "fit", "--json=perhaps"),
		no("nosuch", "help", "nosuch"),
		no("nosuch", "completion", "nosuch"),
	})
}

// TestEmptyWordsRefused gives every flag that takes a word an empty one, as a
// script does whose variable is not set. A default would hide the slip and cost
// a sheet of good paper.
func TestEmptyWordsRefused(t *testing.T) {
	var all []refusal
	least := map[string]int{"sheet": 40, "fit": 30, "look": 20, "fold": 14, "ruler": 6, "sizes": 2}
	for _, command := range newRoot().Commands() {
		asked := 0
		command.Flags().VisitAll(func(f *pflag.Flag) {
			if f.Value.Type() == "bool" {
				return
			}
			asked++
			args := []string{command.Name(), "--" + f.Name, ""}
			switch command.Name() {
			case "look":
				args = append(args, "--explain")
			case "run":
				args = append(args, "invitations.toml")
			}
			all = append(all, no("--"+f.Name, args...))
		})
		if asked < least[command.Name()] {
			t.Errorf("%s has only %d flags that take a word", command.Name(), asked)
		}
		delete(least, command.Name())
	}
	if len(least) > 0 {
		t.Errorf("no commands %v", least)
	}
	checkAccepted(t, all)
}
