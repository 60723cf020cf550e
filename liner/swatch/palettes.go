package swatch

import (
	"context"
	"fmt"
	"math"
	"strings"

	"underflap/liner"
	"underflap/palettes"
	"underflap/pattern"
	"underflap/pattern/draw"
	"underflap/pattern/draw/progress"
	"underflap/pattern/draw/setting"
	"underflap/pattern/words"
)

// Group is samples under a heading of their own.
type Group struct {
	Heading string
	Samples []Sample
}

// Of a page of palettes; lengths are millimetres.
const (
	groupTitle  = 3.6 // em of a group's heading
	groupRoom   = 9.0 // over a group, for its heading
	belowCard   = 9.5 // room of a palette's name and colours
	colourEm    = 1.7 // of the colours' numbers, or less where there are many
	leastEm     = 1.1
	leastCard   = 24.0 // wide
	leastTall   = 14.0
	chipShare   = 0.34 // of a card's height, where the chips lie
	between     = 1.2  // sample and chips
	mostOfWidth = 1.0  // a card's height is no more than this many widths
)

var (
	grey = draw.Colour{R: 120, G: 117, B: 122}
	pale = draw.Colour{R: 205, G: 203, B: 206}
)

// Palettes lays out palettes in groups: of each a card with a sample of the
// design over chips of its inks, its name and its colours as numbers. It refuses a
// paper on which the cards would be too small, and designs that a liner could not
// carry either.
func Palettes(ctx context.Context, paper liner.Paper, margin float64, heading string, groups []Group) (*draw.Page, error) {
	left, top := margin+3, margin+3+1.6*title
	width, height := paper.Width-2*left, paper.Height-top-margin-3
	columns, card := cards(groups, width, height)
	if card.MaxX < leastCard || card.MaxY < leastTall {
		return nil, &words.Refused{Field: "paper", Given: paper.Short, Why: fmt.Sprintf("%d palettes would be under %s wide or %s high",
			count(groups), words.MM(leastCard), words.MM(leastTall)), Accepts: "a larger paper"}
	}
	page := headed(ctx, paper, margin, heading)

	type placed struct {
		Sample
		x, y float64
	}
	var all []placed
	y := top
	headings := map[string]float64{}
	for _, g := range groups {
		headings[g.Heading] = y + groupRoom - 3.2
		y += groupRoom
		for i, s := range g.Samples {
			all = append(all, placed{s, left + float64(i%columns)*(card.MaxX+apart), y + float64(i/columns)*(card.MaxY+belowCard)})
		}
		y += float64(rowsOf(g, columns)) * (card.MaxY + belowCard)
	}
	sample, strip := card, card
	sample.MaxY = card.MaxY*(1-chipShare) - between
	strip.MinY = sample.MaxY + between
	area := middled(sample)
	for _, s := range all {
		if err := s.Design.Check(area); err != nil {
			return nil, err
		}
	}
	drawn := progress.Begin(ctx, "sample", len(all))
	defer drawn.End()
	page.Layer(draw.Artwork, func(s *draw.Surface) {
		for _, p := range all {
			s.Within(draw.Translate(p.x, p.y), func(s *draw.Surface) {
				s.Within(draw.Translate(sample.MaxX/2, sample.MaxY/2), func(s *draw.Surface) { p.draw(s, area) })
				s.Fill(rounded(strip), p.Design.Colours.Ground)
				chips(s, p.Design.Colours, strip)
				if palettes.Difference(p.Design.Colours.Ground, draw.White) < palettes.LeastToGround { // else their edges are lost
					s.Stroke(rounded(sample), pale, 0.15)
					s.Stroke(rounded(strip), pale, 0.15)
				}
			})
			drawn.Done(1)
		}
	})
	em := numbersEm(groups, card.MaxX)
	page.Layer(draw.Notes, func(s *draw.Surface) {
		s.Text(heading, draw.Bold, title, draw.Translate(left, margin+3+title*0.75), ink)
		for _, g := range groups {
			s.Text(g.Heading, draw.Bold, groupTitle, draw.Translate(left, headings[g.Heading]), ink)
		}
		for _, p := range all {
			s.Text(setting.Shortened(p.Name, draw.Regular, name, card.MaxX), draw.Regular, name, draw.Translate(p.x, p.y+card.MaxY+1.25*name), ink)
			if line := numbers(p.Design.Colours); fits(line, em, card.MaxX) { // underflap palettes tells the others
				s.Text(line, draw.Regular, em, draw.Translate(p.x, p.y+card.MaxY+1.25*name+2.9), grey)
			}
		}
	})
	return page, ctx.Err()
}

// chips are the inks in a row on the bare ground.
func chips(s *draw.Surface, c pattern.Colours, strip draw.Rect) {
	n := float64(len(c.Inks))
	across := strip.MaxX / (n + 0.4)
	radius := math.Min(0.42*across, 0.34*(strip.MaxY-strip.MinY))
	across = math.Min(across, 3*radius) // few chips stay together
	start := strip.MaxX/2 - across*(n-1)/2
	for i, colour := range c.Inks {
		s.Fill(draw.Circle(start+float64(i)*across, (strip.MinY+strip.MaxY)/2, radius), colour)
	}
}

// numbers are the colours as one types them, ground first, in one line.
func numbers(c pattern.Colours) string {
	list := []string{c.Ground.Hex()}
	for _, ink := range c.Inks {
		list = append(list, ink.Hex())
	}
	return strings.Join(list, " ")
}

// numbersEm is the em at which all the lines of numbers go under their cards but
// those that nobody could read then, which fits leaves out.
func numbersEm(groups []Group, width float64) float64 {
	em := colourEm
	for _, g := range groups {
		for _, s := range g.Samples {
			if line := numbers(s.Design.Colours); fits(line, leastEm, width) {
				em = math.Min(em, width/draw.Regular.Width(line, 1))
			}
		}
	}
	return em
}

// fits tells whether a line in an em is no wider than width.
func fits(line string, em, width float64) bool {
	return draw.Regular.Width(line, em) <= width*(1+1e-9)
}

// cards finds the columns that make the cards largest, and one card at the origin.
func cards(groups []Group, width, height float64) (columns int, card draw.Rect) {
	for c := 1; c <= 12; c++ {
		rows := 0
		for _, g := range groups {
			rows += rowsOf(g, c)
		}
		w := (width+apart)/float64(c) - apart
		h := (height-groupRoom*float64(len(groups)))/float64(rows) - belowCard
		one := draw.Rect{MaxX: w, MaxY: math.Min(h, mostOfWidth*w)}
		if size := math.Min(one.MaxX, 1.4*one.MaxY); size > math.Min(card.MaxX, 1.4*card.MaxY)+1e-9 {
			columns, card = c, one
		}
	}
	return max(1, columns), card
}

func rowsOf(g Group, columns int) int { return (len(g.Samples) + columns - 1) / columns }

func count(groups []Group) (n int) {
	for _, g := range groups {
		n += len(g.Samples)
	}
	return n
}
