package draw

import (
	"bytes"
	"compress/zlib"
	"context"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/png"
	"io"
)

// Image is people's own art, decoded. Writers embed it once however often it
// is placed.
type Image struct {
	*image.NRGBA
	JPEG []byte // a plain colour or grey JPEG of the same picture, to embed as it is
}

// File is the picture as a file to embed, "jpeg" or "png". A grey picture is
// written in grey, which printers take from the black ink alone. When ctx ends it
// stops, and the file is of no use.
func (img *Image) File(ctx context.Context) (kind string, data []byte) {
	if img.JPEG != nil {
		return "jpeg", img.JPEG
	}
	grey := img.Grey()
	if grey && !img.Opaque() {
		return "png", img.greyWithAlpha(ctx)
	}
	var b bytes.Buffer
	if grey {
		png.Encode(until{ctx, &b}, img.tones()) // to memory: fails on no picture but an empty one
	} else {
		png.Encode(until{ctx, &b}, img.NRGBA)
	}
	return "png", b.Bytes()
}

// until writes for as long as its context lasts.
type until struct {
	ctx context.Context
	to  io.Writer
}

func (u until) Write(p []byte) (int, error) {
	if err := u.ctx.Err(); err != nil {
		return 0, err
	}
	return u.to.Write(p)
}

// greyWithAlpha is a PNG of colour type 4 (PNG, third edition, 11.2.1), which
// the standard library reads and does not write.
func (img *Image) greyWithAlpha(ctx context.Context) []byte {
	width, height := img.Rect.Dx(), img.Rect.Dy()
	var packed bytes.Buffer
	z := zlib.NewWriter(&packed) // into memory: no call can fail
	row := make([]byte, 1+2*width)
	for y := range height {
		if ctx.Err() != nil {
			return nil
		}
		from := img.Pix[y*img.Stride:]
		for x := range width { // row[0] stays 0: no filter
			row[1+2*x], row[2+2*x] = from[4*x], from[4*x+3]
		}
		z.Write(row)
	}
	z.Close()
	out := []byte("\x89PNG\r\n\x1a\n")
	chunk := func(name string, data []byte) {
		out = binary.BigEndian.AppendUint32(out, uint32(len(data)))
		start := len(out)
		out = append(append(out, name...), data...)
		out = binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out[start:]))
	}
	head := binary.BigEndian.AppendUint32(nil, uint32(width))
	head = binary.BigEndian.AppendUint32(head, uint32(height))
	chunk("IHDR", append(head, 8, 4, 0, 0, 0))
	chunk("IDAT", packed.Bytes())
	chunk("IEND", nil)
	return out
}
