package request

import (
	"bytes"
	"io"
	"testing"
	"time"

	"underflap/pattern/draw/referee"
)

// Each output of one sheet, C6 on A4, PNG at 600 DPI, and how long our PNG takes
// against the time each referee takes to draw our PDF or SVG at the same
// density and write it: "x-poppler" 0.5 is half poppler's time, all in one run.
func BenchmarkSheet(b *testing.B) {
	for _, words := range []Words{{}, {Pattern: "stripes", Turn: "45"}, {Pattern: "scallops"}} {
		r, err := Resolve(words)
		if err != nil {
			b.Fatal(err)
		}
		for _, format := range Formats {
			b.Run(r.Design.Name+"/"+format, func(b *testing.B) {
				b.ReportAllocs()
				for range b.N {
					writeOnce(b, r, format, io.Discard)
				}
			})
		}
		b.Run(r.Design.Name+"/png-against", func(b *testing.B) {
			var pdf, svg bytes.Buffer
			writeOnce(b, r, "pdf", &pdf)
			writeOnce(b, r, "svg", &svg)
			ours := took(b.N, func() { writeOnce(b, r, "png", io.Discard) })
			for name, render := range referee.Renderers {
				theirs := took(b.N, func() { render(b, pdf.Bytes(), truthDPI) })
				b.ReportMetric(ours.Seconds()/theirs.Seconds(), "x-"+name)
			}
			theirs := took(b.N, func() { referee.SVG(b, svg.Bytes(), truthDPI, "") })
			b.ReportMetric(ours.Seconds()/theirs.Seconds(), "x-librsvg")
		})
	}
}

func took(n int, f func()) time.Duration {
	start := time.Now()
	for range n {
		f()
	}
	return time.Since(start)
}

func writeOnce(b *testing.B, r Request, format string, w io.Writer) {
	made, err := r.Make()
	if err != nil {
		b.Fatal(err)
	}
	if err := (Output{Format: format, DPI: truthDPI}).Encode(w, made.Pages); err != nil {
		b.Fatal(err)
	}
}
