package look

import (
	"math"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/pattern/draw"
)

// figure is an envelope with its place on the page settled.
type figure struct {
	liner.Liner
	extent        Extent
	profile       geom.Profile
	depth         float64 // of the flap
	width, height float64 // of the page
	main          view
	near          view   // of the enlarged detail at the left end of the fold
	glass         circle // where it is drawn
	larger        int    // than the main view; 0 without a detail
	shoulders     bool   // are measured in the detail
	legendTop     float64
	legendLeft    float64
	columns       int // of the legend
}

// Rooms around the drawn envelope, in page millimetres.
const (
	pageWidth   = 180.0
	pageAll     = 200.0
	pageThree   = 146.0
	closeWidth  = 106.0 // of letters alone: legible on a telephone
	closeHeight = 84.0
	shortFoot   = 1.5  // more below a width whose letter stands under its line
	heading     = 16.0 // title and subtitle, with the space below them
	headroom    = 11.0 // for letters above the flap
	rightRoom   = 14.0 // for the heights' dimensions
	footRoom    = 13.0 // for the width's dimension
	leftRoom    = 12.0 // for the shoulders' dimensions
	glassRadius = 23.0
	legendSpace = 7.0 // above the legend
	caption     = 5.0 // below the circle
	gutter      = 8.0 // between circle and legend
)

// paper is the page without its border.
func (f *figure) paper() draw.Rect {
	return draw.Rect{MinX: border, MinY: border, MaxX: f.width - border, MaxY: f.height - border}
}

// tip is the flap's farthest point; of several the rightmost.
func (f *figure) tip() geom.Point {
	tip := geom.Point{X: math.Inf(-1)}
	for _, p := range geom.Contour(f.profile).Flatten(0.001) {
		if p.Y > f.depth-0.005 && p.X > tip.X {
			tip = geom.Point{X: p.X, Y: f.depth}
		}
	}
	return tip
}

// shelf is the x up to which nothing but the flap's depth is marked at the level
// of its tip: past the roundings of a square flap.
func (f *figure) shelf() float64 {
	if flap := f.Envelope.Flap; flap.Shape == liner.Square {
		return f.Envelope.Width - flap.BaseGap - flap.Taper
	}
	return f.tip().X
}

// settle chooses among the arrangements the one that shows the envelope
// largest: the detail beside the envelope and the legend below in two columns,
// or the detail beside the legend and the envelope above both.
func (f *figure) settle() {
	if f.extent == Letters {
		f.width, f.height = closeWidth, closeHeight
		room := f.paper()
		room.MaxY -= shortFoot
		f.stand(room, 4, 3)
		return
	}
	f.width, f.height = pageWidth, pageThree
	if f.extent == Three {
		f.columns = 1
		f.stand(draw.Rect{MinX: border, MinY: border + heading, MaxX: f.width - border, MaxY: f.height - border - f.legendHeight(1) - legendSpace}, 4, 3)
		f.legendLeft = border
		return
	}
	f.height = pageAll
	bottom := f.height - border
	beside := *f
	beside.columns = 2
	floor := bottom - f.legendHeight(2) - legendSpace
	room := draw.Rect{MinX: border, MinY: border + heading, MaxX: f.width - border, MaxY: floor}
	beside.stand(room, 2*glassRadius+leftRoom, headroom)
	beside.legendLeft = border
	beside.magnify(circle{draw.Point{X: beside.main.x - leftRoom - glassRadius,
		Y: clamp(beside.main.y+glassRadius/2, room.MinY+glassRadius, room.MaxY-glassRadius-caption)}, glassRadius})
	if beside.larger == 0 {
		beside.stand(room, leftRoom, headroom)
	}

	below := *f
	below.columns = 1
	high := max(f.legendHeight(1), 2*glassRadius+caption)
	room.MaxY = bottom - high - legendSpace
	below.stand(room, leftRoom, headroom)
	below.magnify(circle{draw.Point{X: border + glassRadius, Y: bottom - high + glassRadius}, glassRadius})
	below.legendLeft = border + 2*glassRadius + gutter
	if below.larger == 0 {
		below.legendLeft = border
	}
	if *f = beside; below.main.scale > beside.main.scale {
		*f = below
	}
}

func clamp(v, least, most float64) float64 { return max(least, min(most, v)) }

// stand puts the envelope into a room of the page, with space left of it and
// over it, and the legend below the room.
func (f *figure) stand(room draw.Rect, left, over float64) {
	e := f.Envelope
	wide, high := room.Width()-left-rightRoom, room.Height()-over-footRoom
	k := min(wide/e.Width, high/(e.Height+f.depth))
	spareX, spareY := wide-k*e.Width, high-k*(e.Height+f.depth)
	f.main = view{scale: k, x: room.MinX + left + spareX/2, y: room.MinY + over + k*f.depth + spareY/2}
	f.legendTop = room.MaxY + legendSpace
}

// Room in the detail, in page millimetres: for what is measured along the fold
// and up the flap, beside the arrows and letters.
const (
	nearWide, nearHigh = 16.0, 16.0
	nearMost           = 6.0 // page millimetres to a millimetre
	nearBelow          = 13.0
	nearAbove          = 5.0
)

// magnify puts the left end of the fold into the circle, as large as lets its
// measurements be seen there: shoulders too where they are short.
func (f *figure) magnify(glass circle) {
	flap := f.Envelope.Flap
	most := func(across, up float64) int {
		k := nearMost
		if across > 0 {
			k = min(k, nearWide/across)
		}
		if up > 0 {
			k = min(k, nearHigh/up)
		}
		return max(int(k/f.main.scale), 0)
	}
	f.larger, f.shoulders = 0, false
	foot := max(flap.BaseGap, f.SideGap)
	if foot == 0 && flap.Shoulder == 0 {
		return
	}
	high := 0.0
	if k := most(max(flap.BaseGap+flap.Taper, f.SideGap), flap.Shoulder); flap.Shoulder > 0 && k >= 2 {
		f.larger, f.shoulders, high = k, true, flap.Shoulder
	} else if k := most(foot, 0); foot > 0 && k >= 2 {
		f.larger = k
	} else {
		return
	}
	f.glass = glass
	k := f.main.scale * float64(f.larger)
	up, down := k*high+nearAbove, nearBelow
	f.near = view{scale: k, x: glass.X - 0.12*glass.r, y: glass.Y + (up-down)/2}
}

// ring is the circle on the envelope that the detail enlarges.
func (f *figure) ring() circle {
	k := float64(f.larger)
	return circle{draw.Point{X: f.main.x + (f.glass.X-f.near.x)/k, Y: f.main.y + (f.glass.Y-f.near.y)/k}, f.glass.r / k}
}
