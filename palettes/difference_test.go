package palettes_test

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"underflap/palettes"
	"underflap/pattern/draw"
)

// The 34 pairs of Sharma, Wu and Dalal 2005, Table 1, to the table's four
// digits, both ways round.
func TestDifferenceIsCIEDE2000(t *testing.T) {
	data, err := os.ReadFile("testdata/ciede2000.tsv")
	if err != nil {
		t.Fatal(err)
	}
	pairs := 0
	for line := range strings.Lines(string(data)) {
		if strings.HasPrefix(line, "#") {
			continue
		}
		var p, q palettes.Lab
		var want float64
		if _, err := fmt.Sscan(line, &p.L, &p.A, &p.B, &q.L, &q.A, &q.B, &want); err != nil {
			t.Fatal(line, err)
		}
		pairs++
		for _, got := range []float64{p.Difference(q), q.Difference(p)} {
			if math.Abs(got-want) > 0.00005001 {
				t.Errorf("pair %d: %.6f, in the table %.4f", pairs, got, want)
			}
		}
	}
	if pairs != 34 {
		t.Errorf("%d pairs, the table has 34", pairs)
	}
}

func TestBlackAndWhiteAreAHundredApart(t *testing.T) {
	if got := palettes.Difference(draw.White, draw.Colour{}); math.Abs(got-100) > 0.01 {
		t.Error(got)
	}
}
