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
	for _, alike := range o.runs() {
		copies := 0
		for _, s := range alike {
			copies += s.Copies
		}
		rows = append(rows, []string{fmt.Sprint(copies), alike[0].Plan.Paper.Short, o.carries(alike[0])})
	}
	return text + columns(rows)
}

// carries says what is on a sheet.
func (o *Occasion) carries(s Sheet) string {
	on := make([]int, len(o.Lines))
	for _, pl := range s.Plan.Placements {
		on[s.Lines[pl.Piece]]++
	}
	var all []string
	for i, n := range on {
		if n > 0 {
			all = append(all, fmt.Sprintf("%d %s", n, o.Lines[i].Name))
		}
	}
	return strings.Join(all, ", ")
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
	return append(lines, o.cutRemarks()...)
}
