package look_test

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/liner/look"
	"underflap/pattern/words"
)

func linerOf(t *testing.T, e liner.Envelope) liner.Liner {
	t.Helper()
	l, err := liner.New(e, usual)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func named(t *testing.T, name string, shape liner.Shape) liner.Liner {
	t.Helper()
	e, err := liner.LookUp(name)
	if err != nil {
		t.Fatal(err)
	}
	return linerOf(t, e.Envelope(shape))
}

func legend(found look.Labels) (lines []string) {
	for _, w := range found.Words {
		if w.Of == "legend" {
			lines = append(lines, w.Text)
		}
	}
	return lines
}

func TestTheThreeMeasurementsAreAlwaysABAndC(t *testing.T) {
	for _, d := range drawings() {
		name, l, extent, found := d.name, d.liner, d.extent, d.found
		letters := found.Letters()
		if letters["width"] != "A" || letters["height"] != "B" || letters["flap depth"] != "C" {
			t.Errorf("%s: letters %v", name, letters)
		}
		if extent != look.All && len(letters) != 3 {
			t.Errorf("%s: three measurements have the letters %v", name, letters)
		}
		if extent == look.Letters {
			if len(legend(found)) > 0 || slices.ContainsFunc(found.Words, func(w look.Label) bool { return w.Of == "title" }) {
				t.Errorf("%s: letters alone say %v", name, found.Words)
			}
			continue
		}
		for _, mm := range []float64{l.Envelope.Width, l.Envelope.Height, l.Envelope.Flap.Depth} {
			if !slices.ContainsFunc(legend(found), func(s string) bool { return strings.HasPrefix(s, words.MM(mm)+" (") }) {
				t.Errorf("%s: the legend does not say %s: %q", name, words.MM(mm), legend(found))
			}
		}
	}
}

func TestEveryLetterOfTheDrawingIsInTheLegendOnce(t *testing.T) {
	for _, d := range drawings() {
		if d.extent != look.All {
			continue
		}
		name, found := d.name, d.found
		seen := map[string]int{}
		for _, s := range legend(found) {
			seen[s]++
		}
		for of, letter := range found.Letters() {
			if seen[letter] != 1 || seen[of] != 1 {
				t.Errorf("%s: %s is %s, and the legend has it %d times and the letter %d times", name, of, letter, seen[of], seen[letter])
			}
		}
		for i := range len(found.Letters()) {
			if letter := string(rune('A' + i)); seen[letter] != 1 {
				t.Errorf("%s: letter %s is left out", name, letter)
			}
		}
	}
}

func TestTheLegendNamesTheFlagOfEveryMeasurementOfTheShape(t *testing.T) {
	for _, shape := range liner.Shapes {
		_, found := look.Explain(named(t, "c6", shape), look.All)
		lines := legend(found)
		want := []string{"pocket", "flap-depth", "gum", "gum-clearance", "side-gap", "pocket-depth", "corner-radius"}
		for _, flag := range shape.Takes() {
			if shape == liner.Square && flag == "flap-corner-radius" {
				continue // another word for its tip radius
			}
			want = append(want, flag)
		}
		for _, flag := range want {
			if !slices.Contains(lines, "--"+flag) {
				t.Errorf("%s: the legend lacks --%s: %q", shape, flag, lines)
			}
		}
	}
}

// A ruler shows sixteenths of an inch, so what is said is within half of one.
func TestInchesAreWithinHalfASixteenth(t *testing.T) {
	for _, d := range drawings() {
		for _, line := range legend(d.found) {
			mm, in, ok := strings.Cut(strings.TrimSuffix(line, ")"), " (")
			if !ok {
				continue
			}
			a, errA := words.Length("mm", mm)
			b, errB := words.Length("in", in)
			if errA != nil || errB != nil || a-b > 25.4/32+0.051 || b-a > 25.4/32+0.051 {
				t.Errorf("%s: %q", d.name, line)
			}
		}
	}
}

// On envelopes of an ordinary size nothing is too small to point at.
func TestEveryMeasurementOfAnOrdinaryEnvelopeHasALetter(t *testing.T) {
	looked := 0
	for _, entry := range liner.Entries() {
		if min(entry.Width, entry.Height) < 70 || max(entry.Width, entry.Height) > 250 {
			continue
		}
		for _, usualFlap := range entry.Flaps {
			l := linerOf(t, entry.Envelope(usualFlap.Shape))
			_, found := look.Explain(l, look.All)
			letters, f := found.Letters(), l.Envelope.Flap
			for of, mm := range map[string]float64{"shoulder": f.Shoulder, "taper": f.Taper, "base gap": f.BaseGap, "tip radius": f.TipRadius,
				"flap corner radius": f.CornerRadius, "gum": l.Envelope.Gum, "gum clearance": l.Envelope.Gum, "side gap": l.SideGap,
				"pocket depth": l.WantedPocketDepth(), "liner corner radius": l.CornerRadius} {
				if mm > 0 && letters[of] == "" {
					t.Errorf("%s %s: %s of %v mm has no letter", entry.Name, f.Shape, of, mm)
				}
			}
			looked++
		}
	}
	if looked < 30 {
		t.Errorf("looked at %d envelopes", looked)
	}
}

// A table in inches is the referee: names of PWG 5101.1 say their size.
func TestSizesInInchesAreSaidAsARulerShowsThem(t *testing.T) {
	compared := 0
	for _, entry := range liner.Entries() {
		size, inch := strings.CutSuffix(entry.Name[strings.LastIndex(entry.Name, "_")+1:], "in")
		if !inch {
			continue
		}
		l, err := liner.New(entry.Envelope(""), usual)
		if err != nil {
			continue
		}
		_, found := look.Explain(l, look.Three)
		for _, side := range strings.Split(size, "x") {
			inches, err := strconv.ParseFloat(side, 64)
			if err != nil {
				t.Fatal(err)
			}
			if inches*16 != float64(int(inches*16)) {
				continue // no ruler shows it
			}
			compared++
			said := false
			for _, line := range legend(found) {
				if _, in, ok := strings.Cut(line, "("); ok {
					mm, err := words.Length("size", strings.TrimSuffix(in, ")"))
					said = said || err == nil && mm == float64(int(inches*25.4*1e6+0.5))/1e6
				}
			}
			if !said {
				t.Errorf("%s: %s in is not in the legend %q", entry.Name, side, legend(found))
			}
		}
	}
	if compared < 20 {
		t.Errorf("compared %d sides", compared)
	}
}

func TestATracedFlapAndOneWithoutGumAreDrawnWithoutFault(t *testing.T) {
	points := []geom.Point{{X: 2, Y: 0}, {X: 8, Y: 20}, {X: 60, Y: 58}, {X: 90, Y: 61}, {X: 130, Y: 40}, {X: 158, Y: 0}}
	traced := liner.Envelope{Name: liner.Measured, Short: "162 × 114 mm", Width: 162, Height: 114, Flap: liner.TracedFlap(points), Gum: 12}
	bare := named(t, "c6", liner.Pointed).Envelope
	bare.Gum = 0
	for name, e := range map[string]liner.Envelope{"traced": traced, "without gum": bare} {
		for _, extent := range []look.Extent{look.Three, look.All, look.Letters} {
			page, found := look.Explain(linerOf(t, e), extent)
			for _, fault := range faults(page, found) {
				t.Errorf("%s: %s", name, fault)
			}
			if e.Gum == 0 && (found.Letters()["gum"] != "" || slices.Contains(legend(found), "--gum-clearance")) {
				t.Errorf("gum is marked on a flap without: %v", found.Letters())
			}
			if extent == look.All && e.Flap.Shape == liner.Traced && !slices.Contains(legend(found), "--profile") {
				t.Errorf("a traced flap's flag is left out: %q", legend(found))
			}
		}
	}
}

func TestALongNameStaysOnThePage(t *testing.T) {
	for _, words := range []int{5, 12, 60} {
		e := named(t, "c6", liner.Pointed).Envelope
		e.Short = strings.Repeat("midsummer ", words)
		for _, extent := range []look.Extent{look.Three, look.All, look.Letters} {
			for _, fault := range faults(look.Explain(linerOf(t, e), extent)) {
				t.Errorf("%d words: %s", words, fault)
			}
		}
	}
}

func TestADetailSaysHowMuchLargerItIs(t *testing.T) {
	_, found := look.Explain(named(t, "c6", liner.Pointed), look.All)
	want := fmt.Sprintf("%d times larger", found.Larger)
	if found.Larger < 2 || !slices.ContainsFunc(found.Words, func(w look.Label) bool { return w.Text == want }) {
		t.Errorf("no word %q", want)
	}
	gap, side := only(t, "detail", found, "base gap", look.Extension), only(t, "detail", found, "side gap", look.Dimension)
	if gap.A.X <= found.Detail.MinX || side.B.X >= found.Detail.MaxX {
		t.Errorf("the gaps are not in the detail: %v %v", gap, side)
	}
}
