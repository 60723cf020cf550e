package main

import (
	"os"
	"strings"
	"testing"
)

// TestOccasionsRefused runs files of several liners that cannot be made: the line
// names the file, and where in it.
func TestOccasionsRefused(t *testing.T) {
	for text, naming := range map[string]string{
		"titel = 'x'\n[[liner]]":                                                  `job.toml, line 1, column 1: unknown word "titel"`,
		"[[liner]]\n[[liner]]\nenvelpoe = 'c6'":                                   `job.toml, line 3, column 1: unknown word "envelpoe"`,
		"[[liner]]\ntitle = 'x'":                                                  `job.toml, line 2, column 1: unknown word "title"`,
		"[[liner]]\nenvelope = 'c66'":                                             `job.toml, line 2, column 1: envelope: "c66"`,
		"side-gap = 400\n[[liner]]\n":                                             `job.toml, line 1, column 1: side-gap: "400"`,
		"side-gap = 4\n[[liner]]\nname = 'a'\n[[liner]]\n  side-gap = 99":         `job.toml, line 5, column 3: side-gap: "99"`,
		"[[liner]]\n[liner.set]\nsize = 'wide'":                                   `job.toml, line 3, column 1: set size: "wide"`,
		"[[liner]]\n[[liner]]\n[liner.set]\nbogus = 1":                            `job.toml, line 4, column 1: set bogus: "1"`,
		"[set]\nrings = 3\n[[liner]]\npattern = 'dots'\n[[liner]]":                `job.toml, line 2, column 1: set rings: "3"`,
		"[[liner]]\nname = 'a'\n[[liner]]\nname = 'A'":                            `job.toml, line 4, column 1: name: "A"`,
		"[[liner]]\nname = 'a,b'":                                                 `job.toml, line 2, column 1: name: "a,b"`,
		"[[liner]]\nname = ''":                                                    `job.toml, line 2, column 1: name: accepted`,
		"[[liner]]\nname = \"a\\nb\"":                                             `job.toml, line 2, column 1: name: accepted`,
		"vary = 'yes'\n[[liner]]":                                                 `job.toml, line 1, column 1: vary`,
		"share = 1\n[[liner]]":                                                    `job.toml, line 1, column 1: share`,
		"[[liner]]\napart = 'no'":                                                 `job.toml, line 2, column 1: apart`,
		"title = ''\n[[liner]]":                                                   `job.toml, line 1, column 1: title`,
		"title = '" + strings.Repeat("x", 81) + "'\n[[liner]]":                    `job.toml, line 1, column 1: title`,
		"liner = 'dots'":                                                          `job.toml, line 1, column 1: liner`,
		"liner = []":                                                              `job.toml, line 1, column 1: liner`,
		strings.Repeat("[[liner]]\n", 101):                                        `job.toml, line 101, column 3: 101 liners; accepted: up to 100`,
		"[[liner]]\ncount = 1001":                                                 `job.toml, line 2, column 1: count: "1001"`,
		"[[liner]]\ncount = 0":                                                    `job.toml, line 2, column 1: count: "0"`,
		"[[liner]]\npattern = 'stamps'":                                           `job.toml, line 1, column 3: liner 1: stamp`,
		"[[liner]]\nstamp = 'gone.png'":                                           `job.toml, line 2, column 1: stamp: "gone.png"`,
		"[[liner]]\nstamp = 'a.png'\n[files]\n'a.png' = 'a'":                      `job.toml, line 4, column 1: file "a.png"`,
		"[[liner]]\nenvelope = 'c6'\npocket = '160x115'":                          `job.toml, line 3, column 1: pocket`,
		"[[liner]]\nper-sheet = 99":                                               `job.toml, line 2, column 1: per-sheet`,
		"[[liner]]\nblank = true\ngrey = true":                                    `job.toml, line 3, column 1: grey`,
		"[[liner]]\nvary = true\nscale = 0.05\nset.size = 0.3\nset.spacing = 0.5": `job.toml, line 3, column 1: scale`,
		"[[liner]]\nprinter = 'kitchen'":                                          `job.toml, line 2, column 1: printer`,
		"per-sheet = 1\ncount = 1000\n" + strings.Repeat("[[liner]]\n", 6):        `job.toml, line 1, column 1: 6000 sheets in all; accepted: up to 5000`,
	} {
		t.Run(text[:min(len(text), 40)], func(t *testing.T) {
			workbench(t)
			if err := os.WriteFile("job.toml", []byte(text), 0o666); err != nil {
				t.Fatal(err)
			}
			no(naming, "run", "job.toml").check(t)
			no(naming, "run", "job.toml", "--check").check(t)
			no(naming, "run", "job.toml", "-o", "supper/").check(t)
		})
	}
}

func TestRunOfAnOccasionRefused(t *testing.T) {
	workbench(t)
	for name, text := range map[string]string{"fair.toml": "[[liner]]\nname = 'bells'\n[[liner]]\nname = 'tags'\npattern = 'shop/index.pdf'\n", "one.toml": "pattern = 'dots'",
		"supper.toml": "[[liner]]\nname = 'bells'", "supper.pdf/index.pdf": "mine", "plain": "a file"} {
		if strings.Contains(name, "/") {
			if err := os.MkdirAll("supper.pdf", 0o777); err != nil {
				t.Fatal(err)
			}
		}
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	for _, dir := range []string{"shop", "sums"} {
		if err := os.MkdirAll(dir, 0o777); err != nil {
			t.Fatal(err)
		}
	}
	for name, text := range map[string]string{"shop/index.pdf": "width = 4\nheight = 4\n[[shape]]\ncircle = [0, 0, 1]\n", "sums/SHA256SUMS": "0123  holiday.jpg\n"} {
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	for _, r := range []refusal{
		no("--only", "run", "supper.toml", "--only", "belles"),
		no("--only", "run", "supper.toml", "--only", "bells,tags"),
		no("--only", "run", "supper.toml", "--only", ""),
		no("--output", "run", "supper.toml", "--part", "1/2"),
		no("--part", "run", "supper.toml", "--part", "1/2", "-o", "fair.pdf"),
		no("--part", "run", "supper.toml", "-o", "fair/", "--part", "0/2"),
		no("--part", "run", "supper.toml", "-o", "fair/", "--part", "3/2"),
		no("--part", "run", "supper.toml", "-o", "fair/", "--part", "half"),
		no("--part", "run", "supper.toml", "-o", "fair/", "--part", "1/1001"),
		no("--part", "run", "one.toml", "--part", "1/2"),
		no("--dpi", "run", "supper.toml", "-o", "fair/", "--dpi", "300"),
		no("--paper-weight", "run", "supper.toml", "-o", "fair/", "--paper-weight", "heavy"),
		no("--paper-weight", "run", "one.toml", "--paper-weight", "90gsm"),
		no("--cut-file", "run", "supper.toml", "-o", "fair/", "--cut-file", "fair.dxf"),
		no("--cut-file", "run", "supper.toml", "-o", "fair/", "--cut-file", "png"),
		no("--cut-file", "run", "supper.toml", "-o", "fair/", "--cut-file", " "),
		no("--cut-file", "run", "supper.toml", "-o", "fair.pdf", "--cut-file", "dxf"),
		no("--cut-file", "run", "supper.toml", "-o", "fair.pdf", "--cut-file", "svg", "--check"),
		no("--cut-file", "run", "one.toml", "--cut-file", "dxf"),
		no("--output", "run", "supper.toml", "-o", "fair.png"),
		no("--output", "run", "supper.toml", "-o", "fair.svg"),
		no("--output", "run", "supper.toml", "-o", ".pdf"),
		no("--output", "run", "supper.toml", "-o", ""),
		no("--output", "run", "supper.toml", "-o", "plain"),
		no("--output", "run", "supper.toml", "-o", "plain/"),
		no("--output", "run", "supper.toml"), // supper.pdf is a folder of other things
		no("--output", "run", "supper.toml", "-o", "sums"),
		no("--output", "run", "supper.toml", "-o", "sums", "--check"),
		no("--output", "run", "fair.toml", "-o", "shop"),
		no("--vary", "run", "supper.toml", "--vary=often"),
		no("fair.toml", "run", "supper.toml", "fair.toml"),
		fails("missing/fair", "run", "supper.toml", "-o", "missing/fair/"),
		fails("missing/fair.pdf", "run", "supper.toml", "-o", "missing/fair.pdf"),
	} {
		t.Run(line(r.args), func(t *testing.T) { r.check(t) })
	}
}
