package plant

import "loamcast/sim"

// dueTime is an instant before which nothing in a queue of loads is ready, so that a
// queue in which nothing is need not be looked through after every event.
type dueTime sim.Time

// expect notes that a load will be ready at an instant. One that is put off, or leaves
// the queue, need not be told: the next look finds out.
func (d *dueTime) expect(ready sim.Time) { *d = min(*d, dueTime(ready)) }

// after reports whether nothing is ready yet.
func (d *dueTime) after(now sim.Time) bool { return sim.Time(*d) > now }

// mass returns the cake that went into the loads of a queue that are ready, kg dry.
func (d *dueTime) mass(queue []*load, now sim.Time) float64 {
	if d.after(now) {
		return 0
	}
	*d = never
	sum := 0.0
	for _, l := range queue {
		d.expect(l.ready)
		if l.ready <= now {
			sum += l.cakeDry
		}
	}
	return sum
}

// never is after all instants.
const never dueTime = 1<<63 - 1
