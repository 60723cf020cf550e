package svgpath_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/draw/svgpath"
)

// said writes a path back, in absolute moves, lines and cubics.
func said(p draw.Path) string {
	var words []string
	p.Steps(func(v draw.Verb, points []draw.Point) {
		word := string("MLCZ"[v])
		for _, q := range points {
			word += fmt.Sprintf(" %s,%s", draw.Decimals(q.X, 4), draw.Decimals(q.Y, 4))
		}
		words = append(words, word)
	})
	return strings.Join(words, " ")
}

// Each spelling means what SVG 1.1, chapter 8.3, says; the examples with
// running numbers are of 8.3.9.
func TestEverySpellingIsRead(t *testing.T) {
	for data, want := range map[string]string{
		"":                          "",
		" \t\r\n\f":                 "",
		"M1 2":                      "",
		"M1 2Z":                     "M 1,2 Z",
		"M1 2L3 4":                  "M 1,2 L 3,4",
		"m1,2 3,4":                  "M 1,2 L 4,6",
		"M1,2,3,4":                  "M 1,2 L 3,4",
		"M1,2 , 3 ,4":               "M 1,2 L 3,4",
		"M 100-200":                 "",
		"M 100-200L0 0":             "M 100,-200 L 0,0",
		"M 0.6.5L0 0":               "M 0.6,0.5 L 0,0",
		"M.5.5-.5-.5":               "M 0.5,0.5 L -0.5,-0.5",
		"M+1+2+3+4":                 "M 1,2 L 3,4",
		"M1e1 2E-1L1.5e+1,2.":       "M 10,0.2 L 15,2",
		"M0 0 l1 1 2 2":             "M 0,0 L 1,1 L 3,3",
		"M0 0H5h-2V4v1":             "M 0,0 L 5,0 L 3,0 L 3,4 L 3,5",
		"M1 1H2 3":                  "M 1,1 L 2,1 L 3,1",
		"M0 0C1 2 3 4 5 6":          "M 0,0 C 1,2 3,4 5,6",
		"M1 1c1 2 3 4 5 6":          "M 1,1 C 2,3 4,5 6,7",
		"M0 0C1 2 3 4 5 6S7 8 9 10": "M 0,0 C 1,2 3,4 5,6 C 7,8 7,8 9,10",
		"M0 0C1 2 3 4 5 6s2 2 4 4":  "M 0,0 C 1,2 3,4 5,6 C 7,8 7,8 9,10",
		"M1 1S7 8 9 10":             "M 1,1 C 1,1 7,8 9,10",
		"M0 0Q3 3 6 0":              "M 0,0 C 2,2 4,2 6,0",
		"M1 0q3 3 6 0":              "M 1,0 C 3,2 5,2 7,0",
		"M0 0Q3 3 6 0T12 0":         "M 0,0 C 2,2 4,2 6,0 C 8,-2 10,-2 12,0",
		"M0 0Q3 3 6 0t6 0":          "M 0,0 C 2,2 4,2 6,0 C 8,-2 10,-2 12,0",
		"M0 0T6 0":                  "M 0,0 C 0,0 2,0 6,0",
		"M1 1L5 1Zl2 2":             "M 1,1 L 5,1 Z M 1,1 L 3,3",
		"m1 1l4 0zm2 2l1 0":         "M 1,1 L 5,1 Z M 3,3 L 4,3",
		"M1 1L2 2M3 3L4 4":          "M 1,1 L 2,2 M 3,3 L 4,4",
		"M1 1M3 3L4 4":              "M 3,3 L 4,4",
		"M1 1L2 2zz":                "M 1,1 L 2,2 Z M 1,1 Z",
		"M0 0A0 5 0 0 1 6 0":        "M 0,0 L 6,0",
		"M0 0A5 5 0 0 1 0 0L1 0":    "M 0,0 L 1,0",
	} {
		got, err := svgpath.Parse(data)
		if err != nil || said(got) != want {
			t.Errorf("%q: %s, %v; want %s", data, said(got), err, want)
		}
	}
}

// Every slip is told with its character.
func TestEverySlipIsToldWithItsCharacter(t *testing.T) {
	for data, want := range map[string]string{
		"L1 2":             "at character 1: a path begins with M",
		"z":                "at character 1: a path begins with M",
		"5 5":              "at character 1: a command",
		"M":                "at character 2: a number belongs here, not the end",
		"M1":               "at character 3: a number belongs here, not the end",
		"M1 2 3":           "at character 7: a number belongs here, not the end",
		"M,1 2":            "at character 2: a number belongs here, not ','",
		"M1,,2":            "at character 4: a number belongs here, not ','",
		"M1 2,":            "at character 6: a number belongs here, not the end",
		"M1 2,L3 4":        "at character 6: a number belongs here, not 'L'",
		"M1 2 X":           "at character 6: a command",
		"M1 2Z3 4":         "at character 6: a command",
		"M1 2L3 4 éL":      "at character 10: a command such as M, L, C, A or Z belongs here, not 'é'",
		"M1 2é L":          "at character 5",
		"Mé":               "at character 2: a number belongs here, not 'é'",
		"M1 2L-":           "at character 6: a number belongs here, not '-'",
		"M1 2L. 5":         "at character 6",
		"M1 2Le5 5":        "at character 6",
		"M0 0A1 1 0 2 1 5": "at character 12: a flag, 0 or 1, belongs here, not '2'",
		"M0 0A1 1 0 1":     "at character 13: a flag, 0 or 1, belongs here, not the end",
		"M0 0L1e7 0":       "at character 6: a number beyond 1000000",
		"M0 0L1e999 0":     "at character 6: a number beyond",
		"M9e5 0l9e5 0":     "at character 8: beyond 1000000 from the origin",
		"M1 2Lnan 5":       "at character 6",
		"M1 2Linf 5":       "at character 6",
		"M1 2L0x5 5":       "at character 7",
		"M1 2@":            "at character 5: a command",
		"M0 0" + strings.Repeat("h1", svgpath.MostSegments+1): "more than 50000 pieces",
		strings.Repeat(" ", svgpath.MostBytes+1):              "more than 1048576 characters",
	} {
		_, err := svgpath.Parse(data)
		var slip *svgpath.Error
		if !errors.As(err, &slip) || !strings.Contains(err.Error(), want) {
			t.Errorf("%.40q: %v; want %s", data, err, want)
		}
	}
}

// Arcs that make up a circle or an ellipse stay on it, however they are told.
func TestArcsStayOnTheirEllipse(t *testing.T) {
	for _, c := range []struct {
		data     string
		cx, cy   float64
		rx, ry   float64
		degrees  float64
		quarters float64 // how much of it, by the shoelace over its pieces
	}{
		{"M10,0A10 10 0 0 1 -10,0A10 10 0 0 1 10,0Z", 0, 0, 10, 10, 0, 4},
		{"M10,0A10 10 0 1 1 0,-10L0,0Z", 0, 0, 10, 10, 0, 3},
		{"M10,0A10,10,0,0,0,0-10L0,0Z", 0, 0, 10, 10, 0, 1},
		{"M10,0a10 10 0 00-10-10L0,0Z", 0, 0, 10, 10, 0, 1},
		{"M10,0A1 1 77 0 1 -10,0A.1 .1 0 0 1 10,0Z", 0, 0, 10, 10, 0, 4}, // radii grow
		{"M10,0A-10 10 0 1 1 0,-10L0,0Z", 0, 0, 10, 10, 0, 3},
		{"M8,3A6 2 0 0 1 -4,3A6 2 0 0 1 8,3Z", 2, 3, 6, 2, 0, 4},
		{"M0,6A6 2 90 0 1 0,-6A6 2 450 0 1 0,6Z", 0, 0, 6, 2, 90, 4},
	} {
		p, err := svgpath.Parse(c.data)
		if err != nil {
			t.Fatal(err)
		}
		area, turn := 0.0, draw.Turn(-c.degrees)
		var from draw.Point
		p.Steps(func(v draw.Verb, q []draw.Point) {
			switch v {
			case draw.Cubic:
				for i := 1; i <= 64; i++ {
					to := bezier(from, q, float64(i)/64)
					prev := bezier(from, q, float64(i-1)/64)
					area += (prev.X*to.Y - prev.Y*to.X) / 2
					d := turn.Apply(draw.Point{X: to.X - c.cx, Y: to.Y - c.cy})
					if off := math.Hypot(d.X/c.rx, d.Y/c.ry) - 1; math.Abs(off) > 6e-6 {
						t.Errorf("%s: %.2g of a radius off at %v", c.data, off, to)
					}
				}
			case draw.Line:
				area += (from.X*q[0].Y - from.Y*q[0].X) / 2
			}
			if len(q) > 0 {
				from = q[len(q)-1]
			}
		})
		if want := math.Pi * c.rx * c.ry * c.quarters / 4; math.Abs(math.Abs(area)-want) > 2e-3*want {
			t.Errorf("%s: area %.4f, want %.4f", c.data, area, want)
		}
	}
}

func bezier(a draw.Point, q []draw.Point, t float64) draw.Point {
	s := 1 - t
	at := func(a, b, c, d float64) float64 { return s*s*s*a + 3*s*s*t*b + 3*s*t*t*c + t*t*t*d }
	return draw.Point{X: at(a.X, q[0].X, q[1].X, q[2].X), Y: at(a.Y, q[0].Y, q[1].Y, q[2].Y)}
}

// A way so short that its square is next to nothing is a line: found by fuzzing.
func TestArcsOverNextToNothing(t *testing.T) {
	for _, d := range []string{"M0 0A1 1 0 001e-170 0", "M0 0A1 1 0 001e-160 0", "M0 0A1 1 0 1 1 0 1e-320", "M5 5a1e6 1e6 0 0 1 0 1e-200"} {
		p, err := svgpath.Parse(d)
		if err != nil {
			t.Errorf("%s: %v", d, err)
		}
		for _, q := range p.Points {
			if !(math.Hypot(q.X, q.Y) < 8) {
				t.Errorf("%s: goes to %v", d, q)
			}
		}
	}
}

// Whatever is read, Parse gives a path within its bounds or an *Error.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{"M0,0L1,1Z", "m1 2a1,1 30 01.5.5", "M0 0Q1 1 2 2T5 5S1 2 3 4", "M1e5-2.5e-3h", "M0 0A1e-300 1e6 1 11 1e6 1e6", "M0 0A1e-9 1e6 1 11 1e6 1e6", "M0,0A9,9,0,1,0,1e-9,0", "M0 0A1 1 0 001e-170 0"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, data string) {
		p, err := svgpath.Parse(data)
		var slip *svgpath.Error
		if err != nil && (!errors.As(err, &slip) || slip.At < 1 || slip.At > len(data)+1 || strings.Contains(err.Error(), "\n")) {
			t.Fatalf("%q: %v", data, err)
		}
		if len(p.Verbs) > svgpath.MostSegments+16 {
			t.Fatalf("%d verbs", len(p.Verbs))
		}
		for _, q := range p.Points {
			if !(math.Abs(q.X) <= 1e6 && math.Abs(q.Y) <= 1e6) {
				t.Fatalf("%q: %v", data, q)
			}
		}
	})
}
