package request

import (
	"context"
	"crypto/sha256"
	"fmt"

	"underflap/liner/scene"
	"underflap/liner/sheet"
	"underflap/pattern/draw/png"
	"underflap/pattern/draw/recall"
)

// Memory keeps what answers have in common, so that the next one is quick: how
// liners lie on a sheet, shadows, cleaned art, the colours of photos, and pictures
// brought to a density. Answers are the same with it and without. It is for one
// program that answers many requests, at once if need be, and is bounded: what was
// used least lately goes. A nil memory keeps nothing.
type Memory struct {
	plans   *recall.Store[digest, planned]
	shadows *scene.Shadows
	art     *recall.Store[digest, prepared]
	photos  *recall.Store[digest, ofPhoto]
	density *png.Keeper
}

// What is kept at most: plans and photos' colours by number, the others in bytes.
const (
	mostPlans   = 256
	mostPhotos  = 64
	mostShadows = 64 << 20
	mostArt     = 320 << 20 // the largest picture that is read has half of it
	mostDensity = 128 << 20
)

// NewMemory remembers nothing yet.
func NewMemory() *Memory { return memoryOf(1) }

// memoryOf has a share of the room.
func memoryOf(share float64) *Memory {
	of := func(most float64) int64 { return int64(share * most) }
	return &Memory{
		plans:   recall.New[digest, planned](of(mostPlans)),
		shadows: scene.NewShadows(of(mostShadows)),
		art:     recall.New[digest, prepared](of(mostArt)),
		photos:  recall.New[digest, ofPhoto](of(mostPhotos)),
		density: png.NewKeeper(of(mostDensity)),
	}
}

// Weight is about how many bytes pictures in the memory take.
func (m *Memory) Weight() int64 {
	if m == nil {
		return 0
	}
	return m.shadows.Weight() + m.art.Weight() + m.density.Weight()
}

// digest stands for everything that shapes something kept.
type digest [sha256.Size]byte

func digestOf(all any) digest {
	h := sha256.New()
	fmt.Fprintf(h, "%#v", all) // every field of it, and of what is in it
	return digest(h.Sum(nil))
}

// planned is a task arranged, and settled.
type planned struct {
	plan, settled sheet.Plan
	marks         sheet.Marks
}

func (m *Memory) planned(ctx context.Context, t sheet.Task) (planned, error) {
	if err := ctx.Err(); err != nil {
		return planned{}, err
	}
	make := func() (p planned, weight int64, err error) {
		if p.plan, err = sheet.Arrange(t); err == nil {
			p.settled, p.marks = p.plan.Settle()
		}
		return p, 1, err
	}
	if m == nil {
		p, _, err := make()
		return p, err
	}
	return m.plans.Of(ctx, digestOf(t), make)
}

// arrange is how the liners of a task lie.
func (m *Memory) arrange(ctx context.Context, t sheet.Task) (sheet.Plan, error) {
	if m == nil { // nobody settles it for nothing
		if err := ctx.Err(); err != nil {
			return sheet.Plan{}, err
		}
		return sheet.Arrange(t)
	}
	p, err := m.planned(ctx, t)
	return p.plan, err
}

// settle is how they are drawn.
func (m *Memory) settle(ctx context.Context, t sheet.Task) (sheet.Plan, sheet.Marks, error) {
	p, err := m.planned(ctx, t)
	return p.settled, p.marks, err
}

// shadowsKept and tiles are nil without a memory.
func (m *Memory) shadowsKept() *scene.Shadows {
	if m == nil {
		return nil
	}
	return m.shadows
}

func (m *Memory) tiles() *png.Keeper {
	if m == nil {
		return nil
	}
	return m.density
}
