package occasion

import (
	"context"
	"crypto/sha256"
	"fmt"
	"os"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"underflap/liner"
	"underflap/liner/gang"
	"underflap/liner/request"
	"underflap/liner/sheet"
	"underflap/pattern"
	"underflap/pattern/draw"
)

// Sheet is sheets that are alike to the last dot.
type Sheet struct {
	gang.Sheet
	Designs []pattern.Design // of each placement
	File    string           // its name, by what shapes it
	Title   string

	run int // the same of sheets whose liners lie alike
}

// Names are those of its lines, each once.
func (o *Occasion) names(s gang.Sheet) (names []string) {
	for _, line := range s.Lines {
		if name := o.Lines[line].Name; !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// mostInName bounds the part of a file's name that says what is on the sheet.
const mostInName = 60

// name calls a sheet by everything that shapes the bytes of its file.
func (s *Sheet) name(o *Occasion) {
	names := o.names(s.Sheet)
	s.Title = fmt.Sprintf("%s: %s, on %s", o.Title, strings.Join(names, " and "), s.Plan.Paper.Short)
	h := sha256.New()
	say := func(parts ...any) { fmt.Fprintln(h, parts...) }
	say("underflap", o.tool, "date", os.Getenv("SOURCE_DATE_EPOCH"), "copies", s.Copies)
	say(fmt.Sprintf("%q", s.Title))
	t := s.Plan.Task
	t.Liner = liner.Liner{} // that of every piece follows
	say(fmt.Sprintf("%+v", t))
	say(s.Plan.Depth, s.Plan.FullDepth, s.Plan.Count, o.Lines[s.Lines[0]].Request.Correction)
	for i, p := range s.Plan.Pieces {
		l := o.Lines[s.Lines[i]]
		say(fmt.Sprintf("%q %q %x", p.Name, l.Name, l.artwork), p.Depth, p.Liner.Clearances)
		e := p.Liner.Envelope
		say(fmt.Sprintf("%q %q", e.Name, e.Short), e.Width, e.Height, e.Gum, e.Flap, p.Outline.Left, p.Outline.Right)
		say(p.Outline.Contour)
	}
	for i, pl := range s.Plan.Placements {
		say(pl.Piece, pl.Turn, pl.DX, pl.DY, s.Designs[i].Seed, s.Designs[i].Turn)
	}
	s.File = fmt.Sprintf("sheet-%s-%x.pdf", slug(names), h.Sum(nil)[:6])
}

// slug is what names are called in a file's name: letters and digits of ASCII, without
// accents, with dashes between.
func slug(names []string) string {
	var b strings.Builder
	for _, r := range norm.NFKD.String(strings.ReplaceAll(strings.ToLower(strings.Join(names, " ")), "ß", "ss")) {
		switch {
		case unicode.Is(unicode.Mn, r): // an accent by itself
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() == mostInName {
			break
		}
	}
	if name := strings.Trim(b.String(), "-"); name != "" {
		return name
	}
	return "liners"
}

// draw draws a sheet. It may be drawn beside others.
func (s Sheet) draw(ctx context.Context, c request.Correction) (*draw.Page, error) {
	designs := make([]pattern.Design, len(s.Designs))
	for i, d := range s.Designs {
		designs[i] = d.Apart()
	}
	page, err := sheet.DrawSheet(ctx, s.Plan, s.Marks, designs)
	if err != nil {
		return nil, err
	}
	page.Title = s.Title
	return c.Apply([]*draw.Page{page})[0], nil
}

// pages are a sheet's pages: one, as often as it is wanted.
func (o *Occasion) pages(ctx context.Context, s Sheet) ([]*draw.Page, error) {
	page, err := s.draw(ctx, o.Lines[s.Lines[0]].Request.Correction)
	if err != nil {
		return nil, err
	}
	return slices.Repeat([]*draw.Page{page}, s.Copies), nil
}
