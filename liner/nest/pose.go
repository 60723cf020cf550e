// Package nest places cut lines on a sheet as close as they go: the true
// optimum over quarter turns and every slide, with straight and circular edges
// taken as they are. Lengths are millimetres. The plane here has its origin at
// the lower left of the printable area, x right and y up.
package nest

import (
	"underflap/liner/geom"
)

// Pose is a cut line turned: clockwise by Turn degrees about liner space's
// origin, as seen with y up.
type Pose struct {
	Turn  int
	Shape geom.Contour
	Box   geom.Box // that must lie in the room; smaller than the shape where a foot may be hidden

	edges *edges
}

// edges are what a pose shows from above, and what its half turn would: the
// lower edge turned about. They are made when wanted.
type edges struct{ upper, under geom.Profile }

func (p Pose) upper() geom.Profile {
	if p.edges.upper == nil {
		p.edges.upper = p.Shape.Upper()
	}
	return p.edges.upper
}

func (p Pose) under() geom.Profile {
	if p.edges.under == nil {
		p.edges.under = p.Shape.Map(spins[180], false).Upper()
	}
	return p.edges.under
}

// Turns are the ways a piece may be turned.
var Turns = []int{0, 90, 180, 270}

// NewPose turns a closed cut line. inside is the part of it that must lie in the
// room, usually the cut line itself.
func NewPose(cut, inside geom.Contour, turn int) Pose {
	spin := spins[turn]
	shape := cut.Map(spin, false)
	return Pose{Turn: turn, Shape: shape, Box: inside.Map(spin, false).Bounds(), edges: &edges{}}
}

var spins = map[int]func(geom.Point) geom.Point{
	0:   func(p geom.Point) geom.Point { return p },
	90:  func(p geom.Point) geom.Point { return geom.Point{X: p.Y, Y: -p.X} },
	180: func(p geom.Point) geom.Point { return geom.Point{X: -p.X, Y: -p.Y} },
	270: func(p geom.Point) geom.Point { return geom.Point{X: -p.Y, Y: p.X} },
}

// fits tells whether the pose alone fits a room.
func (p Pose) fits(width, height float64) bool {
	return p.Box.Width() <= width+rounding && p.Box.Height() <= height+rounding
}

// rounding forgives what floating point leaves, in millimetres.
const rounding = 1e-9
