package options

import "testing"

// The ranking follows the order that was found, counts from 1, and says from when
// each choice misses the target.
func TestRanking(t *testing.T) {
	a := written(1, choice("the plant as it is", 1, -2e5), choice("two vessels", -1, 0), choice("one vessel", 2, -1e5))
	a.Order = []int{1, 2, 0}
	for i, want := range []struct{ name, from string }{{"two vessels", ""}, {"one vessel", "2029"}, {"the plant as it is", "2028"}} {
		c := a.Ranking()[i]
		if from := a.MissedFrom(c.Choice); c.Rank != i+1 || c.Name != want.name || from != want.from {
			t.Errorf("%d is %q, which misses the target from %q; want %q from %q", c.Rank, c.Name, from, want.name, want.from)
		}
	}
}
