package request

import (
	"context"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"underflap/liner/sheet"
	"underflap/pattern/draw"
	"underflap/pattern/draw/pdf"
	"underflap/pattern/draw/png"
	"underflap/pattern/draw/svg"
	"underflap/pattern/words"
)

// Output is a file to make.
type Output struct {
	Path   string
	Format string // "pdf", "png" or "svg"
	DPI    float64
	Memory *Memory // of what pictures have in common; nil keeps nothing
}

// Formats lists the outputs by their file endings.
var Formats = []string{"pdf", "png", "svg"}

// ResolveOutput reads a target's format from its ending and the density of a PNG.
func ResolveOutput(path, dpi string) (Output, error) {
	o := Output{Path: path, Format: strings.TrimPrefix(strings.ToLower(filepath.Ext(path)), ".")}
	if _, err := words.Choose("output", o.Format, Formats); err != nil || len(filepath.Base(path)) == len(filepath.Ext(path)) {
		return o, &words.Refused{Field: "output", Given: path, Accepts: "a file name that ends in .pdf, .png or .svg"}
	}
	if err := noFolder(path); err != nil {
		return o, err
	}
	var err error
	o.DPI, err = ResolveDPI(dpi)
	return o, err
}

// ResolveDPI reads the density of a PNG in dots per inch.
func ResolveDPI(word string) (float64, error) {
	return words.Number("dpi", or(word, DefaultDPI), 72, 1200)
}

// noFolder refuses a file to write that is a folder, a pipe or a device.
func noFolder(path string) error {
	info, err := os.Stat(path)
	if err != nil || info.Mode().IsRegular() {
		return nil
	}
	why := "no ordinary file"
	if info.IsDir() {
		why = "is a folder"
	}
	return &words.Refused{Field: "output", Given: path, Why: why, Accepts: "a file name"}
}

// Made is a request carried out: how the liners lie, and the drawn sheets.
type Made struct {
	Plan  sheet.Plan
	Marks sheet.Marks
	Pages []*draw.Page
}

// Make plans a request and draws its sheets. When ctx ends it stops and gives the
// context's error.
func (r Request) Make(ctx context.Context) (m Made, err error) {
	m.Plan, m.Marks, err = r.memory.settle(ctx, r.Task)
	if err != nil {
		return m, err
	}
	m.Pages, err = sheet.Draw(ctx, m.Plan, m.Marks, r.Design)
	m.Pages = r.Correction.Apply(m.Pages)
	return m, err
}

// Settle plans a request without drawing it. When ctx ends it stops and gives the
// context's error.
func (r Request) Settle(ctx context.Context) (sheet.Plan, sheet.Marks, error) {
	return r.memory.settle(ctx, r.Task)
}

// MostPixels bounds a PNG: A3 at 1200 dots per inch has 278 million.
const MostPixels = 400_000_000

// Check refuses a density at which the pages would have too many pixels.
func (o Output) Check(pages []*draw.Page) error {
	if w, h := png.Size(pages[0], o.DPI); o.Format == "png" && int64(w)*int64(h) > MostPixels {
		most := math.Floor(o.DPI * math.Sqrt(MostPixels/(float64(w)*float64(h))))
		return &words.Refused{Field: "dpi", Given: fmt.Sprint(o.DPI), Why: fmt.Sprintf("%d by %d pixels", w, h), Accepts: fmt.Sprintf("up to %g at this size", most)}
	}
	return nil
}

// Write writes the pages to the output's file; see Save.
func (o Output) Write(ctx context.Context, pages []*draw.Page) error {
	if err := o.Check(pages); err != nil {
		return err
	}
	return Save(ctx, o.Path, func(w io.Writer) error { return o.Encode(ctx, w, pages) })
}

// Encode writes the pages in the output's format. PNG and SVG hold one page:
// the first, which every full sheet looks like. When ctx ends it stops and gives
// the context's error.
func (o Output) Encode(ctx context.Context, w io.Writer, pages []*draw.Page) error {
	switch o.Format {
	case "png":
		return png.WriteKeeping(ctx, w, pages[0], o.DPI, o.Memory.tiles())
	case "svg":
		return svg.Write(ctx, w, pages[0])
	}
	made, err := SourceDate()
	if err != nil {
		return err
	}
	return pdf.Write(ctx, w, pages, made)
}

// SourceDate is the time that the environment asks files to carry, or zero
// (reproducible-builds.org, SOURCE_DATE_EPOCH).
func SourceDate() (time.Time, error) {
	word := os.Getenv("SOURCE_DATE_EPOCH")
	if word == "" {
		return time.Time{}, nil
	}
	seconds, err := strconv.ParseInt(word, 10, 64)
	if err != nil || seconds < 0 || seconds > 253402300799 {
		return time.Time{}, fmt.Errorf("SOURCE_DATE_EPOCH: %q; accepted: seconds since 1970", word)
	}
	return time.Unix(seconds, 0), nil
}
