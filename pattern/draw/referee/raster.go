package referee

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"
)

// Raster is a page in grey, 0 black to 255 white, at DPI dots per inch.
type Raster struct {
	Width, Height int
	DPI           float64
	Grey          []byte
}

// At is the grey at a place in millimetres, between pixel centres by straight
// interpolation; outside the page it is white.
func (r *Raster) At(x, y float64) float64 {
	px, py := x*r.DPI/25.4-0.5, y*r.DPI/25.4-0.5
	x0, y0 := math.Floor(px), math.Floor(py)
	fx, fy := px-x0, py-y0
	pixel := func(x, y float64) float64 {
		if x < 0 || y < 0 || int(x) >= r.Width || int(y) >= r.Height {
			return 255
		}
		return float64(r.Grey[int(y)*r.Width+int(x)])
	}
	return (pixel(x0, y0)*(1-fx)+pixel(x0+1, y0)*fx)*(1-fy) + (pixel(x0, y0+1)*(1-fx)+pixel(x0+1, y0+1)*fx)*fy
}

// Pixel tells whether a pixel is darker than level; outside the page none is.
func (r *Raster) Pixel(x, y int, level byte) bool {
	return x >= 0 && y >= 0 && x < r.Width && y < r.Height && r.Grey[y*r.Width+x] < level
}

// Overlap is the share of inked area that two pages have in common inside a
// box in millimetres (min x, min y, max x, max y): pixels darker than level in
// both over those darker in either.
func (r *Raster) Overlap(o *Raster, level byte, box [4]float64) float64 {
	var edge [4]int
	for i, mm := range box {
		edge[i] = int(math.Round(mm * r.DPI / 25.4))
	}
	both, either := 0, 0
	for y := edge[1]; y < edge[3]; y++ {
		for x := edge[0]; x < edge[2]; x++ {
			a, b := r.Pixel(x, y, level), o.Pixel(x, y, level)
			if a && b {
				both++
			}
			if a || b {
				either++
			}
		}
	}
	return float64(both) / float64(either)
}

// InkedShare is the mean darkness of the pixels from x0, y0 up to but without
// x1, y1: 0 is white.
func (r *Raster) InkedShare(x0, y0, x1, y1 int) float64 {
	sum := 0
	for y := y0; y < y1; y++ {
		for x := x0; x < x1; x++ {
			sum += 255 - int(r.Grey[y*r.Width+x])
		}
	}
	return float64(sum) / 255 / float64((x1-x0)*(y1-y0))
}

// Renderers draw the first page of a PDF.
var Renderers = map[string]func(t testing.TB, file []byte, dpi float64) *Raster{
	"poppler": func(t testing.TB, file []byte, dpi float64) *Raster {
		return decodePGM(t, Run(t, "pdftoppm", "-gray", "-r", fmt.Sprint(dpi), "-f", "1", "-l", "1", keep(t, "page.pdf", file)), dpi)
	},
	"mupdf": func(t testing.TB, file []byte, dpi float64) *Raster {
		out := filepath.Join(t.TempDir(), "page.pgm")
		Run(t, "mutool", "draw", "-q", "-c", "gray", "-F", "pgm", "-r", fmt.Sprint(dpi), "-o", out, keep(t, "page.pdf", file), "1")
		return decodePGM(t, read(t, out), dpi)
	},
	"ghostscript": func(t testing.TB, file []byte, dpi float64) *Raster {
		out := filepath.Join(t.TempDir(), "page.pgm")
		Run(t, "gs", "-q", "-dBATCH", "-dNOPAUSE", "-dSAFER", "-sDEVICE=pgmraw", "-dTextAlphaBits=4", "-dGraphicsAlphaBits=4",
			fmt.Sprintf("-r%g", dpi), "-dFirstPage=1", "-dLastPage=1", "-sOutputFile="+out, keep(t, "page.pdf", file))
		return decodePGM(t, read(t, out), dpi)
	},
}

// SVG draws an SVG file with librsvg.
func SVG(t testing.TB, file []byte, dpi float64, stylesheet string) *Raster {
	t.Helper()
	out := filepath.Join(t.TempDir(), "page.png")
	args := []string{"--unlimited", "-d", fmt.Sprint(dpi), "-p", fmt.Sprint(dpi), "-b", "white", "-o", out, keep(t, "page.svg", file)}
	if stylesheet != "" {
		args = append([]string{"-s", keep(t, "only.css", []byte(stylesheet))}, args...)
	}
	Run(t, "rsvg-convert", args...)
	return PNG(t, read(t, out), dpi)
}

// PNG decodes a PNG file to grey.
func PNG(t testing.TB, file []byte, dpi float64) *Raster {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	b := img.Bounds()
	r := &Raster{Width: b.Dx(), Height: b.Dy(), DPI: dpi, Grey: make([]byte, b.Dx()*b.Dy())}
	switch img := img.(type) {
	case *image.Paletted: // the quick way for flat pages
		var grey [256]byte
		for i, c := range img.Palette {
			grey[i] = color.GrayModel.Convert(c).(color.Gray).Y
		}
		for y := range r.Height {
			for x := range r.Width {
				r.Grey[y*r.Width+x] = grey[img.Pix[y*img.Stride+x]]
			}
		}
	case *image.RGBA: // opaque pages in true colour, without a call a pixel
		for i := range r.Grey {
			c := img.Pix[4*i : 4*i+4]
			r.Grey[i] = grey8(c[0], c[1], c[2])
		}
	case *image.NRGBA:
		for i := range r.Grey {
			c := img.Pix[4*i : 4*i+4]
			if c[3] != 255 {
				t.Fatal("a page that is not opaque")
			}
			r.Grey[i] = grey8(c[0], c[1], c[2])
		}
	default:
		for y := range r.Height {
			for x := range r.Width {
				r.Grey[y*r.Width+x] = color.GrayModel.Convert(img.At(b.Min.X+x, b.Min.Y+y)).(color.Gray).Y
			}
		}
	}
	return r
}

// grey8 is color.GrayModel's own weights on opaque 8-bit values.
func grey8(r, g, b uint8) byte {
	return byte((19595*257*uint32(r) + 38470*257*uint32(g) + 7471*257*uint32(b) + 1<<15) >> 24)
}

func decodePGM(t testing.TB, data []byte, dpi float64) *Raster {
	t.Helper()
	r := &Raster{DPI: dpi}
	var most int
	header := bytes.NewReader(withoutComments(data))
	if _, err := fmt.Fscanf(header, "P5\n%d %d\n%d\n", &r.Width, &r.Height, &most); err != nil || most != 255 {
		t.Fatalf("not a grey page: %q (%v)", data[:min(30, len(data))], err)
	}
	r.Grey = data[len(data)-r.Width*r.Height:]
	return r
}

// withoutComments drops the comment line some programs put into the header.
func withoutComments(data []byte) []byte {
	head := bytes.SplitN(data[:min(len(data), 200)], []byte("\n"), 5)
	var kept [][]byte
	for _, line := range head {
		if !bytes.HasPrefix(line, []byte("#")) {
			kept = append(kept, line)
		}
	}
	return bytes.Join(kept, []byte("\n"))
}

func keep(t testing.TB, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func read(t testing.TB, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}
