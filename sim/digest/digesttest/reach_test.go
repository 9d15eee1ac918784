package digesttest_test

import (
	"testing"

	"loamcast/sim/digest/digesttest"
)

// What values reach, by hand: lists with the room they have left, what is led to twice
// once, and a ring without end as far as it goes round.
func TestReachByHand(t *testing.T) {
	type ring struct {
		Next *ring
		Text string
	}
	one := &ring{Text: "seven c"}
	one.Next = &ring{Next: one}
	list := make([]float64, 2, 5)
	for _, c := range []struct {
		name  string
		value any
		want  int
	}{
		{"a number", 1.5, 8},
		{"a list", list, 24 + 40},
		{"the same list twice", [][]float64{list, list}, 24 + 2*24 + 40},
		{"a ring of two", one, 8 + 2*(8+16) + 7},
		{"nothing", (*ring)(nil), 8},
		{"anything", struct{ A any }{int32(3)}, 16 + 4},
	} {
		if got := digesttest.Reach(c.value); got != c.want {
			t.Errorf("%s reaches %d bytes, by hand %d", c.name, got, c.want)
		}
	}
}
