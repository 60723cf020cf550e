package png

import (
	"context"
	"runtime"
	"sync/atomic"

	"underflap/pattern/draw"
)

// bandBytes is about the memory of one canvas: small enough that it stays in a
// processor's own cache while it is drawn on, converted and compressed.
const bandBytes = 1 << 20

// rowsOf is the height of a band on a page so many pixels wide.
func rowsOf(width int) int { return max(16, bandBytes/(4*width)) }

// mostWorkers bounds memory: each has about 10 MB at most.
const mostWorkers = 4

// job is a page to draw at a density.
type job struct {
	ctx           context.Context
	page          *draw.Page
	scale         float64 // pixels to the millimetre
	width, height int     // in pixels
	rows          int     // of a band
	inks          *index  // nil: true colour
	tiles         *tiles
}

// band is a finished piece of the page.
type band struct {
	packed []byte // compressed
	sum    uint32 // Adler-32 of what was
	size   int    // so many bytes
}

// bands is how many the page has.
func (j *job) bands() int { return (j.height + j.rows - 1) / j.rows }

// run draws all bands and gives them to each in order, until it returns false.
func (j *job) run(each func(band) bool) {
	count := j.bands()
	workers := min(runtime.GOMAXPROCS(0), mostWorkers, count)
	// worker w draws bands w, w+workers, ...: whoever is ahead by three waits, so
	// few bands are in memory
	ready := make([]chan band, workers)
	var stop atomic.Bool
	var slip atomic.Pointer[any] // of ours in a goroutine, which nobody outside could catch
	for w := range workers {
		ready[w] = make(chan band, 3)
		go func() {
			defer close(ready[w])
			defer func() {
				if s := recover(); s != nil {
					slip.Store(&s)
				}
			}()
			d := newDrawer(j)
			for i := w; i < count && !stop.Load(); i += workers {
				ready[w] <- d.band(i*j.rows, i == count-1)
			}
		}()
	}
	for i := range count {
		made, ok := <-ready[i%workers]
		if !ok || !each(made) {
			break
		}
	}
	stop.Store(true)
	for _, r := range ready {
		for range r { // let everyone end
		}
	}
	if s := slip.Load(); s != nil {
		panic(*s)
	}
}

// drawer is what one goroutine needs to make bands.
type drawer struct {
	*job
	canvas *canvas
	finder *finder
	packer *packer
	raw    []byte
}

func newDrawer(j *job) *drawer {
	d := &drawer{job: j, canvas: newCanvas(j), packer: newPacker()}
	if j.inks != nil {
		d.finder = newFinder(j.inks)
	}
	return d
}

// band draws the band whose first row is top and compresses it. Rows are not
// filtered: flat art compresses as well without, and in less time.
func (d *drawer) band(top int, last bool) band {
	rows := min(d.rows, d.height-top)
	d.canvas.paint(top)
	d.raw = d.raw[:0]
	for y := range rows {
		row := d.canvas.row(y)
		d.raw = append(d.raw, 0) // the filter: none
		if d.finder != nil {
			d.raw = d.finder.row(d.raw, row)
		} else {
			d.raw = trueRow(d.raw, row)
		}
	}
	b := band{size: len(d.raw)}
	b.packed, b.sum = d.packer.pack(d.raw, last)
	return b
}

// trueRow appends the row's pixels without their alpha, which is all opaque.
func trueRow(to, row []byte) []byte {
	for ; len(row) >= 4; row = row[4:] {
		to = append(to, row[0], row[1], row[2])
	}
	return to
}
