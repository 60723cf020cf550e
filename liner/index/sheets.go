package index

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

var sheetCards = []cards{
	{least: 110, wide: 62, high: 84, upTo: 1},
	{least: 84, wide: 46, high: 63, upTo: 2},
	{least: 84, wide: 38, high: 52, upTo: 6},
	{least: 78, wide: 32, high: 43, upTo: math.MaxInt},
	{least: 58, wide: 24, high: 33, upTo: math.MaxInt}, // where that saves a page
}

// alike are sheets that are cut alike and carry the same kinds, whatever the
// designs of their liners.
type alike struct {
	Sheet // the first
	all   []Sheet
	at    []int // their places among all sheets
}

func (a alike) copies() (n int) {
	for _, s := range a.all {
		n += s.copies()
	}
	return n
}

// cutKey tells sheets apart by what a person cuts.
func (s Sheet) cutKey() string {
	var b strings.Builder
	fmt.Fprint(&b, s.Plan.Paper.Width, s.Plan.Paper.Height, s.Plan.Layout, s.Plan.Blank, s.Lines)
	for _, pl := range s.Plan.Placements {
		piece := s.Plan.Pieces[pl.Piece]
		box := piece.Outline.Bounds()
		fmt.Fprintf(&b, " %d %d %.4f %.4f %.4f %.4f %.4f", pl.Piece, pl.Turn, pl.DX, pl.DY, box.Width(), box.Height(), piece.Depth)
	}
	return b.String()
}

func gathered(sheets []Sheet) []alike {
	var all []alike
	at := map[string]int{}
	for place, s := range sheets {
		key := s.cutKey()
		i, known := at[key]
		if !known {
			i = len(all)
			at[key] = i
			all = append(all, alike{Sheet: s})
		}
		all[i].all, all[i].at = append(all[i].all, s), append(all[i].at, place)
	}
	return all
}

// sheets is the part that shows every sheet, with so many pages before the first.
func (l layout) sheets(ahead int) []item {
	all := gathered(l.Sheets)
	size := sizeOf(sheetCards, len(all), l.dense.sheets)
	columns, width := l.columns(size.least, len(all))
	wide := math.Min(size.wide, 0.42*width)
	high := math.Min(size.high, 0.4*l.room.Height())
	var cards []item
	for _, a := range all {
		cards = append(cards, l.sheetCard(a, ahead, width, wide, high))
	}
	if len(cards) == 0 {
		return nil
	}
	return append([]item{l.heading("Sheets, and how to cut them")}, l.rows(cards, columns, width)...)
}

func (l layout) sheetCard(a alike, ahead int, width, wide, high float64) item {
	m := newSmall(a.Sheet, l.Lines, wide, high)
	x := wide + besidePicture
	room := width - x
	heading := para{font: draw.Bold, size: nameType, colour: ink, most: 1}
	if a.File != "" { // whole, for its end is what tells it from others
		heading.size, heading.most = readType, 6
		heading.text = broken(a.files(), draw.Bold, readType, room)
	} else {
		heading.text = a.pages(ahead, func(s string) bool { return draw.Bold.Width(written(s, draw.Bold), nameType) <= room })
	}
	paras := []para{heading}
	if how := a.how(l.papers()); how != "" {
		paras = append(paras, para{text: how, font: draw.Regular, size: smallType, colour: grey, before: 0.4, most: 2})
	}
	for i, said := range l.carried(a.Sheet) {
		p := para{text: said, font: draw.Regular, size: readType, colour: ink, most: 1}
		if i == 0 {
			p.before = 1.4
		}
		paras = append(paras, p)
	}
	for i, said := range cutting(a.Sheet) {
		p := para{text: said, font: draw.Regular, size: smallType, colour: ink, before: 0.5, most: 12}
		if i == 0 {
			p.before = 1.6
		}
		paras = append(paras, p)
	}
	c := set(room, 0.8*l.room.Height(), paras...)
	top := func(at draw.Point) draw.Point { return draw.Point{X: at.X + (wide-m.width)/2, Y: at.Y} }
	return item{
		height: math.Max(m.height, c.height),
		artwork: func(_ context.Context, s *draw.Surface, at draw.Point) error {
			m.artwork(s, top(at))
			return nil
		},
		notes: func(s *draw.Surface, at draw.Point) {
			m.notes(s, top(at))
			c.draw(s, draw.Point{X: at.X + x, Y: at.Y})
		},
	}
}

// papers is how many papers the sheets are of.
func (l layout) papers() int {
	names := map[string]bool{}
	for _, s := range l.Sheets {
		names[s.Plan.Paper.Name] = true
	}
	return len(names)
}

// how tells how many sheets there are, and of which paper where there are several.
func (a alike) how(papers int) string {
	n := a.copies()
	said := ""
	if n > 1 || papers > 1 {
		said = counted(n, "sheet", "sheets")
	}
	if papers > 1 {
		said += " of " + a.Plan.Paper.Short
	}
	if n > 1 {
		said += ", cut alike"
	}
	return said
}

// pages tells which pages the sheets are, as many of them as fit one line.
func (a alike) pages(ahead int, fits func(string) bool) string {
	type span struct{ first, last int }
	var spans []span
	for _, s := range a.all {
		first, last := s.First+ahead, s.Last+ahead
		if n := len(spans); n > 0 && spans[n-1].last+1 == first {
			spans[n-1].last = last
			continue
		}
		spans = append(spans, span{first, last})
	}
	title := "Page "
	if len(spans) > 1 || spans[0].first != spans[0].last {
		title = "Pages "
	}
	for i, s := range spans {
		more := fmt.Sprint(s.first)
		if s.last > s.first {
			more += fmt.Sprintf("–%d", s.last)
		}
		if i > 0 {
			more = ", " + more
		}
		if i > 0 && !fits(title+more+" …") && !(i == len(spans)-1 && fits(title+more)) {
			return title + " …"
		}
		title += more
	}
	return title
}

// files names the file, of several the first and how many more there are.
func (a alike) files() string {
	if more := len(a.all) - 1; more > 0 {
		return fmt.Sprintf("%s and %d more", a.File, more)
	}
	return a.File
}

// carried says what is on a sheet, by line.
func (l layout) carried(s Sheet) []string {
	count := map[int]int{}
	var order []int
	for _, pl := range s.Plan.Placements {
		line := s.Lines[pl.Piece]
		if count[line] == 0 {
			order = append(order, line)
		}
		count[line]++
	}
	slices.Sort(order)
	var said []string
	for _, line := range order {
		said = append(said, fmt.Sprintf("%d × %s  %s", count[line], l.Lines[line].Letter, l.Lines[line].Name))
	}
	return said
}

// cutting says how the liners come out of the sheet: trimmer cuts in their
// order, each direction on a line.
func cutting(s Sheet) []string {
	cuts := s.Marks.Cuts()
	if len(cuts) == 0 {
		if len(s.Plan.Placements) == 1 {
			return []string{"Cut on the thin line."}
		}
		return []string{"Cut apart between them, then on the thin line."}
	}
	var said []string
	for i := 0; i < len(cuts); {
		k := i
		var at []string
		for ; k < len(cuts) && cuts[k].Upright == cuts[i].Upright; k++ {
			at = append(at, words.Tenth(cuts[k].At))
		}
		number, which, edge := fmt.Sprintf("Cut %d", cuts[i].Number), "level", "top"
		if cuts[i].Upright {
			which, edge = "upright", "left"
		}
		if k > i+1 {
			number = fmt.Sprintf("Cuts %d–%d", cuts[i].Number, cuts[k-1].Number)
		}
		said = append(said, fmt.Sprintf("%s: %s, %s mm from the %s", number, which, words.List(at), edge))
		i = k
	}
	return append(said, "Then on the thin line.")
}
