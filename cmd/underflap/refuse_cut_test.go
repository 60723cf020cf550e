package main

import (
	"os"
	"testing"
)

// TestRegistrationRefused asks for marks that cannot be.
func TestRegistrationRefused(t *testing.T) {
	checkAccepted(t, []refusal{
		no("--registration", "sheet", "--registration", ""),
		no("--registration", "sheet", "--registration", "left"),
		no("--registration", "sheet", "--registration", "top-left,"),
		no("--registration", "sheet", "--registration", "top-left;top-right"),
		no("--registration", "fit", "--registration", "4"),
		no("--registration-inset", "sheet", "--registration-inset", "12"),
		no("--registration-arm", "sheet", "--registration-arm", "12", "--registration", "none"),
		no("--registration-line", "fit", "--registration-line", "1"),
		no("--registration-inset", "sheet", "--registration", "all", "--registration-inset", "4"),
		no("--registration-inset", "sheet", "--registration", "all", "--registration-inset", "0"),
		no("--registration-inset", "sheet", "--registration", "all", "--registration-inset", "-3"),
		no("--registration-inset", "sheet", "--registration", "all", "--registration-inset", "1 mile"),
		no("--registration-inset", "sheet", "--registration", "all", "--registration-inset", "101"),
		no("--registration-inset", "sheet", "--registration", "all", "--registration-inset", "70", "--paper", "140x200"),
		no("--registration-inset", "sheet", "--registration", "all", "--registration-inset", "100", "--registration-arm", "5"),
		no("--registration-inset", "sheet", "--registration", "all", "--printer-margin", "15", "--registration-inset", "15"),
		no("--registration-arm", "sheet", "--registration", "all", "--registration-arm", "4.9"),
		no("--registration-arm", "sheet", "--registration", "all", "--registration-arm", "60"),
		no("--registration-arm", "sheet", "--registration", "all", "--registration-arm", "50", "--paper", "100x200"),
		no("--registration-line", "sheet", "--registration", "all", "--registration-line", "0"),
		no("--registration-line", "sheet", "--registration", "all", "--registration-line", "4"),
		no("--hidden-foot", "sheet", "--registration", "all", "--hidden-foot", "3"),
		no("--paper", "sheet", "--registration", "all", "--paper", "165x180"),
	})
}

// TestCutFileRefused names files that cannot be written.
func TestCutFileRefused(t *testing.T) {
	workbench(t)
	mustDraw(t, "png", "art.png")
	for name, text := range map[string]string{"flap.csv": "0,0\n81,60\n162,0\n", "fair.toml": "pattern = 'dots'\n", "art.svg": `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><circle cx="4" cy="4" r="3"/></svg>`, "liners.svg": "x"} {
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	for _, folder := range []string{"attic.dxf", "attic"} {
		if err := os.Mkdir(folder, 0o777); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Link("liners.svg", "twin.svg"); err != nil {
		t.Fatal(err)
	}
	for _, r := range []refusal{
		no("--cut-file", "sheet", "--cut-file", ""),
		no("--cut-file", "sheet", "--cut-file", "liners"),
		no("--cut-file", "sheet", "--cut-file", "liners.pdf"),
		no("--cut-file", "sheet", "--cut-file", "liners.dwg"),
		no("--cut-file", "sheet", "--cut-file", ".dxf"),
		no("--cut-file", "sheet", "--cut-file", "attic/.svg"),
		no("--cut-file", "sheet", "--cut-file", "attic.dxf"),
		no("--cut-file", "sheet", "--cut-file", "gone/liners.dxf"),
		no("--cut-file", "sheet", "--stamp", "art.svg", "--cut-file", "art.svg"),
		no("--cut-file", "sheet", "--stamp", "art.svg", "--cut-file", "./attic/../art.svg"),
		no("--cut-file", "sheet", "-o", "new.svg", "--cut-file", "new.svg"),
		no("--cut-file", "sheet", "-o", "new.svg", "--cut-file", "attic/../new.svg"),
		no("--cut-file", "sheet", "-o", "liners.svg", "--cut-file", "twin.svg"),
		no("--cut-file", "fit", "--stamp", "art.svg", "--cut-file", "art.svg"),
		no("--cut-file", "fit", "--cut-file", "liners.png"),
		no("--cut-file", "run", "fair.toml", "--cut-file", "fair.toml"),
		no("--cut-file", "run", "fair.toml", "--cut-file", "fair.png"),
		no("--cut-file", "run", "fair.toml", "-o", "liners.svg", "--cut-file", "liners.svg"),
		no("--cut-file", "look", "--cut-file", "liners.dxf"),
		no("--cut-file", "swatch", "--cut-file", "liners.dxf"),
		no("--quiet", "sheet", "--quiet=perhaps"),
	} {
		r.check(t)
	}
}

// TestJobMarksRefused reads marks in a job file.
func TestJobMarksRefused(t *testing.T) {
	for text, naming := range map[string]string{
		"registration = 'left'":                           `job.toml, line 1, column 1: registration: "left"`,
		"pattern = 'dots'\nregistration-arm = 20":         `job.toml, line 2, column 1: registration-arm: "20"`,
		"registration = 'all'\nregistration-inset = 2":    `job.toml, line 2, column 1: registration-inset: "2"`,
		"registration = 'all'\nregistration-line = 'fat'": `job.toml, line 2, column 1: registration-line: "fat"`,
		"registration = 'all'\nhidden-foot = 4":           `job.toml, line 2, column 1: hidden-foot: "4"`,
		"cut-file = 'liners.dxf'":                         `job.toml, line 1, column 1: unknown word "cut-file"`,
	} {
		t.Run(naming, func(t *testing.T) {
			workbench(t)
			if err := os.WriteFile("job.toml", []byte(text), 0o666); err != nil {
				t.Fatal(err)
			}
			no(naming, "run", "job.toml").check(t)
		})
	}
}
