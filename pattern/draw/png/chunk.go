package png

import (
	"encoding/binary"
	"hash/crc32"
	"io"
	"math"

	"underflap/pattern/words"
)

// chunks writes a PNG file chunk by chunk (PNG specification, third edition, 5
// and 11) and keeps the first error.
type chunks struct {
	w   io.Writer
	err error
}

func (c *chunks) write(p []byte) {
	if c.err == nil {
		_, c.err = c.w.Write(p)
	}
}

func (c *chunks) chunk(kind string, data []byte) {
	head := binary.BigEndian.AppendUint32(nil, uint32(len(data)))
	head = append(head, kind...)
	c.write(head)
	c.write(data)
	sum := crc32.Update(crc32.ChecksumIEEE(head[4:]), crc32.IEEETable, data)
	c.write(binary.BigEndian.AppendUint32(nil, sum))
}

// head writes everything before the pixels: in indexed colour where there is an
// index, else in true colour, eight bits a sample.
func (c *chunks) head(width, height int, dpi float64, inks *index) {
	c.write([]byte("\x89PNG\r\n\x1a\n"))
	header := binary.BigEndian.AppendUint32(nil, uint32(width))
	header = binary.BigEndian.AppendUint32(header, uint32(height))
	const trueColour, indexed = 2, 3
	if inks != nil {
		c.chunk("IHDR", append(header, 8, indexed, 0, 0, 0))
	} else {
		c.chunk("IHDR", append(header, 8, trueColour, 0, 0, 0))
	}
	// pixels to the metre in x and y; the unit 1 is the metre
	perMetre := uint32(math.Round(dpi / words.MillimetresPerInch * 1000))
	density := binary.BigEndian.AppendUint32(nil, perMetre)
	density = binary.BigEndian.AppendUint32(density, perMetre)
	c.chunk("pHYs", append(density, 1))
	if inks != nil {
		var palette []byte
		for _, ink := range inks.palette {
			palette = append(palette, ink.R, ink.G, ink.B)
		}
		c.chunk("PLTE", palette)
	}
}

// data writes a part of the zlib stream; a stream may be cut anywhere.
func (c *chunks) data(part []byte) { c.chunk("IDAT", part) }

// tail ends the zlib stream with the sum over its content, and the file.
func (c *chunks) tail(sum uint32) {
	c.data(binary.BigEndian.AppendUint32(nil, sum))
	c.chunk("IEND", nil)
}
