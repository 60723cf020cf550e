// Package pattern holds the families of pattern, one file each, and the design
// that puts one of them, its parameters and a palette on a region of paper.
//
// A family draws every motif that touches a region, whole. Nothing is cut at
// the edge of a repeat, so no seam can show at any size.
package pattern

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// Motif is a family with every parameter settled.
type Motif interface {
	// Draw draws every motif that touches area. The origin is the middle of
	// the fold; x runs right, y down towards the pocket's bottom. What mirrors
	// itself about x = 0 makes the flap's two halves mirror each other.
	Draw(s *draw.Surface, area draw.Rect, inks Colours)
	// Count is about how many motifs Draw draws on area.
	Count(area draw.Rect) float64
}

// family is what a pattern file registers.
type family struct {
	name, about string
	bind        func(p *params, art *draw.Art) Motif
}

var families = map[string]family{}

func register(f family) { families[f.name] = f }

// Stamps is the family that needs art of the person's own.
const Stamps = "stamps"

// Default is the family used when none is named.
const Default = "dots"

// Names lists the families in alphabetical order.
func Names() []string {
	var names []string
	for name := range families {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// Info is a family as lists show it.
type Info struct {
	Name, About string
	Params      []Param
}

// Describe lists every family with its parameters.
func Describe() []Info {
	var all []Info
	for _, name := range Names() {
		all = append(all, families[name].info())
	}
	return all
}

func (f family) info() Info {
	var p params
	f.bind(&p, nil)
	return Info{Name: f.name, About: f.about, Params: p.list}
}

// New settles a family's parameters: given has them by name, and what is missing
// takes its default. art is the picture that stamps repeat.
func New(name string, given map[string]Setting, art *draw.Art) (Motif, error) {
	chosen, err := words.Choose("pattern", name, Names())
	if err != nil {
		return nil, err
	}
	return families[chosen].settle(given, art)
}

func (f family) settle(given map[string]Setting, art *draw.Art) (Motif, error) {
	p := params{given: given}
	motif := f.bind(&p, art)
	if err := p.finish(f.name); err != nil {
		return nil, err
	}
	return motif, nil
}

// Design is a pattern ready to draw.
type Design struct {
	Name    string
	Motif   Motif
	Colours Colours
	Scale   float64 // enlarges motifs and spacings alike
	Turn    float64 // degrees, clockwise, about the middle of the fold
	Seed    uint64  // 0: as designed; else the inks change places and the pattern slides along the centre line
	Fade    Fade
	Saver   Saver
	Depth   float64 // of the pocket part, which a fade runs down; 0: none
}

// Apart is the same design with a motif of its own: drawing sets what a motif has
// of the design, so that of designs that are drawn at once each needs one.
func (d Design) Apart() Design {
	if d.Motif == nil {
		return d
	}
	own := reflect.New(reflect.TypeOf(d.Motif).Elem()) // every motif is a pointer to its parameters
	own.Elem().Set(reflect.ValueOf(d.Motif).Elem())
	d.Motif = own.Interface().(Motif)
	return d
}

// MostMotifs is the most that one liner may carry; past it outputs grow slow
// and the eye sees only a tint.
const MostMotifs = 100_000

// Check refuses a design that would draw too many motifs on area.
func (d Design) Check(area draw.Rect) error {
	if err := d.checkFade(); err != nil {
		return err
	}
	count := func(scale float64) float64 {
		d.Scale = scale
		return d.Motif.Count(d.space().Inverse().Bounds(area))
	}
	motifs, given := count(d.Scale), d.Scale
	if motifs <= MostMotifs {
		return nil
	}
	over := motifs / MostMotifs
	least := math.Ceil(given*math.Sqrt(over)*100) / 100
	if count(least) > MostMotifs { // bands thin out with the scale, motifs with its square
		least = math.Ceil(given*over*100) / 100
	}
	return &words.Refused{Field: "scale", Given: fmt.Sprint(given),
		Why:     fmt.Sprintf("%.0f motifs on one liner, and the most is %d", motifs, MostMotifs),
		Accepts: fmt.Sprintf("%g or more, or a wider spacing", least)}
}

// space is the map from the motif's space to the liner's.
func (d Design) space() draw.Matrix { return draw.Turn(d.Turn).After(draw.Scale(d.Scale)) }

// Draw covers area, given in the liner's own space: origin in the middle of
// the fold, x right, y down.
func (d Design) Draw(s *draw.Surface, area draw.Rect) {
	if d.Saver.Depth > 0 {
		d.saved(s, area)
		return
	}
	inks := d.Colours
	slide := 0.0
	if d.Seed != 0 {
		chance := rand.New(rand.NewPCG(d.Seed, 0x756e646572666c61))
		inks.Inks = slices.Clone(inks.Inks)
		chance.Shuffle(len(inks.Inks), func(i, j int) { inks.Inks[i], inks.Inks[j] = inks.Inks[j], inks.Inks[i] })
		slide = 100 * chance.Float64()
	}
	s.Fill(draw.Rectangle(area), inks.Ground)
	if single, ok := d.Motif.(recurring); ok {
		single.recurrence().seed = d.Seed
	}
	if chancy, ok := d.Motif.(seeded); ok {
		chancy.setSeed(d.Seed)
	}
	d.drawFaded(s, draw.Translate(0, slide).After(d.space()), area, inks)
}

// key names a symbol by everything that shapes it.
func key(parts ...any) string { return strings.TrimSpace(fmt.Sprintln(parts...)) }
