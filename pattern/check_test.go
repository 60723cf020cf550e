package pattern

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

func settled(family string, words ...string) Motif {
	given := map[string]Setting{}
	for _, w := range words {
		name, value, _ := strings.Cut(w, "=")
		given[name] = Setting{name, value}
	}
	m, err := New(family, given, nil)
	if err != nil {
		panic(err)
	}
	return m
}

// A design with too many motifs is refused with a scale that is accepted when
// it is followed.
func TestTheScaleThatIsAdvisedIsAccepted(t *testing.T) {
	area := draw.Rect{MinX: -115, MinY: -75, MaxX: 115, MaxY: 160}
	for name, motif := range map[string]Motif{
		"dots":     settled("dots", "size=0.4", "spacing=0.6"),
		"ogee":     settled("ogee", "size=1.2"),
		"argyle":   settled("argyle", "size=1"),
		"stripes":  &Stripes{Bands: []Band{{0.2, 1}, {0.2, 0}}},
		"gingham":  settled("gingham", "size=1.2"),
		"plaid":    settled("plaid", "sett=2:1,1:2,0.5:0,3:3"),
		"lines":    settled("crosshatch", "spacing=1.6", "gap=0.2", "width=0.2"),
		"scallops": &Scallops{Size: 1, Rise: 0.25, Rings: 2, Inks: []int{1, 0}},
	} {
		for _, scale := range []float64{0.05, 0.2} {
			for _, turn := range []float64{0, 30} {
				d := Design{Name: name, Motif: motif, Colours: blackOnWhite, Scale: scale, Turn: turn}
				var refused *words.Refused
				if err := d.Check(area); !errors.As(err, &refused) {
					t.Fatalf("%s at %g: %v", name, scale, err)
				}
				if _, err := fmt.Sscanf(refused.Accepts, "%g or more", &d.Scale); err != nil {
					t.Fatalf("%q: %v", refused.Accepts, err)
				}
				if err := d.Check(area); err != nil {
					t.Errorf("%s at %g: the advised scale %g is refused: %v", name, scale, d.Scale, err)
				}
			}
		}
	}
}

// What takes minutes to draw at 72 pixels to the inch is refused: long lines whose
// steep waves cross every row of pixels, and bands that paint each other over.
func TestSteepWavesAreRefused(t *testing.T) {
	area := draw.Rect{MinX: -115, MinY: -75, MaxX: 115, MaxY: 160}
	for _, c := range [][]string{
		{"guilloche", "wave=1"},
		{"guilloche", "wave=1", "height=120"},
		{"chevron", "width=1", "rise=200"},
		{"waves", "length=300", "rise=200", "bands=0.2:1"},
	} {
		steep := Design{Name: c[0], Motif: settled(c[0], c[1:]...), Colours: blackOnWhite, Scale: 1}
		plain := Design{Name: c[0], Motif: settled(c[0]), Colours: blackOnWhite, Scale: 1}
		var refused *words.Refused
		if err := steep.Check(area); !errors.As(err, &refused) || refused.Field != "scale" {
			t.Errorf("%v: %v", c, err)
		}
		if err := plain.Check(area); err != nil {
			t.Errorf("%s as it comes: %v", c[0], err)
		}
	}
}

// A refusal names a field that there is, though nothing was said of it, and a
// range that is not empty and that the parameter itself would take.
func TestARefusedDefaultIsNamedWhereItIsSaid(t *testing.T) {
	for _, c := range []struct{ family, name, value, field, accepts string }{
		{"dots", "size", "80", "set spacing", "20 mm to 200 mm"},
		{"pinstripes", "width", "10", "set spacing", "10 mm to 200 mm"},
		{"checks", "height", "1600", "set height", "0 mm to 150 mm"},
	} {
		_, err := New(c.family, map[string]Setting{c.name: {"set " + c.name, c.value}}, nil)
		var refused *words.Refused
		if !errors.As(err, &refused) || refused.Field != c.field || refused.Accepts != c.accepts {
			t.Errorf("%s %s=%s: %v", c.family, c.name, c.value, err)
		}
	}
	for _, c := range []struct {
		family string
		said   map[string]string
		want   string
	}{
		{"crosshatch", map[string]string{"width": "10", "lines": "6", "gap": "50", "spacing": "200"}, "set gap: \"50\"; accepted: 0.1 mm to 28 mm"},
		{"checks", map[string]string{"size": "150", "height": "1"}, "set height: \"1\"; accepted: 15 mm to 150 mm"},
	} {
		given := map[string]Setting{}
		for name, value := range c.said {
			given[name] = Setting{"set " + name, value}
		}
		if _, err := New(c.family, given, nil); err == nil || err.Error() != c.want {
			t.Errorf("%s %v: %v, want %s", c.family, c.said, err, c.want)
		}
	}
}
