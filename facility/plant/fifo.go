package plant

import "loamcast/sim"

// fifo remembers when mass came in, so that first-in-first-out waiting times
// are exact although nothing is moved piece by piece.
type fifo struct {
	runs []run
	head int
}

// run is mass that came in evenly between two instants.
type run struct {
	from, to sim.Time
	mass     float64
}

func (q *fifo) in(from, to sim.Time, mass float64) {
	if mass <= 0 {
		return
	}
	if q.head > 64 && q.head*2 > len(q.runs) {
		q.runs = append(q.runs[:0], q.runs[q.head:]...)
		q.head = 0
	}
	q.runs = append(q.runs, run{from, to, mass})
}

// out takes mass, oldest first, at now. It returns the sum of mass × seconds
// waited and the wait of the oldest part.
func (q *fifo) out(now sim.Time, mass float64) (waited float64, oldest sim.Duration) {
	for mass > 0 && q.head < len(q.runs) {
		r := &q.runs[q.head]
		oldest = max(oldest, now.Sub(r.from))
		part := min(mass, r.mass)
		cut := r.to
		if part < r.mass {
			cut = r.from.Add(sim.DurationOf(float64(r.to.Sub(r.from)) * part / r.mass))
		}
		waited += part * (float64(now.Sub(r.from)) + float64(now.Sub(cut))) / 2
		mass -= part
		if part >= r.mass {
			q.head++
			continue
		}
		r.from = cut
		r.mass -= part
	}
	return waited, oldest
}

// waiting returns mass × seconds waited so far by all that is still in.
func (q *fifo) waiting(now sim.Time) float64 {
	sum := 0.0
	for _, r := range q.runs[q.head:] {
		sum += r.mass * (float64(now.Sub(r.from)) + float64(now.Sub(r.to))) / 2
	}
	return sum
}
