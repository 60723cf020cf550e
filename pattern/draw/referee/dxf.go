package referee

import (
	_ "embed"
	"encoding/json"
	"testing"
)

// DXFRead is what ezdxf, a general library, reads in a DXF file of cut lines.
// Lengths are in the file's unit, y up.
type DXFRead struct {
	Version      string         `json:"version"`
	Errors       []string       `json:"errors"` // of its audit
	Layers       []string       `json:"layers"`
	Types        []string       `json:"types"` // of entities
	ExtMin       [2]float64     `json:"extmin"`
	ExtMax       [2]float64     `json:"extmax"`
	Box          [4]float64     `json:"box"`   // around all, of which the library knows the bulges of arcs
	Worst        float64        `json:"worst"` // gap between entities of the layer cut that follow each other
	Rings        [][][2]float64 `json:"rings"` // closed chains of the layer cut, in chords within 1e-5
	Areas        []float64      `json:"areas"` // of the rings
	Fold         [][4]float64   `json:"fold"`  // lines: from x, y to x, y
	Registration [][4]float64   `json:"registration"`
}

//go:embed dxf.py
var dxfScript string

// DXF lets ezdxf read a file of cut lines.
func DXF(t testing.TB, file []byte) (read DXFRead) {
	t.Helper()
	File(t, "/usr/lib/python3/dist-packages/ezdxf/__init__.py", "python3-ezdxf")
	// Debian's own Python: another that comes first on the path lacks Debian's libraries
	said := Run(t, "/usr/bin/python3", "-c", dxfScript, keep(t, "cut.dxf", file))
	if err := json.Unmarshal(said, &read); err != nil {
		t.Fatalf("ezdxf said %q: %v", said, err)
	}
	return read
}
