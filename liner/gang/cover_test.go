package gang

import (
	"context"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// fewest is the least number of sheets by looking at every number of copies of
// every way.
func fewest(c covering, i int, copies []int) int {
	if i == len(copies) {
		return c.sum(copies).sheets
	}
	best := math.MaxInt
	for n := 0; n <= 4; n++ {
		copies[i] = n
		best = min(best, fewest(c, i+1, copies))
	}
	copies[i] = 0
	return best
}

func drawCovering(t *rapid.T, most int) covering {
	c := covering{ctx: context.Background()}
	kinds := rapid.IntRange(1, 4).Draw(t, "kinds")
	for range kinds {
		c.need = append(c.need, rapid.IntRange(1, most).Draw(t, "need"))
		c.alone = append(c.alone, rapid.IntRange(1, 4).Draw(t, "alone"))
	}
	for range rapid.IntRange(0, 5).Draw(t, "ways") {
		w := make([]int, kinds)
		for k := range w {
			w[k] = rapid.IntRange(0, 2).Draw(t, "of it")
		}
		if slices.Max(w) > 0 {
			c.ways = append(c.ways, w)
		}
	}
	return c
}

// Small coverings against every choice there is.
func TestNoChoiceOfSheetsIsFewer(t *testing.T) {
	better := 0
	rapid.Check(t, func(t *rapid.T) {
		c := drawCovering(t, 4)
		got, want := c.sum(c.best()).sheets, fewest(c, 0, make([]int, len(c.ways)))
		if got != want {
			t.Fatalf("%d sheets, and %d are enough: %+v", got, want, c)
		}
		if want < c.sum(make([]int, len(c.ways))).sheets {
			better++
		}
	})
	if better < 20 {
		t.Errorf("sharing was better %d times: hardly tried", better)
	}
}

// The linear program by its duality (von Neumann; Gale, Kuhn and Tucker 1951):
// sheets cover the need, prices exceed no cost, and both come to the same; so
// neither can be bettered.
func TestFractionsAndPricesComeToTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCovering(t, 1000)
		all, cost := c.everyWay()
		for i := range cost {
			cost[i] = rapid.Float64Range(1, 1.2).Draw(t, "cost")
		}
		x, prices := fractions(c.need, all, cost)
		sold, paid := 0.0, 0.0
		for k, n := range c.need {
			got := 0.0
			for i, w := range all {
				got += x[i] * float64(w[k])
			}
			if got < float64(n)-1e-6 || prices[k] < 0 {
				t.Fatalf("%v of kind %d, want %d; price %v", got, k, n, prices[k])
			}
			sold += prices[k] * float64(n)
		}
		for i, w := range all {
			sum := 0.0
			for k, m := range w {
				sum += prices[k] * float64(m)
			}
			if sum > cost[i]+1e-9 || x[i] < 0 {
				t.Fatalf("way %d sells for %v, costs %v; %v of it", i, sum, cost[i], x[i])
			}
			paid += x[i] * cost[i]
		}
		if math.Abs(sold-paid) > 1e-6*paid {
			t.Fatalf("sheets come to %v, prices to %v", paid, sold)
		}
	})
}

// Large needs stay within one sheet a kind of the bound, and seldom miss it by
// more than one.
func TestLargeCoveringsComeNearTheBound(t *testing.T) {
	over, tried := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		c := drawCovering(t, 100000)
		all, cost := c.everyWay()
		for i := range cost {
			cost[i] = 1
		}
		_, prices := fractions(c.need, all, cost)
		bound := 0.0
		for k, p := range prices {
			bound += p * float64(c.need[k])
		}
		got, least := c.sum(c.best()).sheets, int(math.Ceil(bound-1e-6))
		tried++
		if got > least+1 {
			over++
		}
		if got < least || got > least+len(c.need) {
			t.Fatalf("%d sheets, the bound is %d: %+v", got, least, c)
		}
	})
	if over > tried/10 {
		t.Errorf("%d of %d miss the bound by more than one", over, tried)
	}
}
