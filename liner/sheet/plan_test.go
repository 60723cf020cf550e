package sheet_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/liner/sheet"
	"underflap/pattern/draw/referee"
	"underflap/pattern/words"
)

// usual is the task of a row of the size table with every default.
func usual(t *testing.T, e liner.Entry, shape liner.Shape, paper liner.Paper) sheet.Task {
	t.Helper()
	l, err := liner.New(e.Envelope(shape), liner.Clearances{SideGap: liner.DefaultSideGap, GumClearance: liner.DefaultGumClearance, CornerRadius: liner.UsualCornerRadius(e.Envelope(shape))})
	if err != nil {
		t.Fatalf("%s %s: %v", e.Name, shape, err)
	}
	return sheet.Task{Liner: l, Paper: paper, PrinterMargin: 5, Bleed: 2, Gap: 4, Layout: "straight"}
}

// everyTask calls f for every envelope of the table with its commonest flap on
// A4 and Letter, and for the commonest ones with every flap on A3 and Legal too.
func everyTask(t *testing.T, f func(name string, task sheet.Task)) {
	t.Helper()
	papers := liner.Papers()[:4]
	tasks := commonTasks(t, f)
	for _, e := range liner.Entries() {
		if slices.Contains(commonest, e.Trade[0]) {
			continue
		}
		for _, paper := range []liner.Paper{papers[0], papers[2]} {
			f(fmt.Sprintf("%s on %s", e.Trade[0], paper.Short), usual(t, e, "", paper))
			tasks++
		}
	}
	if tasks < 300 || papers[0].Short != "A4" || papers[2].Short != "Letter" {
		t.Fatalf("only %d tasks were tried", tasks)
	}
}

// commonest are the envelopes that home card makers line most.
var commonest = []string{"C6", "C5", "DL", "B6", "C7", "A2", "A6", "A7", "No. 10", "Monarch"}

func commonTasks(t *testing.T, f func(name string, task sheet.Task)) (tasks int) {
	t.Helper()
	for _, name := range commonest {
		e, err := liner.LookUp(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, shape := range liner.Shapes {
			for _, paper := range liner.Papers()[:4] {
				f(fmt.Sprintf("%s %s on %s", e.Trade[0], shape, paper.Short), usual(t, e, shape, paper))
				tasks++
			}
		}
	}
	return tasks
}

// straightFits tells whether n boxes, the liners' bounding boxes at a depth,
// fit the printable area in one row or column, upright or turned: the design's
// definition of a straight layout, said again.
func straightFits(task sheet.Task, n int, depth float64) bool {
	const rounding = 1e-9
	roomW, roomH := task.Paper.Width-2*task.PrinterMargin+rounding, task.Paper.Height-2*task.PrinterMargin+rounding
	w, h := task.Liner.Width(), task.Liner.FlapHeight()+depth
	row := func(side float64) float64 { return float64(n)*side + float64(n-1)*task.Gap }
	return row(w) <= roomW && h <= roomH || w <= roomW && row(h) <= roomH ||
		row(h) <= roomW && w <= roomH || h <= roomW && row(w) <= roomH
}

// bestDepth bisects for the greatest depth at which n fit.
func bestDepth(task sheet.Task, n int) (float64, bool) {
	least, most := task.Liner.LeastPocketDepth(), task.Liner.WantedPocketDepth()
	if !straightFits(task, n, least) {
		return 0, false
	}
	if straightFits(task, n, most) {
		return most, true
	}
	for range 60 {
		if middle := (least + most) / 2; straightFits(task, n, middle) {
			least = middle
		} else {
			most = middle
		}
	}
	return least, true
}

// checkPlan checks what every plan promises.
func checkPlan(t interface{ Errorf(string, ...any) }, name string, task sheet.Task, p sheet.Plan) {
	l := task.Liner
	if p.Depth > l.WantedPocketDepth()+1e-9 || p.Depth < l.LeastPocketDepth()-1e-9 {
		t.Errorf("%s: depth %v outside %v to %v", name, p.Depth, l.LeastPocketDepth(), l.WantedPocketDepth())
	}
	// the design: never less than half the pocket's height without a clear warning
	if shallow := p.Depth < l.Envelope.Height/2-0.01; shallow && !strings.Contains(p.Advice, "half the pocket") {
		t.Errorf("%s: depth %v in a pocket %v high, advice %q", name, p.Depth, l.Envelope.Height, p.Advice)
	}
	printable := geom.Box{MinX: task.PrinterMargin, MinY: task.PrinterMargin, MaxX: task.Paper.Width - task.PrinterMargin, MaxY: task.Paper.Height - task.PrinterMargin}
	area := l.Outline(p.Depth).Area()
	var boxes []geom.Box
	for i, pl := range p.Placements {
		cut := p.CutLine(pl)
		box := cut.Bounds()
		if box.MinX < printable.MinX-1e-6 || box.MinY < printable.MinY-1e-6 || box.MaxX > printable.MaxX+1e-6 || box.MaxY > printable.MaxY+1e-6 {
			t.Errorf("%s: cut line %d in %v leaves the printable area %v", name, i, box, printable)
		}
		// carried to the page the piece keeps its size; y runs down there
		if math.Abs(cut.Area()+area) > 1e-6 {
			t.Errorf("%s: cut line %d encloses %v on the page, %v before", name, i, cut.Area(), area)
		}
		for j, other := range boxes {
			apartX := max(box.MinX-other.MaxX, other.MinX-box.MaxX)
			apartY := max(box.MinY-other.MaxY, other.MinY-box.MaxY)
			if max(apartX, apartY) < task.Gap-1e-6 {
				t.Errorf("%s: no straight cut parts %d and %d with %v to spare", name, j, i, task.Gap)
			}
		}
		boxes = append(boxes, box)
	}
	n := len(p.Placements)
	want, ok := bestDepth(task, n)
	if !ok || math.Abs(p.Depth-want) > 1e-6 {
		t.Errorf("%s: %d liners at depth %v, the best straight arrangement has %v (%v)", name, n, p.Depth, want, ok)
	}
	if p.Depth < l.WantedPocketDepth()-1e-6 && straightFits(task, n, p.Depth+0.1) {
		t.Errorf("%s: shortened to %v, yet 0.1 more would fit", name, p.Depth)
	}
	carried := 0
	for i := range p.Sheets {
		on := p.OnSheet(i)
		if on < 1 || on > n || i < p.Sheets-1 && on != n {
			t.Errorf("%s: sheet %d of %d carries %d of %d", name, i, p.Sheets, on, n)
		}
		carried += on
	}
	if carried != p.Count || task.Count > 0 && p.Count != task.Count {
		t.Errorf("%s: %d liners on %d sheets, %d wanted (%d asked for)", name, carried, p.Sheets, p.Count, task.Count)
	}
}

func TestEveryEnvelopeLiesWellOnEveryPaper(t *testing.T) {
	two := 0
	everyTask(t, func(name string, task sheet.Task) {
		p, err := sheet.Arrange(task)
		if _, one := bestDepth(task, 1); (err == nil) != one {
			t.Errorf("%s: %v; one liner fits: %v", name, err, one)
			return
		}
		if err != nil {
			return
		}
		checkPlan(t, name, task, p)
		_, fits := bestDepth(task, 2)
		if want := map[bool]int{true: 2, false: 1}[fits]; p.PerSheet() != want {
			t.Errorf("%s: %d on a sheet, %d fit", name, p.PerSheet(), want)
		}
		if p.PerSheet() == 2 {
			two++
		}
		// what was given up is said, and nothing is said otherwise
		given := p.PerSheet() == 1 || p.Depth < p.FullDepth-0.005 || task.Liner.Envelope.GuessedFlap
		if given != (p.Advice != "") {
			t.Errorf("%s: %d at %v of %v: advice %q", name, p.PerSheet(), p.Depth, p.FullDepth, p.Advice)
		}
	})
	if two < 40 {
		t.Errorf("only %d plans carry two", two)
	}
}

// GEOS measures the gap between the two cut lines themselves.
func TestTwoCutLinesAreAGapApartAsGEOSMeasures(t *testing.T) {
	compared := 0
	everyTask(t, func(name string, task sheet.Task) {
		task.Gap = 7
		p, err := sheet.Arrange(task)
		if err != nil || p.PerSheet() < 2 {
			return
		}
		a, b := lineWKT(p.CutLine(p.Placements[0])), lineWKT(p.CutLine(p.Placements[1]))
		said := strings.TrimSpace(string(referee.Run(t, "geosop", "-a", a, "-b", b, "-f", "wkt", "distance")))
		distance, err := strconv.ParseFloat(said, 64)
		if err != nil {
			t.Fatalf("geosop said %q", said)
		}
		// chords of arcs lie within 0.001 of them
		if distance < task.Gap-0.002 || distance > task.Gap+0.002 {
			t.Errorf("%s: cut lines are %v apart, want %v", name, distance, task.Gap)
		}
		compared++
	})
	if compared < 40 {
		t.Errorf("only %d pairs were measured", compared)
	}
}

func lineWKT(c geom.Contour) string {
	var points []string
	for _, p := range c.Flatten(0.001) {
		points = append(points, fmt.Sprintf("%.6f %.6f", p.X, p.Y))
	}
	return "LINESTRING(" + strings.Join(points, ",") + ")"
}

// remedy is what a piece of advice asks for: "--paper a3".
type remedy struct{ flag, value string }

func remediesIn(advice string) []remedy {
	var all []remedy
	fields := strings.Fields(strings.NewReplacer(";", " ", ",", " ").Replace(advice))
	for i, f := range fields {
		if strings.HasPrefix(f, "--") && i+1 < len(fields) {
			all = append(all, remedy{f, fields[i+1]})
		}
	}
	return all
}

// Advice that is followed to the letter must help.
func TestAdviceThatIsFollowedLetsTwoFit(t *testing.T) {
	followed := map[string]int{}
	for margin := 3.06; margin <= 17; margin += 0.1 { // fine enough to meet borderline fits
		commonTasks(t, func(name string, task sheet.Task) {
			if shape := task.Liner.Envelope.Flap.Shape; shape != liner.Pointed && shape != liner.Square {
				return
			}
			task.PrinterMargin = margin
			name = fmt.Sprintf("%s, margin %.2f", name, margin)
			p, err := sheet.Arrange(task)
			if err != nil || p.PerSheet() == 2 {
				return
			}
			help := remediesIn(p.Advice)
			if len(help) == 0 {
				t.Errorf("%s: one liner, and no help in %q", name, p.Advice)
			}
			for _, r := range help {
				if q, err := follow(task, r); err != nil || q.PerSheet() != 2 {
					t.Errorf("%s: with %s %s there are %d on a sheet, %v (%s)", name, r.flag, r.value, q.PerSheet(), err, p.Advice)
				}
				followed[r.flag]++
			}
		})
	}
	t.Log("followed", followed)
	for _, flag := range []string{"--paper", "--pocket-depth", "--side-gap"} {
		if followed[flag] < 5 {
			t.Errorf("%s was advised %d times: the check hardly ran", flag, followed[flag])
		}
	}
}

// follow plans again as the remedy says.
func follow(task sheet.Task, r remedy) (sheet.Plan, error) {
	c, err := task.Liner.Clearances, error(nil)
	if r.flag == "--paper" && r.value == "WxH" { // "a larger paper with --paper WxH"
		task.Paper = liner.Paper{Name: "custom", Short: "custom", Width: 2 * task.Paper.Width, Height: 2 * task.Paper.Height}
		return sheet.Arrange(task)
	}
	switch r.flag {
	case "--paper":
		task.Paper, err = liner.ParsePaper("paper", r.value)
	case "--pocket-depth":
		c.PocketDepth, err = words.Length("pocket-depth", r.value)
	case "--side-gap":
		c.SideGap, err = words.Length("side-gap", r.value)
	default:
		err = fmt.Errorf("no such remedy: %v", r)
	}
	if err != nil {
		return sheet.Plan{}, err
	}
	if task.Liner, err = liner.New(task.Liner.Envelope, c); err != nil {
		return sheet.Plan{}, err
	}
	return sheet.Arrange(task)
}

func TestAdviceForC5OnA4NamesA3(t *testing.T) {
	c5, err := liner.LookUp("c5")
	if err != nil {
		t.Fatal(err)
	}
	a4, err := liner.ParsePaper("paper", "a4")
	if err != nil {
		t.Fatal(err)
	}
	task := usual(t, c5, liner.Pointed, a4)
	p, err := sheet.Arrange(task)
	if err != nil || p.PerSheet() != 1 || !strings.Contains(p.Advice, "--paper a3") || !strings.Contains(p.Advice, "one liner a sheet") {
		t.Errorf("%d on a sheet, %q, %v", p.PerSheet(), p.Advice, err)
	}
	// asked for by number it is refused, and says the same
	task.PerSheet = 2
	_, err = sheet.Arrange(task)
	var refused *words.Refused
	if !errors.As(err, &refused) || refused.Field != "per-sheet" || !strings.Contains(refused.Accepts, "--paper a3") {
		t.Errorf("two asked for: %v", err)
	}
	task.PerSheet = 1
	if p, err = sheet.Arrange(task); err != nil || p.Advice != "" && !strings.Contains(p.Advice, "pocket depth reduced") {
		t.Errorf("one asked for: advice %q, %v", p.Advice, err)
	}
}
