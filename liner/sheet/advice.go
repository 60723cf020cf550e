package sheet

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"underflap/liner"
	"underflap/pattern/words"
)

// noRoom says what n liners need and the paper lacks.
func noRoom(t Task, n int) string {
	what := "a liner of %s by at least %s does not fit on %s inside a margin of %s"
	if n > 1 {
		what = liners(n) + ", each %s by at least %s, do not fit on %s inside a margin of %s"
	}
	if t.Registration.Any() {
		what += " that the registration marks take"
	}
	return fmt.Sprintf(what, words.MM(t.Liner.Width()), words.MM(t.Liner.LeastPocketDepth()+t.Liner.FlapHeight()), t.Paper.Short, words.MM(t.edge()))
}

// mostHelpfulSideGap is where a liner begins to look too narrow.
const mostHelpfulSideGap = 8

// mostPapersNamed keeps advice to one readable line; the table has the
// commonest papers first.
const mostPapersNamed = 2

// paperFlag is the word that asks for a paper.
func paperFlag(paper liner.Paper) string {
	return "--paper " + strings.ReplaceAll(strings.ToLower(paper.Short), " ", "-")
}

// cleared is the task with other clearances.
func (t Task) cleared(change func(*liner.Clearances)) (Task, error) {
	clear := t.Liner.Clearances
	change(&clear)
	l, err := liner.New(t.Liner.Envelope, clear)
	t.Liner = l
	return t, err
}

// remedies lists what would let n liners fit: another paper, a shallower
// pocket depth, or wider side gaps.
func remedies(t Task, n int, arrange layoutFunc) string {
	var help []string
	for _, paper := range liner.Papers() {
		if len(help) == mostPapersNamed {
			break
		}
		other := t
		other.Paper = paper
		if paper.Name == t.Paper.Name || paper.Craft() {
			continue
		}
		if _, ok := arrange(other, n); ok {
			help = append(help, paperFlag(paper))
		}
	}
	// fits tries a liner with other clearances
	fits := func(change func(*liner.Clearances)) bool {
		other, err := t.cleared(change)
		if err != nil {
			return false
		}
		_, ok := arrange(other, n)
		return ok
	}
	// in half millimetres, which are shown unrounded: the first that helps, and
	// all past it do
	first := func(flag string, from, to, step float64, set func(*liner.Clearances, float64)) {
		steps := int(math.Floor((to-from)/step + 1e-9))
		if steps < 0 {
			return
		}
		at := func(k int) float64 { return from + float64(k)*step }
		k := sort.Search(steps+1, func(k int) bool { return fits(func(c *liner.Clearances) { set(c, at(k)) }) })
		if k <= steps {
			help = append(help, flag+" "+words.Tenth(at(k)))
		}
	}
	first("--pocket-depth", math.Floor(2*t.Liner.LeastPocketDepth())/2, t.Liner.Envelope.Height/4, -0.5,
		func(c *liner.Clearances, v float64) { c.PocketDepth = v })
	first("--side-gap", math.Ceil(2*t.Liner.SideGap)/2, mostHelpfulSideGap, 0.5,
		func(c *liner.Clearances, v float64) { c.SideGap = v })
	if len(help) == 0 {
		return "a larger paper with --paper WxH"
	}
	return strings.Join(help, " or ")
}
