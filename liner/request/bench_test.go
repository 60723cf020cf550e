package request

import (
	"io"
	"testing"
)

// Each output of one sheet, C6 on A4, PNG at 600 DPI. Read them as ratios of
// one run.
func BenchmarkSheet(b *testing.B) {
	for _, words := range []Words{{}, {Pattern: "stripes", Turn: "45"}, {Pattern: "scallops"}} {
		name := or(words.Pattern, "dots")
		r, err := Resolve(words)
		if err != nil {
			b.Fatal(err)
		}
		for _, format := range Formats {
			b.Run(name+"/"+format, func(b *testing.B) {
				b.ReportAllocs()
				for range b.N {
					made, err := r.Make()
					if err != nil {
						b.Fatal(err)
					}
					if err := (Output{Format: format, DPI: 600}).Encode(io.Discard, made.Pages); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
