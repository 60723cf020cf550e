// Package pdf writes pages as a PDF file at true size: vector paths, symbols
// as form XObjects, pictures embedded once, the page's layers as optional
// content, and viewer preferences that ask for printing without scaling. The
// same pages give the same bytes.
package pdf

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"underflap/pattern/draw"
	"underflap/pattern/draw/progress"
)

// pointsPerMM is exact: 72 points to the inch, 25.4 mm to the inch.
const pointsPerMM = 72 / 25.4

// Write writes the pages, all of one size, to w; a page named again is shown
// again but stored once. When made is not zero it is recorded as the creation
// time, else the file has none. When ctx ends it stops and gives the context's
// error.
func Write(ctx context.Context, w io.Writer, all []*draw.Page, made time.Time) error {
	pages, order := distinct(all)
	first := pages[0]
	width, height := first.Width*pointsPerMM, first.Height*pointsPerMM
	doc := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: width, Ht: height}})
	doc.SetMargins(0, 0, 0)
	doc.SetAutoPageBreak(false, 0)
	doc.SetCatalogSort(true)
	doc.SetCreationDate(time.Unix(0, 0).UTC())
	doc.SetModificationDate(time.Unix(0, 0).UTC())
	doc.SetTitle(first.Title, true)
	if first.About != "" {
		doc.SetSubject(first.About, true)
	}
	doc.SetLang("en")

	p := &writer{ctx: ctx, doc: doc, layers: map[string]int{}, forms: map[*draw.Symbol]*form{}, pictures: map[*draw.Image]picture{}}
	for _, name := range []string{draw.Artwork, draw.Cut, draw.Fold, draw.Notes} {
		p.layers[name] = doc.AddLayer(name, true)
	}
	for _, f := range []*draw.Font{draw.Regular, draw.Bold} {
		if uses(pages, f) {
			doc.AddUTF8FontFromBytes(family(f), "", f.TTF)
		}
	}
	p.register(pages)
	drawn := progress.Begin(ctx, "page", len(pages))
	defer drawn.End()
	for _, page := range pages {
		bleed := page.Trim.Grow(page.Bleed)
		box(doc, "trim", page.Trim, page)
		box(doc, "bleed", bleed, page)
		doc.AddPage()
		doc.RawWriteStr(fmt.Sprintf("q %s 0 0 -%s 0 %s cm\n", num(pointsPerMM), num(pointsPerMM), num(height)))
		p.nodes(doc, page.Nodes())
		doc.RawWriteStr("Q\n")
		drawn.Done(1)
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	var out bytes.Buffer
	if err := doc.Output(&out); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	return finish(ctx, w, out.Bytes(), grey(pages), order, width, height, made)
}

// grey tells of each page whether everything on it is grey.
func grey(pages []*draw.Page) []bool {
	all := make([]bool, len(pages))
	for i, page := range pages {
		all[i] = true
		of := func(c draw.Colour) bool { return c.R == c.G && c.G == c.B }
		draw.Walk(page.Nodes(), func(n draw.Node) {
			switch n := n.(type) {
			case *draw.Fill:
				all[i] = all[i] && of(n.Colour)
			case *draw.Stroke:
				all[i] = all[i] && of(n.Colour)
			case *draw.Text:
				all[i] = all[i] && of(n.Colour)
			case *draw.Picture:
				all[i] = all[i] && n.Image.Grey()
			}
		})
	}
	return all
}

// distinct lists each page once, and for every page asked for its place in
// that list.
func distinct(all []*draw.Page) (pages []*draw.Page, order []int) {
	place := map[*draw.Page]int{}
	for _, page := range all {
		if _, seen := place[page]; !seen {
			place[page] = len(pages)
			pages = append(pages, page)
		}
		order = append(order, place[page])
	}
	return pages, order
}

// box sets a page box, kept inside the sheet.
func box(doc *fpdf.Fpdf, name string, r draw.Rect, page *draw.Page) {
	x0, y0 := max(r.MinX, 0), max(r.MinY, 0)
	x1, y1 := min(r.MaxX, page.Width), min(r.MaxY, page.Height)
	if x1 > x0 && y1 > y0 {
		doc.SetPageBox(name, x0*pointsPerMM, (page.Height-y1)*pointsPerMM, (x1-x0)*pointsPerMM, (y1-y0)*pointsPerMM)
	}
}

func uses(pages []*draw.Page, f *draw.Font) bool {
	found := false
	for _, page := range pages {
		draw.Walk(page.Nodes(), func(n draw.Node) {
			if t, ok := n.(*draw.Text); ok && t.Font == f {
				found = true
			}
		})
	}
	return found
}

func family(f *draw.Font) string { return strings.ReplaceAll(f.Name, " ", "") }

// form is a symbol as a form XObject. Its space begins at the corner of the
// symbol's bounds, so placing it needs a slide.
type form struct {
	tpl   fpdf.Template
	name  string
	slide draw.Matrix
	size  fpdf.SizeType
}

type writer struct {
	ctx      context.Context
	doc      *fpdf.Fpdf
	layers   map[string]int
	forms    map[*draw.Symbol]*form
	pictures map[*draw.Image]picture
}

// nodes writes in millimetres with y down: the page's first operator, and each
// form's place, have turned the space.
func (p *writer) nodes(to *fpdf.Fpdf, nodes []draw.Node) {
	for _, n := range nodes {
		if p.ctx.Err() != nil {
			return
		}
		switch n := n.(type) {
		case *draw.Fill:
			operator := "f\n"
			if n.EvenOdd {
				operator = "f*\n"
			}
			to.RawWriteStr(rgb(n.Colour, "rg") + path(n.Path) + operator)
		case *draw.Stroke:
			to.RawWriteStr(rgb(n.Colour, "RG") + num(n.Width) + " w 1 J 1 j " + path(n.Path) + "S\n")
		case *draw.Group:
			to.RawWriteStr("q\n")
			if n.Matrix != draw.Identity {
				to.RawWriteStr(cm(n.Matrix))
			}
			if len(n.Clip.Points) > 0 {
				to.RawWriteStr(path(n.Clip) + "W n\n")
			}
			p.nodes(to, n.Nodes)
			to.RawWriteStr("Q\n")
		case *draw.Layer:
			to.BeginLayer(p.layers[n.Name])
			p.nodes(to, n.Nodes)
			to.EndLayer()
		case *draw.Use:
			p.use(to, n)
		case *draw.Picture:
			p.picture(to, n)
		case *draw.Text:
			p.text(to, n)
		}
	}
}

func (p *writer) use(to *fpdf.Fpdf, n *draw.Use) {
	f := p.form(n.Symbol)
	_, pageHeight := to.GetPageSize()
	var b strings.Builder
	for i, m := range n.At {
		b.WriteString("q ")
		b.WriteString(cm(m.After(f.slide)))
		if i == 0 { // through the library once, so that it lists the form among the page's resources
			to.RawWriteStr(b.String())
			b.Reset()
			to.UseTemplateScaled(f.tpl, fpdf.PointType{Y: pageHeight - f.size.Ht}, f.size)
		} else {
			b.WriteString(f.name)
		}
		b.WriteString("Q\n")
	}
	to.RawWriteStr(b.String())
}

func (p *writer) form(s *draw.Symbol) *form {
	if made, ok := p.forms[s]; ok {
		return made
	}
	const room = 2 // a pixel on a screen at half scale and less, or the box would cut soft edges a second time
	r := s.Bounds().Grow(room)
	f := &form{slide: draw.Translate(r.MinX, r.MinY), size: fpdf.SizeType{Wd: r.Width(), Ht: r.Height()}}
	f.tpl = p.doc.CreateTemplateCustom(fpdf.PointType{}, f.size, func(t *fpdf.Tpl) {
		t.RawWriteStr("q " + cm(draw.Translate(-r.MinX, -r.MinY)))
		p.nodes(&t.Fpdf, s.Nodes)
		t.RawWriteStr("Q")
	})
	f.name = "/TPL" + f.tpl.ID() + " Do "
	p.forms[s] = f
	return f
}

// unitUp stands a unit square with y up on one with y down.
var unitUp = draw.Matrix{A: 1, D: -1, F: 1}

// register hands every picture to the library before any form is made: a form
// takes over the pictures known so far, and one that registers a picture again
// gets a second record of it, which the library may leave out of the file.
func (p *writer) register(pages []*draw.Page) {
	for _, page := range pages {
		draw.Walk(page.Nodes(), func(n draw.Node) {
			pic, ok := n.(*draw.Picture)
			if !ok || p.pictures[pic.Image].name != "" || p.ctx.Err() != nil {
				return
			}
			name := fmt.Sprintf("picture-%d", len(p.pictures)+1)
			kind, data := pic.Image.File(p.ctx)
			if p.ctx.Err() != nil {
				return // half a file
			}
			p.doc.RegisterImageOptionsReader(name, pictureOptions(kind), bytes.NewReader(data))
			p.pictures[pic.Image] = picture{name, pictureOptions(kind)}
		})
	}
}

// picture is how the library knows a picture.
type picture struct {
	name    string
	options fpdf.ImageOptions
}

func pictureOptions(kind string) fpdf.ImageOptions {
	return fpdf.ImageOptions{ImageType: kind, AllowNegativePosition: true}
}

func (p *writer) picture(to *fpdf.Fpdf, n *draw.Picture) {
	known := p.pictures[n.Image]
	to.RawWriteStr("q " + cm(n.At.After(unitUp)))
	_, pageHeight := to.GetPageSize()
	to.ImageOptions(known.name, 0, pageHeight-1, 1, 1, false, known.options, 0, "")
	to.RawWriteStr("Q\n")
}

// text is set at a size of 100 and scaled, since the library rounds sizes.
func (p *writer) text(to *fpdf.Fpdf, n *draw.Text) {
	const set = 100
	k := n.Size / set
	to.RawWriteStr("q " + cm(n.At.After(draw.Matrix{A: k, D: -k})))
	to.SetFont(family(n.Font), "", set)
	to.SetTextColor(int(n.Colour.R), int(n.Colour.G), int(n.Colour.B))
	_, pageHeight := to.GetPageSize()
	to.Text(0, pageHeight, n.String)
	to.RawWriteStr("Q\n")
}
