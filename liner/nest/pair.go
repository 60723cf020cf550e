package nest

import (
	"math"

	"underflap/liner/geom"
)

// Piece gives a piece's cut line at a pocket depth, and the part of it that must
// lie in the room. Both only grow with the depth, downwards in liner space.
type Piece func(depth float64) (cut, inside geom.Contour)

// Placed is where a piece lies: turned, with its origin at X, Y.
type Placed struct {
	Turn int
	X, Y float64
}

// Room is the printable area.
type Room struct{ Width, Height float64 }

// pairing is one way to turn two pieces and to lay the second above the first.
type pairing struct{ lower, upper int }

// pairings are all ways but those that a half turn of the sheet makes of
// another, or that exchange the two pieces.
var pairings = []pairing{
	{0, 180}, {0, 0}, {180, 0}, {90, 270}, {270, 90}, {90, 90},
	{0, 90}, {90, 0}, {0, 270}, {270, 0},
}

// slack is how much height is left when b lies above a as low as it goes, and
// the slides that leave it; negative where it does not fit.
func (r Room) slack(a, b Pose, gap float64) (left, from, to float64, over stack) {
	if !a.fits(r.Width, r.Height) || !b.fits(r.Width, r.Height) {
		past := math.Max(math.Max(a.Box.Width(), b.Box.Width())-r.Width, math.Max(a.Box.Height(), b.Box.Height())-r.Height)
		return -math.Max(past, rounding), 0, 0, stack{}
	}
	over = above(a, b, gap)
	left, from, to = r.spare(a, b, over)
	return left, from, to, over
}

// spare is slack where it is known how b lies above a, and that each alone fits.
func (r Room) spare(a, b Pose, over stack) (left, from, to float64) {
	lo, hi := slides(r.Width, a.Box.MinX, a.Box.MaxX, b.Box.MinX, b.Box.MaxX)
	_, head := slides(r.Height, a.Box.MinY, a.Box.MaxY, b.Box.MinY, b.Box.MaxY)
	rise, from, to := over.lowest(lo, hi)
	return head - rise, from, to
}

// slides is how far b's origin may lie beyond a's in one direction when both lie
// in a room of a size, each from its low to its high.
func slides(room, aLow, aHigh, bLow, bHigh float64) (lo, hi float64) {
	lo, hi = -bLow-(room-aHigh), room-bHigh+aLow
	if lo > hi { // by rounding: one just fits
		lo, hi = (lo+hi)/2, (lo+hi)/2
	}
	return lo, hi
}

// upright is the room and the way to turn two pieces as they are seen with the
// sheet turned back by a quarter, where that makes both stand upright: from above
// and below a liner is seen whole, since a flap is a height over its fold.
func (r Room) upright(way pairing) (room Room, seen pairing, turned bool) {
	if way.lower%180 == 0 || way.upper%180 == 0 {
		return r, way, false
	}
	return Room{r.Height, r.Width}, pairing{way.lower - 90, way.upper - 90}, true
}

// back turns what lies on the sheet turned back on by a quarter again.
func (r Room) back(at []Placed) {
	for i, p := range at {
		at[i] = Placed{(p.Turn + 90) % 360, p.Y, r.Height - p.X}
	}
}

// middle is how far a box is slid into the middle of the room.
func (r Room) middle(b geom.Box) (dx, dy float64) {
	return (r.Width-b.Width())/2 - b.MinX, (r.Height-b.Height())/2 - b.MinY
}

// Deepest finds the greatest depth in [least, most] at which two equal pieces
// fit, and how they lie; ok is false when they do not fit at the least depth.
func (r Room) Deepest(piece Piece, gap, least, most float64) (depth float64, at [2]Placed, ok bool) {
	depth = least
	for _, way := range pairings {
		room, way, turned := r.upright(way)
		fits := func(d float64) (float64, bool) {
			cut, inside := piece(d)
			left, _, _, _ := room.slack(NewPose(cut, inside, way.lower), NewPose(cut, inside, way.upper), gap)
			return left, left >= -rounding
		}
		try := depth // to be worth a change it must be deeper than the best so far
		if ok {
			try = depth + worthwhile
		}
		if try > most {
			break
		}
		low, fine := fits(try)
		if !fine {
			continue
		}
		depth, ok = try, true
		high, fine := fits(most)
		if fine {
			depth = most
		} else {
			depth = between(fits, try, low, most, high)
		}
		cut, inside := piece(depth)
		at = room.lies(NewPose(cut, inside, way.lower), NewPose(cut, inside, way.upper), gap)[0]
		if turned {
			r.back(at[:])
		}
	}
	return depth, at, ok
}

// worthwhile is the least gain in depth, in millimetres, that another way to
// turn the pieces is taken for.
const worthwhile = 0.01

// between finds the greatest depth that fits, to a millionth of a millimetre,
// between one that does, leaving some slack, and one that does not. The slack
// falls with the depth and nearly in proportion, so that a straight line mostly
// hits; halving makes sure.
func between(fits func(float64) (float64, bool), low, left, high, short float64) float64 {
	for i := 0; high-low > 1e-6; i++ {
		mid := (low + high) / 2
		if !math.IsInf(left, 0) && !math.IsInf(short, 0) && i%3 != 2 {
			mid = low + (high-low)*left/(left-short)
			if i%3 == 1 { // just past the crossing, so that both ends move
				mid += 1e-7
			}
			mid = math.Max(low+1e-7, math.Min(high-1e-7, mid))
		}
		if l, ok := fits(mid); ok {
			low, left = mid, l
		} else {
			high, short = mid, l
		}
	}
	return low
}

// lay puts b above a at a slide, as low as it goes, both in the middle of the
// room.
func (r Room) lay(a, b Pose, over stack, dx float64) [2]Placed {
	rise, meets := over.needs(dx)
	if !meets { // side by side: level in the middle
		rise = (a.Box.MinY + a.Box.MaxY - b.Box.MinY - b.Box.MaxY) / 2
	}
	// no lower than the room's foot takes b, and where the rise is steep and the
	// rounding of dx shows in it, no higher than its head
	foot, head := slides(r.Height, a.Box.MinY, a.Box.MaxY, b.Box.MinY, b.Box.MaxY)
	rise = math.Max(foot, math.Min(rise, head))
	x, y := r.middle(a.Box.Union(b.Box.Moved(dx, rise)))
	return [2]Placed{{a.Turn, x, y}, {b.Turn, x + dx, y + rise}}
}
