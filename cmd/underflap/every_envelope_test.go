package main

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"underflap/liner"
)

// commonest are the envelopes that are made with every flap; all others with the
// one they are usually sold with.
var commonest = []string{"C6", "C5", "DL", "B6", "C7", "A2", "A6", "A7", "No. 10", "Monarch"}

var endingSize = regexp.MustCompile(`_([\d.]+)x([\d.]+)(mm|in)$`)

// TestSizesListsEveryEnvelope finds a row for each envelope of the table, in its
// order and under its family, with the size that its name ends in (PWG 5101.1:
// short side first) and the side of its flap.
func TestSizesListsEveryEnvelope(t *testing.T) {
	workbench(t)
	rest := call(t, "sizes").stdout
	family := ""
	for _, e := range liner.Entries() {
		size := endingSize.FindStringSubmatch(e.Name)
		if size == nil {
			t.Fatalf("%s ends in no size", e.Name)
		}
		per := map[string]float64{"mm": 1, "in": 25.4}[size[3]]
		short, long := number(size[1])*per, number(size[2])*per
		tenth := func(mm float64) string {
			return strings.TrimSuffix(strconv.FormatFloat(math.Round(math.Round(mm*1e7)/1e6)/10, 'f', 1, 64), ".0")
		}
		pocket, side := tenth(long)+" × "+tenth(short)+" mm", "long side"
		if e.Width < e.Height {
			pocket, side = tenth(short)+" × "+tenth(long)+" mm", "short side"
		}
		f := e.Flaps[0]
		trade := strings.Join(e.Trade[:min(2, len(e.Trade))], ", ") // there is no room for more
		row := regexp.MustCompile(`(?m)^` + regexp.QuoteMeta(trade) + ` +` + pocket + ` +[\d/ ]+ × [\d/ ]+ in +` + side + ` +` +
			string(f.Shape) + ` ` + tenth(f.Depth) + `/` + tenth(f.Gum) + `\b.* ` + regexp.QuoteMeta(e.Name) + `$`)
		at := row.FindStringIndex(rest)
		if at == nil {
			t.Fatalf("no row of %s as %s in what is left of the list:\n%s", e.Name, row, rest)
		}
		if e.Family != family {
			family = e.Family
			if head := regexp.MustCompile(`(?mi)^` + family + `( |\n)`); !head.MatchString(rest[:at[0]]) {
				t.Errorf("%s does not stand under %s: %q", e.Name, family, rest[:at[0]])
			}
		} else if at[0] > 1 {
			t.Errorf("before the row of %s: %q", e.Name, rest[:at[0]])
		}
		rest = rest[at[1]:]
	}
	if strings.TrimSpace(rest) != "" {
		t.Errorf("behind the table: %q", rest)
	}
	if len(liner.Entries()) < 90 {
		t.Errorf("%d envelopes", len(liner.Entries()))
	}
}

// TestSizesStandInColumns wants every column of a list to begin where the head
// above it does.
func TestSizesStandInColumns(t *testing.T) {
	workbench(t)
	for _, args := range [][]string{{"sizes"}, {"sizes", "--fits", "a6"}} {
		var head []rune
		looked := 0
		for row := range strings.Lines(call(t, args...).stdout) {
			cells := []rune(row)
			if strings.Contains(row, "POCKET") {
				head = cells
				continue
			}
			if !strings.Contains(row, " mm ") {
				continue // a family's name, or nothing
			}
			for i := 2; i < len(head)-1; i++ {
				if head[i] != ' ' && head[i-1] == ' ' && head[i-2] == ' ' && (i >= len(cells) || cells[i] == ' ' || cells[i-1] != ' ') {
					t.Fatalf("%s: a column begins at %d, and not in the row\n%s%s", line(args), i, string(head), row)
				}
			}
			looked++
		}
		if looked < 40 {
			t.Errorf("%s: %d rows", line(args), looked)
		}
	}
}

// TestEveryEnvelopeIsMadeOrRefusedForPaper fits every envelope under its trade
// name with the flap it is usually sold with: on A4, or on the paper that the
// refusal offers, or, when it offers none, on none of the table.
func TestEveryEnvelopeIsMadeOrRefusedForPaper(t *testing.T) {
	workbench(t)
	offered := regexp.MustCompile(`accepted: --paper ([\w-]+)`)
	seen := map[string]string{}
	giants := 0
	for _, e := range liner.Entries() {
		fit := func(paper string) answer {
			return call(t, "fit", "--json", "--envelope", e.Trade[0], "--paper", paper)
		}
		paper := "a4"
		a := fit(paper)
		if a.status == wrong && strings.HasPrefix(a.stderr, "underflap: --paper: ") {
			if found := offered.FindStringSubmatch(a.stderr); found != nil {
				paper = found[1]
			} else {
				giants++
				paper = "1300x1300"
				for _, p := range liner.PaperNames() {
					if b := fit(p); b.status != wrong || !strings.HasPrefix(b.stderr, "underflap: --paper: ") || b.stdout != "" {
						t.Errorf("%s on %s: status %d, stdout %.60q, stderr %q", e.Name, p, b.status, b.stdout, b.stderr)
					}
				}
			}
			a = fit(paper)
		}
		c, err := readContract([]byte(a.stdout))
		if err != nil || a.status != done {
			t.Errorf("%s on %s: status %d, %v, stderr %q", e.Name, paper, a.status, err, a.stderr)
			continue
		}
		if f := e.Flaps[0]; c.Envelope.Name != e.Name || c.Envelope.Width != e.Width || c.Envelope.Height != e.Height || c.Flap.Shape != string(f.Shape) || c.Flap.Depth != f.Depth {
			t.Errorf("%s: a fit for %+v with a %s flap %g deep", e.Name, c.Envelope, c.Flap.Shape, c.Flap.Depth)
		}
		if other, ok := seen[a.stdout]; ok {
			t.Errorf("%s: the same as %s", e.Name, other)
		}
		seen[a.stdout] = e.Name
		checkSaid(t, e.Name+" on "+paper, a.stderr, c.FullPocketDepth, c.PocketDepth, 0)
	}
	if giants < 5 || giants > 15 {
		t.Errorf("%d envelopes are too large for every paper", giants)
	}
}

// TestCommonEnvelopesAreMadeWithEveryFlap draws the sheets of the commonest
// envelopes, and finds another sheet for each.
func TestCommonEnvelopesAreMadeWithEveryFlap(t *testing.T) {
	workbench(t)
	seen := map[string]string{}
	for _, name := range commonest {
		for _, flap := range liner.Shapes {
			paper := "a4"
			if name == "C5" {
				paper = "a3"
			}
			what := name + ", " + string(flap)
			svg := string(makes(t, "liners.svg", "sheet", "--envelope", name, "--flap", string(flap), "--paper", paper, "-o", "liners.svg"))
			if want := name + " liners, " + string(flap) + " flap"; !strings.Contains(svg, want) {
				t.Errorf("%s: the title does not say %q", what, want)
			}
			if other, ok := seen[svg]; ok {
				t.Errorf("%s: the same sheet as %s", what, other)
			}
			seen[svg] = what
		}
	}
}

var depthSaid = regexp.MustCompile(`pocket depth reduced by ([\d.]+) mm to ([\d.]+) mm`)

func number(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

// checkSaid wants a line about the pocket depth, if it is reduced, and none if not;
// the line rounds to a tenth, and full and depth may be off by so much each. It
// tells which.
func checkSaid(t *testing.T, what, stderr string, full, depth, off float64) (reduced bool) {
	t.Helper()
	said := depthSaid.FindAllStringSubmatch(stderr, -1)
	if full-depth <= 0.005 {
		if len(said) != 0 {
			t.Errorf("%s: nothing is reduced, and stderr is %q", what, stderr)
		}
		return false
	}
	if len(said) != 1 || math.Abs(number(said[0][1])-(full-depth)) > 0.051+2*off || math.Abs(number(said[0][2])-depth) > 0.051+off {
		t.Errorf("%s: stderr %q, and the depth is reduced by %.2f mm to %.2f mm", what, stderr, full-depth, depth)
	}
	return true
}

// TestReducedDepthIsSaid compares the line about the reduced depth with the
// depths that the same call gives, for every envelope on letter; the common ones
// on more papers, where sheet says what fit says.
func TestReducedDepthIsSaid(t *testing.T) {
	workbench(t)
	depths := regexp.MustCompile(`(?m)^pocket depth +([\d.]+) mm of ([\d.]+) mm,`)
	reduced, fitted := 0, 0
	check := func(name, paper string) (said string) {
		args := []string{"fit", "--envelope", name, "--paper", paper}
		a := call(t, args...)
		if a.status == wrong {
			if !strings.HasPrefix(a.stderr, "underflap: --paper: ") {
				t.Errorf("%s: %q", line(args), a.stderr)
			}
			return a.stderr
		}
		fitted++
		given := depths.FindStringSubmatch(a.stdout)
		if given == nil {
			t.Fatalf("%s: no pocket depth in %q", line(args), a.stdout)
		}
		if full, depth := number(given[2]), number(given[1]); checkSaid(t, line(args), a.stderr, full, depth, 0.05) {
			reduced++
		}
		return a.stderr
	}
	for _, e := range liner.Entries() {
		check(e.Name, "letter")
	}
	for _, name := range commonest {
		check(name, "a3")
		if said := check(name, "legal"); said != call(t, "sheet", "--envelope", name, "--paper", "legal", "-o", "liners.svg").stderr {
			t.Errorf("%s on legal paper: sheet does not say %q", name, said)
		}
	}
	if reduced < 20 || fitted < 80 {
		t.Errorf("only %d of %d cases are reduced", reduced, fitted)
	}
}
