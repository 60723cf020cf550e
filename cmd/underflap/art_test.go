package main

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"os"
	"testing"

	"github.com/HugoSmits86/nativewebp"
	"golang.org/x/image/tiff"
)

// artKinds are the pictures that tests stamp with, by what is in the file.
var artKinds = map[string]func() ([]byte, error){
	"png":        func() ([]byte, error) { return encodePNG(acorn(255)) },
	"alpha-png":  func() ([]byte, error) { return encodePNG(acorn(120)) },
	"jpeg":       func() ([]byte, error) { return encodeJPEG(acorn(255)) },
	"grey-jpeg":  func() ([]byte, error) { return encodeJPEG(greyAcorn()) },
	"tiff":       encodeTIFF,
	"webp":       encodeWebP,
	"photo":      func() ([]byte, error) { return encodeJPEG(photographed()) },
	"svg":        func() ([]byte, error) { return []byte(drawnAcorn("")), nil },
	"svg-text":   func() ([]byte, error) { return []byte(drawnAcorn(`<text x="3" y="9">Tarn Lane</text>`)), nil },
	"torn-svg":   func() ([]byte, error) { return torn([]byte(drawnAcorn("")), nil) },
	"gif":        encodeGIF,
	"empty":      func() ([]byte, error) { return nil, nil },
	"text":       func() ([]byte, error) { return []byte("Tarn Lane Press: acorns for the harvest supper\n"), nil },
	"torn-png":   func() ([]byte, error) { return torn(encodePNG(acorn(255))) },
	"torn-jpeg":  func() ([]byte, error) { return torn(encodeJPEG(acorn(255))) },
	"giant-png":  func() ([]byte, error) { return promisePNG(60000, 60000), nil },
	"narrow-png": func() ([]byte, error) { return promisePNG(1, 30000), nil },
}

// drawArt writes a picture of a kind to a file.
func drawArt(kind, file string) error {
	draw := artKinds[kind]
	if draw == nil {
		return fmt.Errorf("no art of the kind %q", kind)
	}
	data, err := draw()
	if err != nil {
		return err
	}
	return os.WriteFile(file, data, 0o644)
}

func mustDraw(t *testing.T, kind, file string) {
	t.Helper()
	if err := drawArt(kind, file); err != nil {
		t.Fatal(err)
	}
}

// artBench is a workbench with a picture of every kind, each called as its kind,
// and a folder called as a picture.
func artBench(t *testing.T) {
	t.Helper()
	workbench(t)
	for kind := range artKinds {
		mustDraw(t, kind, kind+".png")
	}
	if err := os.Mkdir("folder.png", 0o777); err != nil {
		t.Fatal(err)
	}
}

// acorn is a nut in a cup, taller than wide, so that a turned or mirrored
// picture is another one. Around it alpha falls to outside.
func acorn(outside uint8) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, 36, 48))
	for y := range 48 {
		for x := range 36 {
			c := color.NRGBA{R: 244, G: 232, B: 206, A: outside}
			dx, dy := x-18, y-24
			switch in := dx*dx*4+dy*dy*2 < 1100; {
			case in && y < 20:
				c = color.NRGBA{R: 92, G: 60, B: uint8(30 + 2*x), A: 255}
			case in:
				c = color.NRGBA{R: 188, G: uint8(110 + y), B: 52, A: 255}
			}
			img.SetNRGBA(x, y, c)
		}
	}
	return img
}

func greyAcorn() *image.Gray {
	from := acorn(255)
	img := image.NewGray(from.Rect)
	for y := range from.Rect.Dy() {
		for x := range from.Rect.Dx() {
			img.Set(x, y, from.At(x, y))
		}
	}
	return img
}

func encodePNG(img image.Image) ([]byte, error) {
	var b bytes.Buffer
	err := png.Encode(&b, img)
	return b.Bytes(), err
}

func encodeJPEG(img image.Image) ([]byte, error) {
	var b bytes.Buffer
	err := jpeg.Encode(&b, img, nil)
	return b.Bytes(), err
}

// photographed is an acorn stamped in black on white paper, in light that falls
// off to the right.
func photographed() *image.NRGBA {
	from := acorn(255)
	img := image.NewNRGBA(image.Rect(0, 0, 8*36, 8*48))
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			v := 230 - x/4
			if c := from.NRGBAAt(x/8, y/8); c.R < 240 { // no paper
				v /= 6
			}
			img.SetNRGBA(x, y, color.NRGBA{uint8(v), uint8(v), uint8(v), 255})
		}
	}
	return img
}

// drawnAcorn is an acorn as a drawing program writes it, with more in it.
func drawnAcorn(more string) string {
	return `<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 36 48"><style>.nut{fill:#bc823e}</style>` +
		`<path class="nut" d="M6 20C6 38 14 44 18 46C22 44 30 38 30 20z"/><path d="m4 20a14 14 0 0 1 28 0z" fill="#5c3c2a" stroke="#000"/>` + more + `</svg>`
}

func encodeTIFF() ([]byte, error) {
	var b bytes.Buffer
	err := tiff.Encode(&b, acorn(255), nil)
	return b.Bytes(), err
}

func encodeWebP() ([]byte, error) {
	var b bytes.Buffer
	err := nativewebp.Encode(&b, acorn(255), nil)
	return b.Bytes(), err
}

func encodeGIF() ([]byte, error) {
	var b bytes.Buffer
	err := gif.Encode(&b, acorn(255), nil)
	return b.Bytes(), err
}

// torn is the picture without its last bytes: its header is whole, so the
// fault shows only when the pixels are read.
func torn(data []byte, err error) ([]byte, error) { return data[:len(data)-40], err }

// promisePNG is a PNG whose header is valid and promises so many pixels, with
// none of them behind it.
func promisePNG(width, height uint32) []byte {
	head := []byte("IHDR")
	head = binary.BigEndian.AppendUint32(head, width)
	head = binary.BigEndian.AppendUint32(head, height)
	head = append(head, 8, 6, 0, 0, 0) // eight bits, red green blue alpha
	out := []byte("\x89PNG\r\n\x1a\n")
	out = binary.BigEndian.AppendUint32(out, uint32(len(head)-4))
	out = append(out, head...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(head))
}
