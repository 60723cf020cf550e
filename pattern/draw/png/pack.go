package png

import (
	"bytes"
	"hash/adler32"

	"github.com/klauspost/compress/flate"
)

// zlibHeader says deflate with a window of 32 KB, packed for speed (RFC 1950).
var zlibHeader = []byte{0x78, 0x01}

// packer compresses bands, each on its own: joined, what it gives is one
// deflate stream (RFC 1951).
type packer struct {
	deflate *flate.Writer
	out     bytes.Buffer
}

func newPacker() *packer {
	deflate, _ := flate.NewWriter(nil, flate.BestSpeed) // fails for unknown levels only
	return &packer{deflate: deflate}
}

// pack compresses raw; every band but the last ends at a byte, open for the
// next one.
func (p *packer) pack(raw []byte, last bool) (packed []byte, sum uint32) {
	p.out.Reset()
	p.deflate.Reset(&p.out)
	p.deflate.Write(raw) // to memory: cannot fail
	if last {
		p.deflate.Close()
	} else {
		p.deflate.Flush()
	}
	return bytes.Clone(p.out.Bytes()), adler32.Checksum(raw)
}

// joinSums is the Adler-32 of two pieces one after the other, from that of each
// and the length of the second (RFC 1950, 8.2; zlib's adler32_combine).
func joinSums(first, second uint32, length int) uint32 {
	const base = 65521
	n := uint64(length % base)
	a1, b1, a2, b2 := uint64(first&0xffff), uint64(first>>16), uint64(second&0xffff), uint64(second>>16)
	a := (a1 + a2 + base - 1) % base
	b := (b1 + b2 + n*(a1+base-1)) % base
	return uint32(b<<16 | a)
}
