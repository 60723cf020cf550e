package png

import (
	"encoding/binary"
	"hash/crc32"
	"io"
	"math"

	"underflap/pattern/words"
)

// withDensity passes a PNG stream on and puts a pHYs chunk behind its header:
// pixels to the metre in x and y (PNG specification, 11.3.4.3).
type withDensity struct {
	w    io.Writer
	dpi  float64
	seen int
	done bool
}

// signature and IHDR chunk
const headerBytes = 8 + 4 + 4 + 13 + 4

func (d *withDensity) Write(p []byte) (int, error) {
	if d.done {
		return d.w.Write(p)
	}
	head := min(len(p), headerBytes-d.seen)
	n, err := d.w.Write(p[:head])
	d.seen += n
	if err != nil || d.seen < headerBytes {
		return n, err
	}
	d.done = true
	if _, err := d.w.Write(physChunk(d.dpi)); err != nil {
		return n, err
	}
	rest, err := d.w.Write(p[head:])
	return n + rest, err
}

func physChunk(dpi float64) []byte {
	perMetre := uint32(math.Round(dpi / words.MillimetresPerInch * 1000))
	chunk := binary.BigEndian.AppendUint32(nil, 9)
	chunk = append(chunk, "pHYs"...)
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = append(chunk, 1) // the unit is the metre
	return binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
}
