package pdf_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"image/color"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"

	"underflap/pattern/draw"
	"underflap/pattern/draw/pdf"
	"underflap/pattern/draw/referee"
)

// sample is a page with every layer, a symbol placed often, text in two fonts and a
// picture, all of them other ones for other numbers.
func sample(k int, width, height float64, photo *draw.Image) *draw.Page {
	page := draw.NewPage(width, height)
	page.Title, page.About = fmt.Sprintf("Sheet %d of the harvest supper (1 0 R)", k), "liners to join"
	page.Trim, page.Bleed = draw.Rect{MinX: 10, MinY: 10, MaxX: width - 10, MaxY: height - 20 - float64(k%7)}, 2
	page.Layer(draw.Artwork, func(s *draw.Surface) {
		s.Fill(draw.Rectangle(draw.Rect{MinX: 12, MinY: 12, MaxX: width - 12, MaxY: height / 2}), draw.Colour{R: byte(40 * k), G: 190, B: 170})
		dot := s.Symbol("dot", func(s *draw.Surface) {
			s.Fill(draw.Circle(0, 0, 2+float64(k%5)), draw.Colour{R: 150, G: byte(30 * k), B: 30})
		})
		for i := range 40 {
			s.Place(dot, draw.Translate(20+float64(i*7%100), 20+float64(i*13%60)))
		}
		if photo != nil {
			s.Picture(photo, draw.Translate(20, 90).After(draw.Matrix{A: 30, D: 20}))
		}
	})
	line := func(x, y float64) draw.Path {
		var p draw.Path
		p.Move(x, y)
		p.Line(width-x, y+float64(k))
		return p
	}
	page.Layer(draw.Cut, func(s *draw.Surface) { s.Stroke(line(12, 30), draw.Colour{}, 0.3) })
	page.Layer(draw.Fold, func(s *draw.Surface) { s.Stroke(line(12, 60), draw.Colour{R: 90, G: 90, B: 90}, 0.5) })
	page.Layer(draw.Notes, func(s *draw.Surface) {
		s.Text(fmt.Sprintf("Cut %d with care", k), draw.Regular, 6, draw.Translate(14, height-30), draw.Colour{})
		s.Text(string(rune('A'+k%26))+" menus", draw.Bold, 6, draw.Translate(14, height-20), draw.Colour{})
	})
	return page
}

// photo is noise, and the larger part of a small file.
func photo(k int) *draw.Image {
	img := image.NewNRGBA(image.Rect(0, 0, 100, 100))
	rand.NewChaCha8([32]byte{byte(k)}).Read(img.Pix)
	for i := 3; i < len(img.Pix); i += 4 {
		img.Pix[i] = 255
	}
	img.Set(0, 0, color.NRGBA{R: 3, A: 90})
	return &draw.Image{NRGBA: img}
}

func written(t testing.TB, pages ...*draw.Page) []byte {
	t.Helper()
	var file bytes.Buffer
	if err := pdf.Write(t.Context(), &file, pages, time.Time{}); err != nil {
		t.Fatal(err)
	}
	return file.Bytes()
}

// supper are files of several sizes, one with a page shown three times.
func supper(t testing.TB) [][]byte {
	one := sample(3, 210, 297, nil)
	return [][]byte{
		written(t, sample(0, 210, 297, photo(1))),
		written(t, sample(1, 215.9, 279.4, photo(1)), sample(2, 215.9, 279.4, nil)),
		written(t, one, one, sample(4, 210, 297, photo(2)), one),
		written(t, sample(5, 297, 420, nil)),
	}
}

func joined(t testing.TB, parts [][]byte, made time.Time) []byte {
	t.Helper()
	var file bytes.Buffer
	if err := pdf.Join(t.Context(), &file, readers(parts), made, ""); err != nil {
		t.Fatal(err)
	}
	return file.Bytes()
}

func readers(parts [][]byte) (all []io.ReadSeeker) {
	for _, part := range parts {
		all = append(all, bytes.NewReader(part))
	}
	return all
}

func kept(t testing.TB, file []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "file.pdf")
	if err := os.WriteFile(path, file, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// rendered are all pages of a file as poppler or MuPDF draws them, in colour.
func rendered(t testing.TB, program string, file []byte) (pages [][]byte) {
	t.Helper()
	path := kept(t, file)
	pattern := filepath.Join(filepath.Dir(path), "*.ppm")
	if program == "pdftoppm" {
		referee.Run(t, "pdftoppm", "-r", "60", path, strings.TrimSuffix(path, ".pdf"))
	} else {
		referee.Run(t, "mutool", "draw", "-q", "-F", "ppm", "-r", "60", "-o", filepath.Join(filepath.Dir(path), "p%03d.ppm"), path)
	}
	found, err := filepath.Glob(pattern)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range found { // sorted, and the numbers are of one length
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		pages = append(pages, data)
	}
	return pages
}

// Every page looks as it did in its own file, in poppler and in MuPDF.
func TestJoinedPagesLookAsBefore(t *testing.T) {
	parts := supper(t)
	file := joined(t, parts, time.Time{})
	for _, program := range []string{"pdftoppm", "mutool"} {
		var want [][]byte
		for _, part := range parts {
			want = append(want, rendered(t, program, part)...)
		}
		got := rendered(t, program, file)
		if len(got) != len(want) || len(want) != 8 {
			t.Fatalf("%s draws %d pages, of the parts %d", program, len(got), len(want))
		}
		for i := range want {
			if !bytes.Equal(got[i], want[i]) {
				t.Errorf("%s draws page %d otherwise than in its own file", program, i+1)
			}
		}
	}
}

// qpdf finds nothing to say, and pdfinfo (poppler) tells sizes, boxes and title of
// the parts.
func TestAJoinedFileIsSoundAndKeepsSizesAndTitle(t *testing.T) {
	parts := supper(t)
	path := kept(t, joined(t, parts, time.Time{}))
	if out := string(referee.Run(t, "qpdf", "--check", path)); !strings.Contains(out, "No syntax or stream encoding errors") {
		t.Error(out)
	}
	boxes := func(path string) (lines []string) {
		for line := range strings.Lines(string(referee.Run(t, "pdfinfo", "-box", "-f", "1", "-l", "99", path))) {
			if f := strings.Fields(line); f[0] == "Page" {
				lines = append(lines, strings.Join(f[2:], " "))
			}
		}
		return lines
	}
	var want []string
	for _, part := range parts {
		want = append(want, boxes(kept(t, part))...)
	}
	got := boxes(path)
	slices.SortStableFunc(want, bySizeFirst) // of many pages pdfinfo tells all sizes before all boxes
	slices.SortStableFunc(got, bySizeFirst)
	if len(want) < 8*6 || !slices.Equal(got, want) {
		t.Errorf("sizes and boxes are\n%v\nwant\n%v", got, want)
	}
	info := string(referee.Run(t, "pdfinfo", path))
	for _, line := range []string{"Title: Sheet 0 of the harvest supper (1 0 R)", "Subject: liners to join", "Producer: underflap", "Pages: 8", "PDF version: 1.7"} {
		if !strings.Contains(strings.Join(strings.Fields(info), " "), line) {
			t.Errorf("pdfinfo does not say %q:\n%s", line, info)
		}
	}
	if strings.Contains(info, "Date") {
		t.Errorf("a date:\n%s", info)
	}
	made := time.Date(2026, 10, 3, 12, 0, 0, 0, time.UTC)
	info = string(referee.Run(t, "pdfinfo", "-isodates", kept(t, joined(t, parts, made))))
	if !strings.Contains(info, "2026-10-03T12:00:00Z") {
		t.Errorf("no date:\n%s", info)
	}
	ctx := referee.Opened(t, joined(t, parts, made))
	root, _ := ctx.Catalog()
	viewer, _ := ctx.DereferenceDict(root["ViewerPreferences"])
	if viewer["PrintScaling"] != types.Name("None") || viewer["Duplex"] != types.Name("Simplex") || viewer["DisplayDocTitle"] != types.Boolean(true) {
		t.Errorf("viewer preferences %v", viewer)
	}
}

func bySizeFirst(a, b string) int {
	size := func(line string) int {
		if strings.HasPrefix(line, "size:") || strings.HasPrefix(line, "rot:") {
			return 0
		}
		return 1
	}
	return size(a) - size(b)
}

// A viewer's list has each layer once, and a layer switched off leaves every page.
func TestLayersOfJoinedFilesAreOne(t *testing.T) {
	parts := supper(t)
	file := joined(t, parts, time.Time{})
	ctx := referee.Opened(t, file)
	root, err := ctx.Catalog()
	if err != nil {
		t.Fatal(err)
	}
	properties, _ := ctx.DereferenceDict(root["OCProperties"])
	groups, _ := ctx.DereferenceArray(properties["OCGs"])
	var names []string
	for _, ref := range groups {
		group, _ := ctx.DereferenceDict(ref)
		name, _ := ctx.DereferenceText(group["Name"])
		names = append(names, name)
	}
	if want := []string{draw.Artwork, draw.Cut, draw.Fold, draw.Notes}; !slices.Equal(names, want) {
		t.Fatalf("layers %q, want %q", names, want)
	}
	if n := bytes.Count(file, []byte("/Type/OCG")); n != 4 {
		t.Errorf("%d groups in the file, want 4", n)
	}
	all := rendered(t, "mutool", file)
	for _, layer := range names {
		got := rendered(t, "mutool", referee.OnlyLayer(t, file, layer))
		var want [][]byte
		for _, part := range parts {
			want = append(want, rendered(t, "mutool", referee.OnlyLayer(t, part, layer))...)
		}
		for i := range want {
			if !bytes.Equal(got[i], want[i]) {
				t.Errorf("%s alone: page %d is otherwise than in its own file", layer, i+1)
			}
			if bytes.Equal(got[i], all[i]) {
				t.Errorf("%s alone: page %d shows all layers", layer, i+1)
			}
		}
	}
}

// A layer that begins switched off stays so.
func TestALayerSwitchedOffStaysOff(t *testing.T) {
	parts := supper(t)
	parts[0] = referee.OnlyLayer(t, parts[0], draw.Cut)
	ctx := referee.Opened(t, joined(t, parts, time.Time{}))
	root, _ := ctx.Catalog()
	properties, _ := ctx.DereferenceDict(root["OCProperties"])
	usual, _ := ctx.DereferenceDict(properties["D"])
	off, _ := ctx.DereferenceArray(usual["OFF"])
	var names []string
	for _, ref := range off {
		group, _ := ctx.DereferenceDict(ref)
		name, _ := ctx.DereferenceText(group["Name"])
		names = append(names, name)
	}
	if want := []string{draw.Artwork, draw.Fold, draw.Notes}; !slices.Equal(names, want) {
		t.Errorf("switched off: %q, want %q", names, want)
	}
}

// The same files give the same bytes, no larger than the files, with nothing in it
// that no page needs (qpdf lists objects; its rewriting drops those out of reach).
// The photograph of two files is in it once, the page shown thrice too.
func TestAJoinedFileHoldsNothingTwice(t *testing.T) {
	parts := supper(t)
	file := joined(t, parts, time.Time{})
	if !bytes.Equal(file, joined(t, supper(t), time.Time{})) {
		t.Error("other bytes the second time")
	}
	sum := 0
	for _, part := range parts {
		sum += len(part)
	}
	if len(file) > sum {
		t.Errorf("%d bytes of files that have %d", len(file), sum)
	}
	objects := func(path string) int {
		return bytes.Count(referee.Run(t, "qpdf", "--show-xref", path), []byte("uncompressed"))
	}
	path := kept(t, file)
	again := filepath.Join(t.TempDir(), "again.pdf")
	referee.Run(t, "qpdf", "--object-streams=disable", path, again)
	if a, b := objects(path), objects(again); a != b || a < 30 {
		t.Errorf("%d objects, of which a page needs %d", a, b)
	}
	alone := len(written(t, sample(0, 210, 297, photo(1)))) - len(written(t, sample(0, 210, 297, nil)))
	if saved := sum - len(file); saved < alone/2 {
		t.Errorf("the photograph, %d bytes, is stored twice: only %d less than the files", alone, saved)
	}
}

// ones reads a file only when asked, and tells how many are read.
type ones struct {
	io.ReadSeeker
	reads *int
}

func (o ones) Read(p []byte) (int, error) { *o.reads++; return o.ReadSeeker.Read(p) }

// Two hundred files, each with a photograph of its own, take no more memory than a
// few of them.
func TestManyFilesAreJoinedWithLittleMemory(t *testing.T) {
	const many = 200
	var parts [][]byte
	sum := 0
	for k := range many {
		page := draw.NewPage(210, 297)
		page.Layer(draw.Artwork, func(s *draw.Surface) { s.Picture(photo(k), draw.Scale(90)) })
		parts = append(parts, written(t, page))
		sum += len(parts[k])
	}
	var most uint64
	var before, now runtime.MemStats
	for range 3 { // what pools hold goes at the second
		runtime.GC()
	}
	runtime.ReadMemStats(&before)
	watch := writer(func(p []byte) {
		if len(p) < 20_000 { // once a file or so
			return
		}
		runtime.GC()
		runtime.ReadMemStats(&now)
		most = max(most, now.HeapAlloc)
	})
	if err := pdf.Join(t.Context(), &watch, readers(parts), time.Time{}, ""); err != nil {
		t.Fatal(err)
	}
	if grown := int(most) - int(before.HeapAlloc); most == 0 || grown > sum/4 {
		t.Errorf("%d bytes of memory to join %d", grown, sum)
	}
	if watch.n < 9*sum/10 || watch.n > sum {
		t.Errorf("%d bytes of %d", watch.n, sum)
	}
}

type watched struct {
	n     int
	watch func([]byte)
}

func writer(watch func([]byte)) watched { return watched{watch: watch} }

func (w *watched) Write(p []byte) (int, error) {
	w.n += len(p)
	w.watch(p)
	return len(p), nil
}

func TestJoiningStops(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	parts := readers(supper(t))
	reads := 0
	parts[2] = ones{parts[2], &reads}
	out := watched{watch: func(p []byte) {
		if bytes.Contains(p, []byte("/Type/Page/")) || bytes.Contains(p, []byte("/Type/Page>")) {
			cancel()
		}
	}}
	if err := pdf.Join(ctx, &out, parts, time.Time{}, ""); err != context.Canceled {
		t.Errorf("error %v, want that of the context", err)
	}
	if reads != 0 {
		t.Error("a later file was read")
	}
}

// What cannot be joined is told by its place; what cannot be written, as it is.
func TestWhatCannotBeJoined(t *testing.T) {
	parts := supper(t)
	for name, one := range map[string]struct {
		bad  []byte
		says string
	}{
		"no PDF":   {[]byte("Tarn Lane Press"), "file 2 of 4"},
		"empty":    {nil, "file 2 of 4"},
		"half one": {parts[1][:len(parts[1])/2], "file 2 of 4"},
	} {
		t.Run(name, func(t *testing.T) {
			bad := slices.Clone(parts)
			bad[1] = one.bad
			err := pdf.Join(t.Context(), io.Discard, readers(bad), time.Time{}, "")
			if err == nil || !strings.Contains(err.Error(), one.says) {
				t.Errorf("error %v, want one that says %q", err, one.says)
			}
		})
	}
	if err := pdf.Join(t.Context(), io.Discard, nil, time.Time{}, ""); err == nil {
		t.Error("no file of no files")
	}
	full := errors.New("disk full")
	if err := pdf.Join(t.Context(), failing{full}, readers(parts), time.Time{}, ""); !errors.Is(err, full) {
		t.Errorf("error %v, want %v", err, full)
	}
}

type failing struct{ err error }

func (f failing) Write([]byte) (int, error) { return 0, f.err }
