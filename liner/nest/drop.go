package nest

import (
	"math"
	"slices"

	"underflap/liner/geom"
)

// passing is how a pose passes one that lies: at a slide of its origin it may be
// neither lower than the first's upper edge nor higher than its lower one.
type passing struct {
	spot
	over, under *stack
}

// closed is the heights, without their ends, where the two come too close.
func (p passing) closed(x float64) (low, high float64, meets bool) {
	if high, meets = p.over.needs(x - p.x); !meets {
		return 0, 0, false
	}
	low, meets = p.under.needs(p.x - x)
	return p.y - low, p.y + high, meets
}

// drop is a place for a pose at some slide, as low as it goes.
type drop struct{ x, y float64 }

// drops are places for a pose among others that lie: at every slide where its
// lowest height can have a corner or a lowest point. They come from left to
// right.
func (m *Mix) drops(r Room, lying []spot, pose int) []drop {
	box := m.poses[pose].Box
	if !m.poses[pose].fits(r.Width, r.Height) {
		return nil
	}
	left, floor := -box.MinX, -box.MinY
	right, head := math.Max(left, r.Width-box.MaxX), math.Max(floor, r.Height-box.MaxY)
	others := make([]passing, len(lying))
	at := []float64{left, right}
	for i, s := range lying {
		others[i] = passing{s, m.above(s.pose, pose), m.above(pose, s.pose)}
		for _, seg := range others[i].over.rise {
			at = bends(at, seg, floor-s.y, head-s.y, func(x float64) float64 { return s.x + x })
		}
		for _, seg := range others[i].under.rise {
			at = bends(at, seg, s.y-floor, s.y-head, func(x float64) float64 { return s.x - x })
		}
	}
	at = slices.DeleteFunc(at, func(x float64) bool { return x < left || x > right })
	slices.Sort(at)
	at = slices.CompactFunc(at, func(a, b float64) bool { return math.Abs(b-a) < 1e-12 })
	at = append(at, crossings(others, at)...)
	slices.Sort(at)
	var found []drop
	for _, x := range at {
		if y := lowestFree(others, x, floor, head); y <= head {
			found = append(found, drop{x, y})
		}
	}
	return found
}

// bends adds the slides where a segment of a stack's edge begins, ends, is lowest
// or crosses either of two levels.
func bends(all []float64, s geom.Segment, floor, head float64, slid func(float64) float64) []float64 {
	all = append(all, slid(s.A.X), slid(s.B.X))
	if s.R != 0 && s.C.X > s.A.X && s.C.X < s.B.X {
		all = append(all, slid(s.C.X))
	}
	for _, level := range []float64{floor, head} {
		for _, part := range under(s, level) {
			for _, x := range part {
				if x > s.A.X && x < s.B.X {
					all = append(all, slid(x))
				}
			}
		}
	}
	return all
}

// crossings are the slides, between those already known, where an edge of one
// that lies crosses one of another.
func crossings(others []passing, at []float64) []float64 {
	var found []float64
	const aside = 1e-9
	for i := 1; i < len(at); i++ {
		a, b := at[i-1]+aside, at[i]-aside
		if b-a < 1e-6 {
			continue
		}
		for j, p := range others {
			pLow, pHigh, meets := p.closed(a)
			if !meets {
				continue
			}
			pLowB, pHighB, _ := p.closed(b)
			for _, q := range others[:j] {
				qLow, qHigh, meets := q.closed(a)
				if !meets {
					continue
				}
				qLowB, qHighB, _ := q.closed(b)
				cross := func(d, dB float64, apart func(x float64) float64) {
					if (d < 0) == (dB < 0) {
						return
					}
					lo, hi := a, b
					for range 45 {
						mid := (lo + hi) / 2
						if (apart(mid) < 0) == (d < 0) {
							lo = mid
						} else {
							hi = mid
						}
					}
					found = append(found, lo, hi)
				}
				cross(pHigh-qHigh, pHighB-qHighB, func(x float64) float64 {
					_, a, _ := p.closed(x)
					_, b, _ := q.closed(x)
					return a - b
				})
				cross(pHigh-qLow, pHighB-qLowB, func(x float64) float64 {
					_, a, _ := p.closed(x)
					b, _, _ := q.closed(x)
					return a - b
				})
				cross(pLow-qHigh, pLowB-qHighB, func(x float64) float64 {
					a, _, _ := p.closed(x)
					_, b, _ := q.closed(x)
					return a - b
				})
			}
		}
	}
	return found
}

// lowestFree is the lowest height at a slide at which a pose comes too close to
// nothing that lies; past the head there is none.
func lowestFree(others []passing, x, floor, head float64) float64 {
	y := floor
	for moved := true; moved && y < head+rounding; {
		moved = false
		for _, p := range others {
			if low, high, meets := p.closed(x); meets && y > low+rounding && y < high-rounding {
				y, moved = high, true
			}
		}
	}
	if y > head && y < head+rounding {
		y = head
	}
	return y
}
