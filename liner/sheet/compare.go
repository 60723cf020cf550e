package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"underflap/liner"
	"underflap/pattern/words"
)

// Chance is how a task does on one paper in one layout.
type Chance struct {
	Paper    liner.Paper
	Layout   string
	PerSheet int     // 0 when not even one fits
	Depth    float64 // of the pocket part, millimetres
	Share    float64 // of the full pocket depth
	Sheets   int     // for the count wanted
	Used     float64 // share of the paper that becomes liner
}

// full is how near, in millimetres, a depth must come to the wanted one to be
// called full.
const full = 0.05

// comparedPapers are those that a maker is likeliest to have at hand.
var comparedPapers = []string{"A4", "Letter", "Legal", "A3", "12x12in"}

// Compare tries the plan's task on the common papers in every layout, the
// straight one first. The plan's own paper comes first when it is none of them.
func (p Plan) Compare() []Chance {
	var papers []liner.Paper
	own := false
	for _, name := range comparedPapers {
		if paper, err := liner.ParsePaper("paper", name); err == nil {
			papers = append(papers, paper)
			own = own || paper.Name == p.Paper.Name
		}
	}
	if !own {
		papers = append([]liner.Paper{p.Paper}, papers...)
	}
	var all []Chance
	for _, paper := range papers {
		for _, name := range []string{Straight, Nested} {
			all = append(all, p.chance(paper, name))
		}
	}
	return all
}

func (p Plan) chance(paper liner.Paper, layout string) Chance {
	c := Chance{Paper: paper, Layout: layout}
	t := p.Task
	t.Paper = paper
	arrange, wanted := layouts[layout].place, layouts[layout].wanted(t)
	got, ok := arrange(t, wanted)
	if !ok && wanted > 1 {
		wanted = max(1, min(wanted, layouts[layout].most(t)))
		got, ok = arrange(t, wanted)
	}
	if !ok {
		return c
	}
	c.PerSheet, c.Depth, c.Share = wanted, got.depth, got.depth/t.Liner.FullPocketDepth()
	c.Sheets = (p.Count + wanted - 1) / wanted
	c.Used = float64(wanted) * t.Liner.Outline(got.depth).Area() / (paper.Width * paper.Height)
	return c
}

// Counsel is one line on what would carry more liners or cover more of the
// pocket than the plan does: more on the sheet, another paper, a wider side gap
// or a hidden foot.
func (p Plan) Counsel(all []Chance) string {
	wanted := p.Liner.WantedPocketDepth()
	n, short := p.PerSheet(), wanted-p.Depth
	if short < spared {
		if line := p.fuller(); line != "" {
			return line
		}
	}
	enough := n > 1 || p.Task.PerSheet == 1 || p.Task.Count == 1
	switch {
	case enough && short < full:
		return fmt.Sprintf("%s on a sheet of %s at full depth: nothing to gain", liners(n), p.Paper.Short)
	case enough && short < spared:
		return fmt.Sprintf("%s on a sheet of %s, only %s short of full depth: nothing to gain", liners(n), p.Paper.Short, words.MM(short))
	case short < spared: // the one is deep enough, and two were wanted
		n = 2
	}
	var ways []string
	for _, c := range all {
		if c.Layout != Nested || c.Paper.Craft() { // nested is never shallower
			continue
		}
		if c.Paper.Name == p.Paper.Name {
			if p.Layout == Straight && c.PerSheet >= n && c.Depth > max(p.Depth+worthNesting, wanted-spared) {
				ways = append(ways, "--layout nested")
			}
			continue
		}
		t := p.Task
		t.Paper = c.Paper
		if reaches(t, n, wanted-full) && !slices.ContainsFunc(ways, isPaper) {
			ways = append(ways, paperFlag(c.Paper))
		}
	}
	if gap, ok := p.sideGapFor(n, wanted); ok {
		ways = append(ways, "--side-gap "+words.Tenth(gap))
	}
	if foot, ok := p.footFor(n, wanted); ok {
		ways = append(ways, "--hidden-foot "+words.Tenth(foot))
	}
	if len(ways) == 0 {
		return fmt.Sprintf("%s on %s, %s of %s deep: none of these papers takes the full depth", liners(p.PerSheet()), p.Paper.Short, words.MM(p.Depth), words.MM(wanted))
	}
	return fmt.Sprintf("for %s a sheet at full depth, %s: %s", liners(n), words.MM(wanted), strings.Join(ways, " or "))
}

func isPaper(way string) bool { return strings.HasPrefix(way, "--paper ") }

// fuller says how many more would fit the sheet where nobody said how many.
func (p Plan) fuller() string {
	if p.Task.PerSheet != 0 || p.Task.Count == 1 {
		return ""
	}
	t := p.Task
	t.PerSheet, t.Count = Most, 0
	most := layouts[""].wanted(t)
	if most <= max(p.PerSheet(), 2) {
		return ""
	}
	line := fmt.Sprintf("--per-sheet most puts %s on a sheet of %s", liners(most), p.Paper.Short)
	if sheets := (p.Count + most - 1) / most; sheets < p.Sheets {
		line += fmt.Sprintf(": %d instead of %d sheets", sheets, p.Sheets)
	}
	return line
}

// sideGapFor is the least side gap, in half millimetres, at which n reach a
// depth on the plan's paper.
func (p Plan) sideGapFor(n int, depth float64) (float64, bool) {
	for gap := math.Floor(2*p.Liner.SideGap)/2 + 0.5; gap <= mostHelpfulSideGap; gap += 0.5 {
		t, err := p.Task.cleared(func(c *liner.Clearances) { c.SideGap = gap })
		if err != nil {
			return 0, false
		}
		if reaches(t, n, depth-full) {
			return gap, true
		}
	}
	return 0, false
}

// mostHelpfulFoot is how much of a liner's end nobody misses. Common practice,
// no source.
const mostHelpfulFoot = 10.0

// footFor is the least hidden foot, in whole millimetres, at which n reach a
// depth on the plan's paper.
func (p Plan) footFor(n int, depth float64) (float64, bool) {
	for foot := math.Floor(p.HiddenFoot) + 1; foot <= mostHelpfulFoot; foot++ {
		t := p.Task
		t.HiddenFoot = foot
		if reaches(t, n, depth-full) {
			return foot, true
		}
	}
	return 0, false
}
