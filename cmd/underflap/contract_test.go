package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
)

// contract is what DESIGN.md promises that fit --json prints, as an outsider
// would read it: nothing of the project's own types.
type contract struct {
	Envelope struct {
		Name          string
		Width, Height float64
	}
	Flap struct {
		Shape   string
		Depth   float64
		Profile [][2]float64
	}
	Outline                      [][2]float64
	PocketDepth, FullPocketDepth float64
	Paper                        struct {
		Name          string
		Width, Height float64
	}
	PrinterMargin, Gap float64
	Layout             string
	PerSheet, Sheets   int
	Placements         []struct {
		Turn    int
		DX, DY  float64
		Outline [][2]float64
	}
}

// promised are the keys of the contract, in full.
var promised = []string{
	"envelope.name", "envelope.width", "envelope.height", "flap.shape", "flap.depth", "flap.profile", "outline", "pocketDepth", "fullPocketDepth",
	"paper.name", "paper.width", "paper.height", "printerMargin", "gap", "layout", "perSheet", "sheets", "placements",
}

// readContract reads one object, and refuses what breaks the contract.
func readContract(data []byte) (c contract, err error) {
	var object map[string]any
	dec := json.NewDecoder(strings.NewReader(string(data)))
	if err := dec.Decode(&object); err != nil {
		return c, err
	}
	if dec.More() {
		return c, errors.New("more than one object")
	}
	for _, key := range promised {
		var at any = object
		for _, part := range strings.Split(key, ".") {
			inner, _ := at.(map[string]any)
			at = inner[part]
		}
		if at == nil {
			return c, fmt.Errorf("no key %s", key)
		}
	}
	if err := json.Unmarshal(data, &c); err != nil {
		return c, err
	}
	return c, c.check()
}

const within = 1e-5 // of a millimetre, what rounding in the file may cost

func (c contract) check() error {
	if err := closed("outline", c.Outline); err != nil {
		return err
	}
	minX, minY, maxX, maxY := bounds(c.Outline)
	switch {
	case math.Abs(minY+c.PocketDepth) > within:
		return fmt.Errorf("the outline reaches %g below the fold, and pocketDepth is %g", -minY, c.PocketDepth)
	case minX < -within || maxX > c.Envelope.Width+within:
		return fmt.Errorf("the outline runs from %g to %g in a pocket %g wide", minX, maxX, c.Envelope.Width)
	case maxY <= 0 || maxY > c.Flap.Depth:
		return fmt.Errorf("the outline rises %g on a flap %g deep", maxY, c.Flap.Depth)
	case c.PocketDepth > c.FullPocketDepth+within || c.FullPocketDepth > c.Envelope.Height:
		return fmt.Errorf("pocket depth %g of %g in a pocket %g high", c.PocketDepth, c.FullPocketDepth, c.Envelope.Height)
	case c.PerSheet != len(c.Placements) || c.PerSheet < 1 || c.Sheets < 1:
		return fmt.Errorf("perSheet %d, sheets %d, placements %d", c.PerSheet, c.Sheets, len(c.Placements))
	}
	_, _, _, top := bounds(c.Flap.Profile)
	if math.Abs(top-c.Flap.Depth) > within {
		return fmt.Errorf("the flap's profile rises %g, and its depth is %g", top, c.Flap.Depth)
	}
	for i := 1; i < len(c.Flap.Profile); i++ {
		if c.Flap.Profile[i][0] < c.Flap.Profile[i-1][0]-within {
			return fmt.Errorf("the flap's profile does not run left to right at point %d", i)
		}
	}
	for i, p := range c.Placements {
		if err := c.checkPlacement(p.Turn, p.DX, p.DY, p.Outline); err != nil {
			return fmt.Errorf("placement %d: %w", i, err)
		}
	}
	return nil
}

// checkPlacement turns and slides the outline as the contract says and expects
// the placed outline, inside the printable area.
func (c contract) checkPlacement(turn int, dx, dy float64, placed [][2]float64) error {
	if err := closed("outline", placed); err != nil {
		return err
	}
	minX, minY, maxX, maxY := bounds(placed)
	m := c.PrinterMargin - within
	if minX < m || minY < m || maxX > c.Paper.Width-m || maxY > c.Paper.Height-m {
		return fmt.Errorf("%g..%g by %g..%g is not inside the printable area", minX, maxX, minY, maxY)
	}
	if len(placed) != len(c.Outline) {
		return fmt.Errorf("%d points, and the outline has %d", len(placed), len(c.Outline))
	}
	turns := map[int]func(x, y float64) (float64, float64){
		0:   func(x, y float64) (float64, float64) { return x, -y },
		90:  func(x, y float64) (float64, float64) { return y, x },
		180: func(x, y float64) (float64, float64) { return -x, y },
		270: func(x, y float64) (float64, float64) { return -y, -x },
	}
	at := turns[turn]
	if at == nil {
		return fmt.Errorf("turned by %d", turn)
	}
	for i, p := range c.Outline {
		x, y := at(p[0], p[1])
		if math.Hypot(placed[i][0]-x-dx, placed[i][1]-y-dy) > within {
			return fmt.Errorf("point %d is %v, and turn %d with dx %g, dy %g puts it at %g, %g", i, placed[i], turn, dx, dy, x+dx, y+dy)
		}
	}
	return nil
}

func closed(what string, ring [][2]float64) error {
	if len(ring) < 5 {
		return fmt.Errorf("%s of %d points", what, len(ring))
	}
	if ring[0] != ring[len(ring)-1] {
		return fmt.Errorf("%s begins at %v and ends at %v", what, ring[0], ring[len(ring)-1])
	}
	area := 0.0
	for i := 1; i < len(ring); i++ {
		area += ring[i-1][0]*ring[i][1] - ring[i][0]*ring[i-1][1]
	}
	if math.Abs(area)/2 < 100 {
		return fmt.Errorf("%s encloses %g mm²", what, math.Abs(area)/2)
	}
	return nil
}

func bounds(points [][2]float64) (minX, minY, maxX, maxY float64) {
	minX, minY, maxX, maxY = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range points {
		minX, maxX = min(minX, p[0]), max(maxX, p[0])
		minY, maxY = min(minY, p[1]), max(maxY, p[1])
	}
	return
}

// TestContractReaderRefuses keeps the reader above honest.
func TestContractReaderRefuses(t *testing.T) {
	workbench(t)
	whole := call(t, "fit", "--json").stdout
	if _, err := readContract([]byte(whole)); err != nil {
		t.Fatal(err)
	}
	var object map[string]any
	for _, spoil := range []func(){
		func() { delete(object, "gap") },
		func() { delete(object["paper"].(map[string]any), "name") },
		func() { object["pocketDepth"] = 50 },
		func() { object["perSheet"] = 7 },
		func() { object["outline"] = object["outline"].([]any)[1:] },
		func() { object["printerMargin"] = 60 },
		func() { object["placements"].([]any)[0].(map[string]any)["turn"] = 90 },
		func() { object["placements"].([]any)[1].(map[string]any)["dx"] = 0 },
	} {
		object = nil
		if err := json.Unmarshal([]byte(whole), &object); err != nil {
			t.Fatal(err)
		}
		spoil()
		spoiled, err := json.Marshal(object)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := readContract(spoiled); err == nil {
			t.Errorf("accepted %.120s…", spoiled)
		}
	}
}
