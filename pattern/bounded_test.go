package pattern

import "testing"

// A person may ask for ever new arrangements and cells: what is kept of them is
// bounded.
func TestArrangementsAndCellsAreNotKeptForEver(t *testing.T) {
	for seed := range uint64(200) {
		r := Recurrence{Repeat: Toss, Density: 1, Spacing: 1, seed: seed}
		placesOf(&r, box(20), 2)
		if kept := tosses.Weight(); kept > 64 || seed >= 64 && kept < 64 {
			t.Fatalf("%d tosses are kept after %d", kept, seed+1)
		}
	}
	for i := range 400 {
		r := Recurrence{Symmetry: "p1", Cell: Cell{Ratio: 1 + float64(i)/500, Angle: 80}, Spacing: 1}
		r.orbitOf(2)
		if kept := unitOrbits.Weight(); kept > 256 || i >= 256 && kept < 256 {
			t.Fatalf("%d orbits are kept after %d", kept, i+1)
		}
	}
}
