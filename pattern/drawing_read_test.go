package pattern

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"underflap/pattern/draw"
)

const goodFile = "width = 20\nheight = 20\n[[shape]]\ncircle = [0, 0, 3]\n"

// Every slip names the line it is in, the key, what was given and what would be
// accepted.
func TestEverySlipOfAPatternFileNamesItsLine(t *testing.T) {
	shape := "width = 20\nheight = 20\n[[shape]]\n" // what follows is line 4
	path := shape + "path = \"M0,0 H5 V5 Z\"\n"     // line 5
	band := shape + "line = 1\n"
	for file, want := range map[string]string{
		"":                                 "line 1: width: missing; accepted: the width of one repeat",
		"width = 20\n":                     "line 1: height: missing",
		"width = 20\nheight = 20":          "line 1: shape: missing; accepted: at least one [[shape]]",
		"widht = 20\n":                     `line 1, column 1: unknown key "widht"`,
		shape + "colour = 1\n":             `line 4, column 1: unknown key "shape.colour"`,
		"# mine\nwidth = 0.5\n":            `line 2: width: "0.5"; accepted: 1 mm to 300 mm`,
		"width = 20\nheight = 301":         `line 2: height: "301"; accepted: 1 mm to 300 mm`,
		"width = nan\n":                    `line 1: width: "NaN": not a length`,
		"width = -inf\n":                   `line 1: width: "-Inf"`,
		"width = [1]\n":                    `line 1: width: "[1]": not a length`,
		"width = \"20 parsecs\"\n":         `line 1: width: "20 parsecs": unknown unit "parsecs"; accepted: a length`,
		"about = 5\n":                      "line 1, column 9: about: another kind of value belongs here",
		"about = \"a\\nb\"\n":              `line 1: about: "a\nb"; accepted: one line of up to 100 characters`,
		"repeat = \"random\"\n" + goodFile: `line 1: repeat: "random"; accepted: straight, brick, half-drop, mirror, toss`,
		"repeat = \"toss\"\n" + band + "band = [0, 0, 1, 0]": `line 1: repeat: "toss": the file has bands; accepted: straight, brick, half-drop`,
		shape:                                     "line 3: shape: 0 of path, circle and band; accepted: one of them",
		path + "circle = [0, 0, 1]\n":             "line 3: shape: 2 of path, circle and band",
		shape + "path = \"M0,0 L5\"\n":            "line 4: path: at character 8: a number belongs here, not the end",
		shape + "path = \"\"\n":                   "line 4: path: draws nothing; accepted: SVG path data such as",
		shape + "path = \"M5,5\"\n":               `line 4: path: "M5,5": draws nothing`,
		shape + "path = 5\n":                      "line 4, column 8: shape.path: another kind of value belongs here",
		shape + "path = \"M0,0z\"\n":              "line 3: shape: reaches 0 mm from the middle of the cell, which is 0,0; accepted: more than 0 and up to 80 mm",
		shape + "path = \"M0,0H200\"\n":           "line 3: shape: reaches 200 mm from the middle of the cell, which is 0,0; accepted: more than 0 and up to 80 mm; move = [x, y] brings it nearer",
		shape + "circle = [0, 0]\n":               `line 4: circle: "[0 0]"; accepted: x, y and radius, such as [0, -4, 1.5]`,
		shape + "circle = [0, 0, -1]\n":           `line 4: circle: "[0 0 -1]": a radius of -1; accepted: x, y and a radius above 0`,
		shape + "circle = [0, 0, nan]\n":          `line 4: circle: "[0 0 NaN]"; accepted: x, y and radius`,
		shape + "circle = \"big\"\n":              "line 4, column 10: shape.circle: another kind of value belongs here",
		path + "ink = 13\n":                       `line 5: ink: "13"; accepted: a whole number from 0 to 12`,
		path + "ink = 1.5\n":                      `line 5: ink: "1.5"; accepted: a whole number from 0 to 12`,
		path + "ink = true\n":                     `line 5: ink: "true"; accepted: a whole number`,
		path + "line = 0\n":                       `line 5: line: "0"; accepted: 0.05 mm to 100 mm`,
		path + "turn = 400\n":                     `line 5: turn: "400"; accepted: a number from -360 to 360`,
		path + "move = [1]\n":                     `line 5: move: "[1]"; accepted: x and y`,
		path + "around = 0\n":                     `line 5: around: "0"; accepted: a whole number from 1 to 72`,
		shape + "band = [0, 0, 20, 0]\n":          "line 4: line: missing; accepted: how wide the band is",
		band + "band = [0, 0, 20]\n":              `line 5: band: "[0 0 20]"; accepted: x and y of two points`,
		band + "band = [3, 3, 3, 3]\n":            `line 5: band: "[3 3 3 3]": does not meet itself in the cells beside; accepted: along a side`,
		band + "band = [0, 0, 20, 7]\n":           "line 5: band: \"[0 0 20 7]\": does not meet itself",
		band + "band = [0, 0, 20, 0]\nturn = 5\n": "line 6: turn: a band runs through its two points; accepted: with a path or a circle",
		"width = 20\nheight = 20\nshape = [{circle = [0, 0, 1]}, {circle = [0, 0, 0]}]":                                                                          "line 3: circle: ",
		"width = 20\nheight = 20\n[shape]\nink = 99\ncircle = [0, 0, 1]":                                                                                         `line 4: ink: "99"`,
		"width = 20\nheight = 20\n" + strings.Repeat("[[shape]]\ncircle = [0,0,1]\n", 201):                                                                       "line 403: shape: 201 of them; accepted: up to 200",
		shape + "path = \"M0,0 " + strings.Repeat("h1h-1", 200) + "\"\naround = 72\n":                                                                            `line 5: around: "72": more than 20000 lines and curves; accepted: a simpler drawing`,
		shape + "path = \"M0,0 " + strings.Repeat("h1h-1", 9990) + "\"\n[[shape]]\ncircle = [0,0,1]\n[[shape]]\ncircle = [0,0,1]\n[[shape]]\ncircle = [0,0,1]\n": "line 7: shape: more than 20000 lines and curves in all",
		strings.Repeat("#", MostFile+1): "longer than 1024 kB",
		"width = 20\nwidth = 20\n":      "line 2, column 1: ",
		"width = = 20\n":                "line 1, column 9: ",
		"\xff\xfe":                      "line 1, column 1: ",
	} {
		_, err := Parse("mine", []byte(file))
		if err == nil || !strings.HasPrefix(err.Error(), want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%.90q:\n got %v\nwant %s", file, err, want)
		}
	}
	if _, err := Parse("mine", []byte(goodFile)); err != nil {
		t.Error(err)
	}
}

// A band has the smallest whole numbers of cells between its points.
func TestABandKnowsWhereItMeetsItself(t *testing.T) {
	for _, c := range []struct {
		x, y         float64
		across, down int
		ok           bool
	}{{1, 0, 1, 0, true}, {0, -3, 0, -1, true}, {0.25, 0.5, 1, 2, true}, {-0.01, 0.01, -1, 1, true}, {2, 4.0 / 3, 3, 2, true}, {12, 1, 12, 1, true}, {13, 1, 0, 0, false}, {1, math.Sqrt2, 0, 0, false}, {0, 0, 0, 0, false}, {math.NaN(), 1, 0, 0, false}} {
		across, down, ok := cellsAlong(c.x, c.y)
		if across != c.across || down != c.down || ok != c.ok {
			t.Errorf("%g, %g: %d, %d, %v", c.x, c.y, across, down, ok)
		}
	}
}

// A shape's reach is that of its curves and not of their control points; never
// less, and at most a hundredth more.
func TestReachIsThatOfTheCurve(t *testing.T) {
	for data, want := range map[string]float64{
		"M-5,0 A5,5 0 0 1 5,0 A5,5 0 0 1 -5,0Z": 5,
		"M0,0 C0,-8 0,-8 0,0":                   6,   // B(1/2) = 3/4 of the controls
		"M-3,0 Q0,9 3,0":                        4.5, // half the way to the control
		"M3,4 L0,0":                             5,
	} {
		own, err := Parse("x", []byte(fmt.Sprintf("width=20\nheight=20\n[[shape]]\npath=%q\nline=1", data)))
		if err != nil {
			t.Fatal(err)
		}
		m, err := own.New(map[string]Setting{"size": {"set size", "40"}, "line": {"set line", "3"}})
		if err != nil {
			t.Fatal(err)
		}
		got, want := m.(*Drawing).reach(), 2*want+3
		if got < want-1e-5 || got > want*1.01 {
			t.Errorf("%s: reach %.4f, want %.4f", data, got, want)
		}
	}
}

// What a file draws is counted as it is drawn: enough to be refused in time.
func TestAFileOfManyPiecesWeighsMore(t *testing.T) {
	area := draw.Rect{MaxX: 200, MaxY: 200}
	count := func(file string) float64 {
		own, err := Parse("x", []byte(file))
		if err != nil {
			t.Fatal(err)
		}
		m, err := own.New(nil)
		if err != nil {
			t.Fatal(err)
		}
		return m.Count(area)
	}
	if got := count(goodFile); math.Abs(got-125) > 1 { // 100 circles of ten verbs
		t.Errorf("%g", got)
	}
	busy := "width=20\nheight=20\n[[shape]]\npath=\"M0,0" + strings.Repeat("h1v1h-1v-1", 2000) + "\""
	if got := count(busy); got < 100_000 {
		t.Errorf("%g", got)
	}
}

func FuzzPatternFile(f *testing.F) {
	for _, own := range []string{"quatrefoil", "argyle", "ogee"} {
		data, err := files.ReadFile("files/" + own + ".toml")
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte(goodFile))
	f.Fuzz(func(t *testing.T, data []byte) {
		own, err := Parse("x", data)
		if err != nil {
			if strings.Contains(err.Error(), "\n") {
				t.Fatalf("%q", err)
			}
			return
		}
		m, err := own.New(nil)
		if err != nil {
			t.Fatal(err)
		}
		d := Design{Motif: m, Colours: blackOnWhite, Scale: 1}
		area := draw.Rect{MinX: -30, MinY: -30, MaxX: 30, MaxY: 30}
		if d.Check(area) == nil {
			d.Draw(draw.NewSurface(), area)
		}
	})
}
