package sheet

import (
	"fmt"
	"math"
	"strings"

	"underflap/liner"
	"underflap/pattern/words"
)

// noRoom says what n liners need and the paper lacks.
func noRoom(t Task, n int) string {
	what := "a liner of %s by at least %s does not fit on %s inside a margin of %s"
	if n > 1 {
		what = "two liners, each %s by at least %s, do not fit on %s inside a margin of %s"
	}
	return fmt.Sprintf(what, words.MM(t.Liner.Width()), words.MM(t.Liner.LeastPocketDepth()+t.Liner.FlapHeight()), t.Paper.Short, words.MM(t.PrinterMargin))
}

// mostHelpfulSideGap is where a liner begins to look too narrow.
const mostHelpfulSideGap = 8

// mostPapersNamed keeps advice to one readable line; the table has the
// commonest papers first.
const mostPapersNamed = 2

// remedies lists what would let n liners fit: another paper, a shallower
// pocket depth, or wider side gaps.
func remedies(t Task, n int, arrange layoutFunc) string {
	var help []string
	for _, paper := range liner.Papers() {
		other := t
		other.Paper = paper
		if _, ok := arrange(other, n); ok && paper.Name != t.Paper.Name && !paper.Craft() && len(help) < mostPapersNamed {
			help = append(help, "--paper "+strings.ReplaceAll(strings.ToLower(paper.Short), " ", "-"))
		}
	}
	// helps tries a liner with other clearances, and names the flag that sets them
	helps := func(flag string, value float64, change func(*liner.Clearances)) bool {
		other := t
		clear := t.Liner.Clearances
		change(&clear)
		l, err := liner.New(t.Liner.Envelope, clear)
		if err != nil {
			return false
		}
		other.Liner = l
		if _, ok := arrange(other, n); !ok {
			return false
		}
		help = append(help, flag+" "+words.Tenth(value))
		return true
	}
	// in half millimetres, which are shown unrounded
	for depth := math.Floor(2*t.Liner.LeastPocketDepth()) / 2; depth >= t.Liner.Envelope.Height/4; depth -= 0.5 {
		if helps("--pocket-depth", depth, func(c *liner.Clearances) { c.PocketDepth = depth }) {
			break
		}
	}
	for gap := math.Ceil(2*t.Liner.SideGap) / 2; gap <= mostHelpfulSideGap; gap += 0.5 {
		if helps("--side-gap", gap, func(c *liner.Clearances) { c.SideGap = gap }) {
			break
		}
	}
	if len(help) == 0 {
		return "a larger paper with --paper WxH"
	}
	return strings.Join(help, " or ")
}
