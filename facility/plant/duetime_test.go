package plant

import (
	"testing"

	"pgregory.net/rapid"

	"loamcast/sim"
)

// Shows that a queue that is only looked through when something may be ready says of
// its mass, and of whether anything is ready, what looking through it every time says:
// while loads come, are put off, are hurried and leave, and time goes on.
func TestDueTimeAgainstLooking(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var d dueTime
		var queue []*load
		now := sim.Time(0)
		pick := func() *load { return queue[rapid.IntRange(0, len(queue)-1).Draw(t, "which")] }
		for range rapid.IntRange(1, 40).Draw(t, "steps") {
			switch what := rapid.IntRange(0, 4).Draw(t, "step"); {
			case what == 0:
				now += sim.Time(rapid.IntRange(0, 9).Draw(t, "time"))
			case what == 1 || len(queue) == 0:
				l := &load{ready: now + sim.Time(rapid.IntRange(0, 20).Draw(t, "ready in")), cakeDry: float64(1 + len(queue))}
				queue = append(queue, l)
				d.expect(l.ready)
			case what == 2:
				pick().ready += sim.Time(rapid.IntRange(0, 9).Draw(t, "put off"))
			case what == 3:
				l := pick()
				l.ready = min(l.ready, now)
				d.expect(l.ready)
			default:
				queue = queue[1:]
			}
			ready, sum := false, 0.0
			for _, l := range queue {
				if l.ready <= now {
					ready, sum = true, sum+l.cakeDry
				}
			}
			if ready && d.after(now) {
				t.Fatalf("nothing is said to be ready at %d, and %g kg are", now, sum)
			}
			if got := d.mass(queue, now); got != sum || d.after(now) == ready {
				t.Fatalf("%g kg are ready at %d, nothing is: %v; want %g kg", got, now, d.after(now), sum)
			}
		}
	})
}
