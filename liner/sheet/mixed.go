package sheet

import (
	"fmt"
	"slices"
	"strings"

	"underflap/liner/geom"
	"underflap/liner/nest"
	"underflap/pattern/words"
)

// Room is the part of the sheet that liners may lie in.
func (t Task) Room() nest.Room { return t.nestRoom() }

// Place carries a way to lie from y up at the room's lower left to y down at the
// sheet's upper left; of says for each which piece it is.
func (t Task) Place(way []nest.Placed, of []int) []Placement {
	room := t.room()
	var at []Placement
	for i, a := range way {
		at = append(at, Placement{Piece: of[i], Turn: a.Turn, DX: room.MinX + a.X, DY: room.MaxY - a.Y})
	}
	return at
}

// Mixed is the settled plan of one sheet that different liners share, and its
// marks. The pieces have names that tell them apart; ways are all those known for
// them to lie, the likeliest first, each a placement for every liner in the same
// order. What the task says of a liner, of layout and of counts does not count,
// but for the straight layout: only pieces that lie in its rows and columns may be
// given under it.
func Mixed(t Task, pieces []Piece, ways ...[]Placement) (Plan, Marks) {
	t.Liner = pieces[0].Liner
	if t.Layout != Straight {
		t.Layout = Nested
	}
	t.PerSheet, t.Count, t.HiddenFoot = len(ways[0]), len(ways[0]), 0
	p := Plan{Task: t, Pieces: pieces, Depth: pieces[0].Depth, FullDepth: t.Liner.FullPocketDepth(), Sheets: 1}
	var each [][][]Placement // of every way where it may be slid
	most := 0
	for _, way := range ways {
		p.Placements = way
		each = append(each, slid(t, way, p.group()))
		most = max(most, len(each[len(each)-1]))
	}
	for i := range most {
		for _, slid := range each {
			if i < len(slid) {
				p.ways = append(p.ways, slid[i])
			}
		}
	}
	p.Placements = p.ways[0]
	return p.Settle()
}

// Among is a sheet of equal liners, settled, on which they are for several
// lines: it stays as it is, but that each placement is of the piece that of says.
func (p Plan) Among(pieces []Piece, of []int) (Plan, Marks) {
	p = p.Part(len(of))
	p.Pieces, p.Placements = pieces, slices.Clone(p.Placements)
	for i := range of {
		p.Placements[i].Piece = of[i]
	}
	return p, Mark(p)
}

// Named is a sheet of equal liners whose steps are headed by their name. Where that
// costs more than a little of the marks it had, it stays as it was.
func (p Plan) Named(name string, m Marks) (Plan, Marks) {
	named := p
	named.Pieces = slices.Clone(p.Pieces)
	named.Pieces[0].Name = name
	if with := Mark(named); with.rank() >= m.rank()-1 {
		return named, with
	}
	return p, m
}

// group is the box around all cut lines.
func (p Plan) group() geom.Box {
	box := p.CutLine(p.Placements[0]).Bounds()
	for _, pl := range p.Placements[1:] {
		box = box.Union(p.CutLine(pl).Bounds())
	}
	return box
}

// mixed tells whether liners on the sheet must be told apart.
func (p Plan) mixed() bool { return len(p.Pieces) > 1 }

// kinds names the liners on the sheet: "C6 liner, pointed flap", or "C6 liner
// and DL liner".
func (p Plan) kinds() string {
	var said []string
	for _, piece := range p.Pieces {
		if name := piece.Liner.Envelope.Short + " liner"; !slices.Contains(said, name) {
			said = append(said, name)
		}
	}
	if len(said) > 1 {
		return words.List(said)
	}
	shape, of := p.Liner.Envelope.Flap.Shape, said[0]
	if p.mixed() {
		of += "s"
	}
	for _, piece := range p.Pieces {
		if piece.Liner.Envelope.Flap.Shape != shape {
			return of
		}
	}
	return fmt.Sprintf("%s, %s flap", of, shape)
}

// sizes says how large the liners are: one line for each kind, with where it
// lies when there are several.
func (p Plan) sizes() []note {
	var lines []note
	for i, piece := range p.Pieces {
		box := piece.Outline.Bounds()
		text := fmt.Sprintf("%s wide, %s high, %s of it below the fold.", words.MM(box.Width()), words.MM(box.Height()), words.MM(piece.Depth))
		if p.mixed() {
			text = fmt.Sprintf("%s (%s): %s", piece.Name, p.where(i), text)
		}
		lines = append(lines, note{text: text})
	}
	return lines
}

// which says in one line where each liner lies; none when they are alike.
func (p Plan) which() []note {
	if !p.mixed() {
		return nil
	}
	var said []string
	for i, piece := range p.Pieces {
		said = append(said, p.where(i)+": "+piece.Name)
	}
	text := strings.Join(said, "; ")
	return []note{{text: strings.ToUpper(text[:1]) + text[1:] + "."}}
}

// where says in words where the liners of a piece lie on the sheet.
func (p Plan) where(piece int) string {
	all, numbers := p.places()
	var said []string
	var at []int
	for i, pl := range p.Placements {
		switch {
		case pl.Piece != piece:
		case numbers != nil:
			at = append(at, numbers[i])
		default:
			said = append(said, all[i])
		}
	}
	if numbers != nil {
		return counted(at)
	}
	return words.List(said)
}

// counted says which of the numbered placements are meant: "no. 2 from the top",
// "nos. 1–3 and 5 from the top".
func counted(numbers []int) string {
	slices.Sort(numbers)
	var spans []string
	for i := 0; i < len(numbers); {
		k := i + 1
		for k < len(numbers) && numbers[k] == numbers[k-1]+1 {
			k++
		}
		switch span := fmt.Sprint(numbers[i]); k - i {
		case 1:
			spans = append(spans, span)
		case 2:
			spans = append(spans, span, fmt.Sprint(numbers[k-1]))
		default:
			spans = append(spans, fmt.Sprintf("%s–%d", span, numbers[k-1]))
		}
		i = k
	}
	if len(numbers) == 1 {
		return "no. " + spans[0] + " from the top"
	}
	return "nos. " + words.List(spans) + " from the top"
}

// apartEnough is the least distance, in millimetres, that is seen as upper and
// lower or as left and right.
const apartEnough = 20.0

// places says in words where each placement lies among the others, each in
// other words, such as "upper left"; where that is not enough it numbers them.
func (p Plan) places() (said []string, numbers []int) {
	middles := make([]geom.Point, len(p.Placements))
	for i, pl := range p.Placements {
		b := p.CutLine(pl).Bounds()
		middles[i] = geom.Point{X: (b.MinX + b.MaxX) / 2, Y: (b.MinY + b.MaxY) / 2}
	}
	in := func(of func(geom.Point) float64, i int, words [3]string) string {
		low, high := of(middles[0]), of(middles[0])
		for _, m := range middles {
			low, high = min(low, of(m)), max(high, of(m))
		}
		switch at := (of(middles[i]) - low) / (high - low); {
		case high-low < apartEnough:
			return ""
		case at < 1.0/3:
			return words[0]
		case at > 2.0/3:
			return words[2]
		}
		return words[1]
	}
	for i := range middles {
		row := in(func(q geom.Point) float64 { return q.Y }, i, [3]string{"upper", "middle", "lower"})
		column := in(func(q geom.Point) float64 { return q.X }, i, [3]string{"left", "centre", "right"})
		word := strings.TrimSpace(row + " " + column)
		if slices.Contains(said, word) || word == "" {
			return nil, numbered(middles)
		}
		said = append(said, word)
	}
	return said, nil
}

// numbered numbers placements from the top of the sheet, and from the left where
// they lie level.
func numbered(middles []geom.Point) []int {
	order := make([]int, len(middles))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		if d := middles[a].Y - middles[b].Y; d < -1 || d > 1 {
			return int(d)
		}
		return int(middles[a].X - middles[b].X)
	})
	numbers := make([]int, len(order))
	for n, i := range order {
		numbers[i] = n + 1
	}
	return numbers
}
