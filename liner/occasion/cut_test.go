package occasion

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"underflap/pattern/draw/referee"
)

// chordsOff is how far ezdxf's chords lie from arcs at most, in millimetres.
const chordsOff = 1e-5

// Beside every sheet lies its cut file, in which ezdxf, a general library, finds the
// closed contours of that sheet, each with the area of its liner.
func TestEverySheetHasItsCutFile(t *testing.T) {
	o := settled(t, "registration = \"all\"\n"+textOf(t, "winter-fair"), Wish{CutFormat: "dxf"})
	dir := filepath.Join(t.TempDir(), "fair")
	if _, err := o.Fill(t.Context(), dir, Part{}, true); err != nil {
		t.Fatal(err)
	}
	known, err := readRecord(dir)
	if err != nil {
		t.Fatal(err)
	}
	several := 0
	for _, s := range o.files(Part{}) {
		name := strings.TrimSuffix(s.File, ".pdf") + ".dxf"
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		if sum, err := sumOf(t.Context(), filepath.Join(dir, name)); err != nil || known[name] != sum {
			t.Errorf("%s has %s, recorded is %q; %v", name, sum, known[name], err)
		}
		got := referee.DXF(t, data)
		if len(got.Rings) != len(s.Plan.Placements) || len(got.Registration) != 2*4 || len(got.Errors) > 0 {
			t.Fatalf("%s: %d contours of %d liners, %d lines of marks, %q", name, len(got.Rings), len(s.Plan.Placements), len(got.Registration), got.Errors)
		}
		if len(s.Plan.Pieces) > 1 {
			several++
		}
		for i, pl := range s.Plan.Placements {
			alone, edge := o.Lines[s.Lines[pl.Piece]].Plan.Pieces[0].Outline, 0.0
			for _, seg := range alone.Contour {
				edge += seg.Length()
			}
			if want := math.Abs(alone.Area()); math.Abs(got.Areas[i]-want) > chordsOff*edge {
				t.Errorf("%s: contour %d has %f mm², its liner %f", name, i, got.Areas[i], want)
			}
		}
	}
	if several == 0 {
		t.Error("no sheet has liners of several kinds")
	}
}

// A cut file that is gone or spoiled is made again, and nothing else; without the
// wish it goes.
func TestCutFilesAreKept(t *testing.T) {
	text := textOf(t, "small-wedding")
	o := settled(t, text, Wish{CutFormat: "svg"})
	dir := filepath.Join(t.TempDir(), "wedding")
	if _, err := o.Fill(t.Context(), dir, Part{}, true); err != nil {
		t.Fatal(err)
	}
	sheets := o.files(Part{})
	names := sheets[1].names("svg")
	before, err := os.ReadFile(filepath.Join(dir, names[1]))
	if err != nil {
		t.Fatal(err)
	}
	kept, err := os.Stat(filepath.Join(dir, names[0]))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, names[1]), before[1:], 0o666); err != nil {
		t.Fatal(err)
	}
	if n, all, err := o.Found(t.Context(), dir, Part{}); n != len(sheets)-1 || all != len(sheets) || err != nil {
		t.Errorf("%d of %d sheets are found, want all of %d but one; %v", n, all, len(sheets), err)
	}
	if f, err := o.Fill(t.Context(), dir, Part{}, true); err != nil || f.Made != 1 || f.Kept != len(sheets)-1 || len(f.Removed) > 0 {
		t.Errorf("%+v, %v", f, err)
	}
	if after, err := os.ReadFile(filepath.Join(dir, names[1])); err != nil || string(after) != string(before) {
		t.Errorf("the cut file was not made again: %v", err)
	}
	if now, err := os.Stat(filepath.Join(dir, names[0])); err != nil || !os.SameFile(kept, now) {
		t.Errorf("the sheet was made again: %v", err)
	}
	if f, err := settled(t, text, Wish{}).Fill(t.Context(), dir, Part{}, true); err != nil || f.Made != 0 || len(f.Removed) != len(sheets) {
		t.Errorf("%+v, %v", f, err)
	}
	if left, err := filepath.Glob(filepath.Join(dir, "*.svg")); err != nil || len(left) > 0 {
		t.Errorf("left %q, %v", left, err)
	}
}

// What a person should know of the cut files is said when they are wanted.
func TestCutFilesWithoutMarksAreRemarkedOn(t *testing.T) {
	for format, want := range map[string]bool{"dxf": true, "": false} {
		said := strings.Join(settled(t, textOf(t, "small-wedding"), Wish{CutFormat: format}).Remarks(), "\n")
		if strings.Contains(said, "no marks to line the cut files up by") != want {
			t.Errorf("%q: %s", format, said)
		}
	}
}
