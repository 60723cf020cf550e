package request

import (
	"fmt"
	"math"
	"strings"

	"underflap/liner/sheet"
	"underflap/pattern/words"
)

// ChancesText is the table of papers and layouts for people, and the line of
// advice. The plan's own row has an arrow.
func ChancesText(p sheet.Plan) string {
	all := p.Compare()
	var b strings.Builder
	row := func(cells ...string) {
		line := fmt.Sprintf("%-14s%-10s%-9s%-19s%-16s%-12s%s", cells[0], cells[1], cells[2], cells[3], cells[4], cells[5], cells[6])
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	row("on paper", "layout", "a sheet", "pocket depth", fmt.Sprintf("sheets for %d", p.Count), "paper used", "")
	last := ""
	for _, c := range all {
		name := c.Paper.Short
		if name == last {
			name = ""
		}
		last = c.Paper.Short
		if c.PerSheet == 0 {
			row(name, c.Layout, "none", "", "", "", "")
			continue
		}
		mark := ""
		if c.Paper.Name == p.Paper.Name && c.Layout == p.Layout {
			mark = "<- this one"
		}
		row(name, c.Layout, fmt.Sprint(c.PerSheet), fmt.Sprintf("%-10s %4s", words.MM(c.Depth), percent(c.Share)),
			fmt.Sprint(c.Sheets), percent(c.Used), mark)
	}
	fmt.Fprintf(&b, "%-14s%s\n", "advice", p.Counsel(all))
	return b.String()
}

// percent never calls whole what is not.
func percent(share float64) string { return fmt.Sprintf("%.0f %%", math.Floor(100*share+1e-6)) }
