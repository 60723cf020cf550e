package main

import (
	"os"
	"strings"
	"testing"

	"underflap/liner/request"
)

// TestJobsRefused runs job files that cannot be made: the line names the file, and
// where in it.
func TestJobsRefused(t *testing.T) {
	for text, naming := range map[string]string{
		"pattern = 'dots":                         "job.toml, line 1, column",
		"\x89PNG\r\n\x1a\n":                       "job.toml, line 1, column",
		"patern = 'dots'":                         `job.toml, line 1, column 1: unknown word "patern"`,
		"pattern = 'dots'\n\n  side-gap = 400":    `job.toml, line 3, column 3: side-gap: "400"; accepted: 0 mm to 50 mm`,
		"pattern = 'tartan'":                      `job.toml, line 1, column 1: pattern: "tartan"`,
		"[set]\nsize = 'wide'":                    `job.toml, line 2, column 1: set size: "wide"`,
		"[set]\nbogus = 1":                        `job.toml, line 2, column 1: set bogus: "1"`,
		"inks = 'navy'\nground = 'no'":            `job.toml, line 2, column 1: ground: "no"`,
		"grey = 'yes'":                            "job.toml, line 1, column 1: grey",
		"pattern = 'stamps'":                      "job.toml: stamp",
		"stamp = 'gone.png'":                      `job.toml, line 1, column 1: stamp: "gone.png"`,
		"stamp = 'a.png'\n[files]\n'a.png' = 'a'": `job.toml, line 3, column 1: file "a.png"`,
		"stamp = 'a.png'\n[files]\n'a.png' = 'data:;base64,AAAA'": `job.toml, line 1, column 1: stamp: "a.png"`,
		"palette = 'photo:gone.jpg'":                              "job.toml, line 1, column 1: palette",
		"profile = 'gone.csv'\npocket = '160x115'":                "job.toml, line 1, column 1: profile",
		"printer = 'kitchen'":                                     "job.toml, line 1, column 1: printer",
		"per-sheet = 9999":                                        "job.toml, line 1, column 1: per-sheet",
		"blank = true\ngrey = true":                               "job.toml, line 2, column 1: grey",
		"a = " + strings.Repeat("[", 30_000):                      "job.toml, line 1, column 1: far more values",
		strings.Repeat("#\n", request.MostJob/2+1):                "job.toml, line 1, column 1: longer than 32 MB",
	} {
		t.Run(text[:min(len(text), 40)], func(t *testing.T) {
			workbench(t)
			if err := os.WriteFile("job.toml", []byte(text), 0o666); err != nil {
				t.Fatal(err)
			}
			no(naming, "run", "job.toml").check(t)
		})
	}
}

func TestRunRefused(t *testing.T) {
	workbench(t)
	for name, text := range map[string]string{"fair.toml": "pattern = 'holly.toml'\nstamp = ''", "fair.pdf": "pattern = 'dots'", "holly.toml": "width = 4\nheight = 4\n[[shape]]\ncircle = [0, 0, 1]\n"} {
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.MkdirAll("attic.toml", 0o777); err != nil {
		t.Fatal(err)
	}
	mustDraw(t, "png", "art.png")
	for _, r := range []refusal{
		no("run", "run"),
		no("run", "run", ""),
		no("run", "run", "fair.toml", "summer.toml"),
		no("gone.toml", "run", "gone.toml"),
		no("attic.toml", "run", "attic.toml"),
		no("gone/fair.toml", "run", "gone/fair.toml"),
		no("--output", "run", "fair.toml", "-o", "fair.toml"),
		no("--output", "run", "fair.toml", "-o", ""),
		no("--output", "run", "fair.pdf", "-o", "fair.pdf"),
		no("--output", "run", "fair.pdf"),
		no("--dpi", "run", "fair.toml", "--dpi", "5"),
		no("--pattern", "run", "fair.toml", "--pattern", "dots"),
		fails("missing/liners.pdf", "run", "fair.toml", "-o", "missing/liners.pdf"),

		no("--save-job", "sheet", "--save-job", ""),
		no("--save-job", "sheet", "--save-job", "fair"),
		no("--save-job", "sheet", "--save-job", "fair.pdf"),
		no("--save-job", "sheet", "--save-job", ".toml"),
		no("--save-job", "sheet", "--save-job", "attic.toml"),
		no("--save-job", "sheet", "--pattern", "holly.toml", "--save-job", "holly.toml"),
		no("--save-job", "look", "--pattern", "holly.toml", "--save-job", "./holly.toml"),
		no("--save-job", "look", "--explain", "--save-job", "a7.toml"),
		no("--envelope", "sheet", "--envelope", "c99", "--save-job", "a.toml"),
		no("--stamp", "sheet", "--stamp", "gone.png", "--save-job", "a.toml"),
		no("--set", "sheet", "--set", "size=\xff", "--save-job", "a.toml"),
		no("--save-job", "sheet", "--save-job", "missing/fair.toml"),
	} {
		t.Run(strings.ReplaceAll(line(r.args), "/", "∕"), func(t *testing.T) { r.check(t) })
	}
}
