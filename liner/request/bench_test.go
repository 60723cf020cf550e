package request

import (
	"io"
	"testing"
)

// Each output of one sheet, C6 on A4, PNG at 600 DPI: compare them with each other.
func BenchmarkSheet(b *testing.B) {
	for _, words := range []Words{{}, {Pattern: "stripes", Turn: "45"}, {Pattern: "scallops"}} {
		r, err := Resolve(b.Context(), words)
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
	}
}

func writeOnce(b *testing.B, r Request, format string, w io.Writer) {
	made, err := r.Make(b.Context())
	if err != nil {
		b.Fatal(err)
	}
	if err := (Output{Format: format, DPI: truthDPI}).Encode(b.Context(), w, made.Pages); err != nil {
		b.Fatal(err)
	}
}
