package liner_test

import (
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"testing/iotest"

	"pgregory.net/rapid"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/pattern/words"
)

var threePoints = []geom.Point{{X: 2, Y: 10.5}, {X: 80.25, Y: 64}, {X: 158, Y: 0}}

func TestATraceIsReadInEveryFormItIsWrittenIn(t *testing.T) {
	for name, text := range map[string]string{
		"plain":                     "2,10.5\n80.25,64\n158,0\n",
		"no newline at the end":     "2,10.5\n80.25,64\n158,0",
		"blanks":                    "  2 ,  10.5\n\t80.25 ,64  \n158,\t0\n",
		"empty lines":               "\n2,10.5\n\n   \n80.25,64\n158,0\n\n",
		"names of the columns":      "x,height\n2,10.5\n80.25,64\n158,0\n",
		"names with a unit":         "x (mm); y (mm)\n2;10.5\n80.25;64\n158;0\n",
		"comments":                  "# C6, winter fair\n2,10.5\n  # the tip\n80.25,64\n#158,9\n158,0\n",
		"comment, then names":       "# traced\nx,y\n2,10.5\n80.25,64\n158,0\n",
		"semicolons":                "2;10.5\n80.25;64\n158;0\n",
		"semicolons, blanks":        "2 ; 10.5\n80.25; 64\n158 ;0\n",
		"decimal commas":            "2;10,5\n80,25;64\n158;0\n",
		"decimal commas by tabs":    "2\t10,5\n80,25\t64\n158\t0\n",
		"blanks between":            "2 10.5\n80.25   64\n158 \t 0\n",
		"names with a digit":        "x1,y1\n2,10.5\n80.25,64\n158,0\n",
		"a comma at the end":        "2,10.5,\n80.25,64,\n158,0,\n",
		"tabs":                      "2\t10.5\n80.25\t64\n158\t0\n",
		"a semicolon at the end":    "2;10,5;\n80,25;64;\n158;0;\n",
		"millimetres":               "2mm,10.5mm\n80.25 mm,64mm\n158mm,0mm\n",
		"centimetres":               "0.2cm,1.05cm\n8.025cm,6.4cm\n15.8cm,0cm\n",
		"centimetres, commas":       "0,2cm;1,05cm\n8,025cm;6,4cm\n15,8cm;0\n",
		"a unit here and there":     "2,1.05cm\n8.025cm,64\n158,0\n",
		"a byte-order mark":         "\ufeff2,10.5\n80.25,64\n158,0\n",
		"a mark before the names":   "\ufeffx,y\n2,10.5\n80.25,64\n158,0\n",
		"a mark before a comment":   "\ufeff# x\n2,10.5\n80.25,64\n158,0\n",
		"lines of Windows":          "x,y\r\n2,10.5\r\n80.25,64\r\n158,0\r\n",
		"all at once":               "\ufeff# Excel\r\nx;y\r\n2;10,5\r\n80,25;64\r\n158;0\r\n",
		"names in another language": "Länge;Höhe\n2;10,5\n80,25;64\n158;0\n",
	} {
		got, err := liner.ReadTrace("profile", strings.NewReader(text))
		if err != nil || !slices.Equal(got, threePoints) {
			t.Errorf("%s: %v, %v", name, got, err)
		}
	}
	inches, err := liner.ReadTrace("profile", strings.NewReader("1/8in, 1in\n3 1/8in, 2-1/2in\n6.25\", 0\n"))
	if err != nil || !slices.Equal(inches, []geom.Point{{X: 3.175, Y: 25.4}, {X: 79.375, Y: 63.5}, {X: 158.75, Y: 0}}) {
		t.Errorf("inches: %v, %v", inches, err)
	}
	// an edge straight up, and a point given twice
	jump, err := liner.ReadTrace("profile", strings.NewReader("0,0\n0,40\n0,40\n9,40\n9,0"))
	if err != nil || len(jump) != 5 {
		t.Errorf("upright: %v, %v", jump, err)
	}
}

// Refusals name the field, the line, and say what a line looks like.
func TestATraceThatCannotBeReadIsRefusedWithItsLine(t *testing.T) {
	const good = "2,10.5\n80.25,64\n158,0\n"
	for name, c := range map[string]struct{ text, given string }{
		"a word among numbers":            {good + "tip,60\n", "line 4"},
		"names further down":              {"2,10.5\nx,y\n80.25,64\n158,0\n", "line 2"},
		"two lines of names":              {"x,y\nmm,mm\n" + good, "line 2"},
		"names that begin with a digit":   {"1st,2nd\n" + good, "line 1"},
		"one number":                      {"2,10.5\n80.25\n158,0\n", "line 2"},
		"three numbers":                   {"2,10.5\n80.25,64,7\n158,0\n", "line 2"},
		"three between semicolons":        {"2;10,5\n80;64;7\n158;0\n", "line 2"},
		"decimal commas between commas":   {"2,0,10,5\n80,25,64,0\n", "line 1"},
		"decimal commas and blanks":       {"2 10,5\n80,25 64\n158 0\n", "line 1"},
		"three numbers and blanks":        {"2 10.5\n80.25 64 7\n158 0\n", "line 2"},
		"no height":                       {"2,10.5\n80.25,\n158,0\n", "line 2"},
		"no x":                            {"2,10.5\n,64\n158,0\n", "line 2"},
		"a height below zero":             {"2,10.5\n80.25,-64\n158,0\n", "line 2"},
		"x below zero":                    {"-2,10.5\n80.25,64\n158,0\n", "line 1"},
		"not a number":                    {"2,10.5\nNaN,64\n158,0\n", "line 2"},
		"without end":                     {"2,10.5\n80,inf\n158,0\n", "line 2"},
		"longer than any length":          {"2,10.5\n80,6400\n158,0\n", "line 2"},
		"an unknown unit":                 {"2,10.5\n80 px,64\n158,0\n", "line 2"},
		"in quotes":                       {"\"2\",\"10.5\"\n\"80\",\"64\"\n", "line 1"},
		"to the left":                     {"2,10.5\n80.25,64\n80.2,60\n158,0\n", "line 3: x of 80.2 mm"},
		"to the left, lines passed over":  {"# a\nx,y\n\n2,10.5\n\n80.25,64\n# b\n1,60\n", "line 8: x of 1 mm"},
		"to the left, lines of Windows":   {"2,10.5\r\n\r\n1,64\r\n", "line 3"},
		"nothing":                         {"", "0 points"},
		"only names and comments":         {"x,y\n# none yet\n\n", "0 points"},
		"two points":                      {"2,10.5\n80.25,64\n", "2 points"},
		"a picture":                       {"\x89PNG\r\n\x1a\n\x00\x00\x00\x0dIHDR\x00\x00\x012", "line"},
		"text of two bytes a letter":      {"\xff\xfe2\x00,\x001\x000\x00\n\x00", "line 1"},
		"more points than a flap has":     {manyPoints(liner.MostTracePoints + 1), fmt.Sprintf("line %d", liner.MostTracePoints+1)},
		"a number of a thousand digits":   {"2,10.5\n" + strings.Repeat("9", 1000) + ",64\n158,0\n", "line 2"},
		"a line that is no end of a line": {"2,10.5\n" + strings.Repeat("8", 100_000) + ",64\n158,0\n", "line 2"},
	} {
		points, err := liner.ReadTrace("profile", strings.NewReader(c.text))
		var refused *words.Refused
		switch {
		case !errors.As(err, &refused):
			t.Errorf("%s: %v, %v", name, points, err)
		case refused.Field != "profile" || !strings.HasPrefix(refused.Given, c.given) || refused.Accepts == "":
			t.Errorf("%s: refused as %+v, want it to name %q", name, refused, c.given)
		case strings.ContainsAny(err.Error(), "\n\r") || len([]rune(err.Error())) > 300:
			t.Errorf("%s: not one short line: %q", name, err)
		}
	}
	if points, err := liner.ReadTrace("profile", strings.NewReader(manyPoints(liner.MostTracePoints))); err != nil || len(points) != liner.MostTracePoints {
		t.Errorf("as many points as are taken: %d, %v", len(points), err)
	}
	broken := errors.New("the disk is gone")
	if _, err := liner.ReadTrace("profile", io.MultiReader(strings.NewReader(good), iotest.ErrReader(broken))); !errors.Is(err, broken) {
		t.Errorf("a file that breaks off: %v", err)
	}
}

func manyPoints(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "%d.%d,30\n", i/10, i%10)
	}
	return b.String()
}

// Whatever a file holds, it is read or refused by its field.
func TestEveryTraceIsReadOrRefused(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		line := rapid.OneOf(rapid.StringMatching(`[0-9]{1,3}(\.[0-9])?[,;\t][0-9]{1,2}(,5|\.5|mm)?`), rapid.StringMatching(`[-x0-9.,;\t #"]{0,12}`), rapid.String())
		text := strings.Join(rapid.SliceOfN(line, 0, 12).Draw(t, "lines"), "\n")
		points, err := liner.ReadTrace("profile", strings.NewReader(text))
		var refused *words.Refused
		if err != nil && (!errors.As(err, &refused) || refused.Field != "profile") {
			t.Fatalf("%v", err)
		}
		if err == nil && len(points) < 3 {
			t.Fatalf("%d points", len(points))
		}
		for i, p := range points {
			if !(p.X >= 0 && p.Y >= 0 && p.X <= words.Longest && p.Y <= words.Longest) || i > 0 && p.X < points[i-1].X {
				t.Fatalf("point %d is %v", i, p)
			}
		}
	})
}

// The edge passes through every point, in order, and straight from one to the
// next; at both ends it comes down to the fold.
func TestATracedFlapGoesThroughExactlyItsPoints(t *testing.T) {
	s := seeded(rand.New(rand.NewPCG(21, 22)))
	for range 200 {
		points := anyTrace(s, 162, 60, false)
		f := liner.TracedFlap(points)
		p := mustProfile(t, f, 162)
		corners := []geom.Point{p[0].A}
		for i, piece := range p {
			if piece.R != 0 || i > 0 && piece.A != p[i-1].B || piece.A == piece.B {
				t.Fatalf("piece %d is %+v", i, piece)
			}
			corners = append(corners, piece.B)
		}
		want := slices.Concat([]geom.Point{{X: points[0].X}}, points, []geom.Point{{X: points[len(points)-1].X}})
		if want = slices.Compact(want); !slices.Equal(corners, want) {
			t.Fatalf("it goes through %v, want %v", corners, want)
		}
		highest := slices.MaxFunc(points, func(a, b geom.Point) int { return int(1e9 * (a.Y - b.Y)) })
		near(t, "depth", f.Depth, highest.Y, 1e-9)
		near(t, "height", p.Height(), highest.Y, 1e-9)
	}
}

// A square flap traced by its corners gets the square flap's liner.
func TestATracedSquareFlapGetsTheLinerOfASquareFlap(t *testing.T) {
	corners := []geom.Point{{X: 1, Y: 0}, {X: 6, Y: 45}, {X: 156, Y: 45}, {X: 161, Y: 0}}
	traced := c6(liner.TracedFlap(corners))
	square := c6(liner.Flap{Shape: liner.Square, Depth: 45, Taper: 5, BaseGap: 1})
	a, b := mustLine(t, traced.envelope, traced.clearances).Outline(90), mustLine(t, square.envelope, square.clearances).Outline(90)
	near(t, "area", a.Area(), b.Area(), 1e-9)
	for _, p := range a.Flatten(0.001) {
		near(t, "off the other outline", ring(b.Flatten(0.001)).distance(p), 0, 1e-9)
	}
}
