package request

import (
	"bytes"
	"testing"

	"underflap/pattern/draw/referee"
)

// TestMarksPrintWhereTheyAreCut lets poppler draw sheets with registration marks:
// their arms are black where fit says they are, stretched with all else for a
// printer that rescales, and nothing comes within a millimetre of them.
func TestMarksPrintWhereTheyAreCut(t *testing.T) {
	const dpi = 200.0
	mm := dpi / 25.4
	for name, w := range map[string]Words{
		"all":        {Registration: "all", Pattern: "checks"},
		"rescaled":   {Registration: "all", Pattern: "checks", CorrectX: "98", CorrectY: "99"},
		"no bleed":   {Registration: "three", Pattern: "checks", Bleed: "0", PerSheet: "most", Envelope: "c7"},
		"far in":     {Registration: "top-right,bottom-left", Pattern: "checks", RegistrationInset: "25", RegistrationArm: "40", RegistrationLine: "1", Paper: "a3"},
		"near folds": {Registration: "all", Envelope: "c6", Flap: "square", Paper: "186x175", RegistrationArm: "50", PerSheet: "1"},
		"outlines":   {Registration: "all", Blank: true, PerSheet: "2"},
	} {
		t.Run(name, func(t *testing.T) {
			r, err := Resolve(t.Context(), w)
			if err != nil {
				t.Fatal(err)
			}
			made, err := r.Make(t.Context())
			if err != nil {
				t.Fatal(err)
			}
			var file bytes.Buffer
			if err := (Output{Format: "pdf"}).Encode(t.Context(), &file, made.Pages); err != nil {
				t.Fatal(err)
			}
			drawn := referee.Renderers["poppler"](t, file.Bytes(), dpi)
			paper := made.Plan.Paper
			ink := func(x, y float64) bool { // of a place on the sheet before it is stretched
				x, y = paper.Width/2+(x-paper.Width/2)*r.Correction.X, paper.Height/2+(y-paper.Height/2)*r.Correction.Y
				return drawn.Pixel(int(x*mm), int(y*mm), 128)
			}
			marks := Report(made.Plan, made.Marks).Registration
			if len(marks) == 0 {
				t.Fatal("no marks")
			}
			for _, m := range marks {
				dx, dy := 1.0, 1.0
				if m.X > paper.Width/2 {
					dx = -1
				}
				if m.Y > paper.Height/2 {
					dy = -1
				}
				for along := 0.0; along < m.Arm-0.2; along += 0.2 {
					if !ink(m.X+dx*along, m.Y) || !ink(m.X, m.Y+dy*along) {
						t.Fatalf("%s: no ink %.1f mm along an arm", m.Corner, along)
					}
				}
				for along := 1.2; along < m.Arm+1; along += 0.2 { // outside and inside the angle
					for off := m.Line/2 + 0.2; off < 1; off += 0.2 {
						if ink(m.X+dx*along, m.Y-off) || ink(m.X+dx*along, m.Y+off) || ink(m.X-off, m.Y+dy*along) || ink(m.X+off, m.Y+dy*along) {
							t.Fatalf("%s: something lies %.1f mm beside an arm, %.1f mm along", m.Corner, off, along)
						}
					}
				}
				for beyond := 0.3; beyond < 1; beyond += 0.2 {
					if ink(m.X+dx*(m.Arm+beyond), m.Y) || ink(m.X, m.Y+dy*(m.Arm+beyond)) {
						t.Errorf("%s: ink %.1f mm beyond an arm", m.Corner, beyond)
					}
				}
			}
		})
	}
}

// TestCornersInWords reads which corners are wanted.
func TestCornersInWords(t *testing.T) {
	for list, want := range map[string][4]bool{
		"": {}, "none": {}, "all": {true, true, true, true}, "Three": {true, true, true, false},
		"bottom-right , top-left": {true, false, false, true}, "top-right": {false, true, false, false}, "three,bottom-right": {true, true, true, true},
	} {
		got, err := corners(list)
		if err != nil || got != want {
			t.Errorf("%q: %v, %v, want %v", list, got, err, want)
		}
	}
}
