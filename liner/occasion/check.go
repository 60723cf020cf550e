package occasion

import (
	"fmt"
	"slices"
	"strings"

	"underflap/liner/sheet"
	"underflap/pattern/words"
)

// Table says line by line what is made, and which sheets carry what.
func (o *Occasion) Table() string {
	rows := [][]string{{"", "liner", "envelope", "pattern and colours", "count", "depth", "sheets alone"}}
	for _, l := range o.Lines {
		what := "to trace"
		if !l.Plan.Blank {
			what = sheet.DesignTitle(l.design())
		}
		if l.Vary {
			what += ", varied"
		}
		rows = append(rows, []string{l.Letter, l.Name, l.Plan.Liner.Envelope.Short, what, fmt.Sprint(l.Count), words.MM(l.Plan.Depth), fmt.Sprint(l.Plan.Sheets)})
	}
	text := columns(rows) + "\n"
	rows = [][]string{{"sheets", "paper", "on each"}}
	for _, s := range o.alike() {
		rows = append(rows, []string{fmt.Sprint(s.copies), s.paper, s.carries})
	}
	return text + columns(rows)
}

// kind is sheets that carry the same, whatever their artwork.
type kind struct {
	copies         int
	paper, carries string
}

// alike counts sheets that carry the same one after another.
func (o *Occasion) alike() (kinds []kind) {
	for _, s := range o.Sheets {
		on := make([]int, len(o.Lines))
		for _, pl := range s.Plan.Placements {
			on[s.Lines[pl.Piece]]++
		}
		var carries []string
		for i, n := range on {
			if n > 0 {
				carries = append(carries, fmt.Sprintf("%d %s", n, o.Lines[i].Name))
			}
		}
		k := kind{s.Copies, s.Plan.Paper.Short, strings.Join(carries, ", ")}
		if n := len(kinds); n > 0 && kinds[n-1].paper == k.paper && kinds[n-1].carries == k.carries {
			kinds[n-1].copies += k.copies
			continue
		}
		kinds = append(kinds, k)
	}
	return kinds
}

// columns sets rows in columns, two blanks apart.
func columns(rows [][]string) string {
	widths := make([]int, len(rows[0]))
	for _, row := range rows {
		for i, cell := range row {
			widths[i] = max(widths[i], len([]rune(cell)))
		}
	}
	var b strings.Builder
	for _, row := range rows {
		line := ""
		for i, cell := range row {
			line += cell + strings.Repeat(" ", widths[i]-len([]rune(cell))+2)
		}
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	return b.String()
}

// Remarks are what a person should know of each line, and of sheets whose marks
// found no room; each is said once.
func (o *Occasion) Remarks() (lines []string) {
	say := func(name, what string) {
		if what = strings.TrimSpace(what); what != "" && !slices.Contains(lines, name+": "+what) {
			lines = append(lines, name+": "+what)
		}
	}
	for _, l := range o.Lines {
		for _, remark := range l.Request.Found.Remarks {
			say(l.Name, remark)
		}
		for remark := range strings.Lines(l.Plan.Advice) {
			say(l.Name, remark)
		}
	}
	for _, s := range o.Sheets {
		for _, remark := range s.Marks.Remarks() {
			say("sheet of "+strings.Join(o.names(s.Sheet), " and "), remark)
		}
	}
	return lines
}
