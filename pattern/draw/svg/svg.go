// Package svg writes a page as an SVG file in millimetres, each layer a group
// of its own, so that a cutting machine can take the cut lines alone. Text is
// written as outlines: the page looks the same without its fonts installed.
package svg

import (
	"bufio"
	"context"
	"encoding/base64"
	"fmt"
	"html"
	"io"
	"strconv"
	"strings"

	"underflap/pattern/draw"
)

// Write writes one page to w. When ctx ends it stops and gives the context's
// error.
func Write(ctx context.Context, w io.Writer, page *draw.Page) error {
	s := &writer{ctx: ctx, symbols: map[*draw.Symbol]string{}, images: map[*draw.Image]string{}}
	s.nodes(&s.body, page.Nodes(), "  ")
	if err := ctx.Err(); err != nil {
		return err
	}
	out := bufio.NewWriter(w)
	fmt.Fprintf(out, `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="%smm" height="%smm" viewBox="0 0 %s %s">
  <title>%s</title>
`, num(page.Width), num(page.Height), num(page.Width), num(page.Height), html.EscapeString(page.Title))
	if page.About != "" {
		fmt.Fprintf(out, "  <desc>%s</desc>\n", html.EscapeString(page.About))
	}
	if s.defs.Len() > 0 {
		fmt.Fprintf(out, "  <defs>\n%s  </defs>\n", s.defs.String())
	}
	out.WriteString(s.body.String())
	out.WriteString("</svg>\n")
	return out.Flush()
}

type writer struct {
	ctx        context.Context
	defs, body strings.Builder
	symbols    map[*draw.Symbol]string
	images     map[*draw.Image]string
	clips      int
}

func (s *writer) nodes(to *strings.Builder, nodes []draw.Node, indent string) {
	for _, n := range nodes {
		if s.ctx.Err() != nil {
			return
		}
		switch n := n.(type) {
		case *draw.Fill:
			rule := ""
			if n.EvenOdd {
				rule = ` fill-rule="evenodd"`
			}
			fmt.Fprintf(to, "%s<path fill=\"%s\"%s d=\"%s\"/>\n", indent, n.Colour.Hex(), rule, data(n.Path))
		case *draw.Stroke:
			fmt.Fprintf(to, "%s<path fill=\"none\" stroke=\"%s\" stroke-width=\"%s\" stroke-linecap=\"round\" stroke-linejoin=\"round\" d=\"%s\"/>\n",
				indent, n.Colour.Hex(), num(n.Width), data(n.Path))
		case *draw.Group:
			fmt.Fprintf(to, "%s<g%s%s>\n", indent, transform(n.Matrix), s.clip(n.Clip))
			s.nodes(to, n.Nodes, indent+"  ")
			fmt.Fprintf(to, "%s</g>\n", indent)
		case *draw.Layer:
			fmt.Fprintf(to, "%s<g id=\"%s\">\n", indent, n.Name)
			s.nodes(to, n.Nodes, indent+"  ")
			fmt.Fprintf(to, "%s</g>\n", indent)
		case *draw.Use:
			id := s.symbol(n.Symbol)
			for _, m := range n.At {
				fmt.Fprintf(to, "%s<use xlink:href=\"#%s\"%s/>\n", indent, id, place(m))
			}
		case *draw.Picture:
			fmt.Fprintf(to, "%s<use xlink:href=\"#%s\"%s/>\n", indent, s.image(n.Image), transform(n.At))
		case *draw.Text:
			fmt.Fprintf(to, "%s<path aria-label=\"%s\"%s fill=\"%s\" d=\"%s\"/>\n", indent,
				html.EscapeString(n.String), transform(n.At), n.Colour.Hex(), data(n.Font.Outlines(n.String, n.Size)))
		}
	}
}

func (s *writer) clip(p draw.Path) string {
	if len(p.Points) == 0 {
		return ""
	}
	s.clips++
	fmt.Fprintf(&s.defs, "    <clipPath id=\"clip-%d\"><path d=\"%s\"/></clipPath>\n", s.clips, data(p))
	// isolated, or some viewers soften the edge of everything in it one by one,
	// and what lies below shows through where the clip cuts
	return fmt.Sprintf(` clip-path="url(#clip-%d)" style="isolation:isolate"`, s.clips)
}

func (s *writer) symbol(made *draw.Symbol) string {
	if id, ok := s.symbols[made]; ok {
		return id
	}
	var b strings.Builder
	s.nodes(&b, made.Nodes, "      ")
	id := fmt.Sprintf("motif-%d", len(s.symbols)+1)
	s.symbols[made] = id
	fmt.Fprintf(&s.defs, "    <g id=\"%s\">\n%s    </g>\n", id, b.String())
	return id
}

func (s *writer) image(img *draw.Image) string {
	if id, ok := s.images[img]; ok {
		return id
	}
	kind, file := img.File(s.ctx)
	id := fmt.Sprintf("art-%d", len(s.images)+1)
	s.images[img] = id
	fmt.Fprintf(&s.defs, "    <image id=\"%s\" width=\"1\" height=\"1\" preserveAspectRatio=\"none\" xlink:href=\"data:image/%s;base64,%s\"/>\n",
		id, kind, base64.StdEncoding.EncodeToString(file))
	return id
}

// place is the shorter x and y where a symbol is only slid.
func place(m draw.Matrix) string {
	if m.A == 1 && m.B == 0 && m.C == 0 && m.D == 1 {
		return fmt.Sprintf(` x="%s" y="%s"`, num(m.E), num(m.F))
	}
	return transform(m)
}

func transform(m draw.Matrix) string {
	if m == draw.Identity {
		return ""
	}
	var parts []string
	for _, v := range []float64{m.A, m.B, m.C, m.D, m.E, m.F} {
		parts = append(parts, strconv.FormatFloat(v, 'g', 9, 64))
	}
	return ` transform="matrix(` + strings.Join(parts, " ") + `)"`
}

func data(p draw.Path) string {
	var b strings.Builder
	letter := map[draw.Verb]string{draw.Move: "M", draw.Line: "L", draw.Cubic: "C", draw.Close: "Z"}
	p.Steps(func(v draw.Verb, points []draw.Point) {
		b.WriteString(letter[v])
		for i, q := range points {
			if i > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(num(q.X) + " " + num(q.Y))
		}
	})
	return b.String()
}

// num writes a length with at most four decimals: a ten-thousandth of a
// millimetre.
func num(v float64) string { return draw.Decimals(v, 4) }
