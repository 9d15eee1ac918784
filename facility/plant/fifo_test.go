package plant

import (
	"testing"

	"loamcast/sim"
)

// Mass leaves in the order in which it came, and the oldest part of what leaves is as
// old as its beginning. By hand: 10 kg come in evenly from 0 to 100 s, 20 kg from 100
// to 200 s. At 300 s the first 5 kg have waited 300 to 250 s, 275 s in the mean; of the
// next 15 kg 5 have waited 250 to 200 s, and 10 kg 200 to 150 s; what is left has
// waited 150 to 100 s.
func TestFirstInFirstOut(t *testing.T) {
	var q fifo
	q.in(0, 100, 10)
	q.in(100, 200, 20)
	for _, c := range []struct {
		mass, waited float64 // kg, kg·s
		oldest       sim.Duration
	}{
		{5, 5 * 275, 300},
		{15, 5*225 + 10*175, 250},
		{10, 10 * 125, 150},
	} {
		waited, oldest := q.out(300, c.mass)
		near(t, "waited", waited, c.waited, 1e-9)
		if oldest != c.oldest {
			t.Errorf("the oldest of %g kg has waited %d s, on paper %d", c.mass, oldest, c.oldest)
		}
	}
	near(t, "left", q.waiting(300), 0, 0)
}
