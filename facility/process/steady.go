package process

import "math"

// steady is where all nodes of a stencil have the same temperature, as long as air holds
// them at a setpoint: a part of the way from one mark to the next.
type steady struct {
	mark        int
	from, to    float64 // parts of the way
	temperature float64 // °C
}

// held is how near temperatures are that count as the same, K. At their setpoint they
// differ by the rounding of a step.
const held = 1e-9

// findSteady notes the stretches between marks in which nothing need be interpolated: most
// of the time that a load is in a vessel. Each holds the middle of its way, as warming up
// and cooling down lie at either end.
func (st *stencil) findSteady() {
	for mark := range max(len(st.marks)-1, 0) {
		s := steady{mark: mark, from: 0, to: 1}
		for i := range st.nodes {
			from, to, temperature := st.heldAbout(i, mark)
			if i == 0 {
				s.temperature = temperature
			}
			if math.Abs(temperature-s.temperature) > held {
				to = from
			}
			s.from, s.to = max(s.from, from), min(s.to, to)
		}
		if s.to > s.from {
			st.steady = append(st.steady, s)
		}
	}
}

// heldAbout returns about the middle of the way of a node from a mark to the next: from
// which part to which it has the temperature that it has there, between points kept.
func (st *stencil) heldAbout(node, mark int) (from, to, temperature float64) {
	temperatures := st.temperatures[node]
	begin, way := st.marks[mark][node], st.marks[mark+1][node]-st.marks[mark][node]
	middle, _ := st.find(begin + way/2)
	temperature = temperatures[middle]
	first, last := middle, middle
	for first > 0 && math.Abs(temperatures[first-1]-temperature) <= held {
		first--
	}
	for last < len(temperatures)-1 && math.Abs(temperatures[last+1]-temperature) <= held {
		last++
	}
	if last == middle || !(way > 0) {
		return 0, 0, temperature
	}
	return (st.grid.hour(first) - begin) / way, (st.grid.hour(last) - begin) / way, temperature
}

// hours returns from when to when a load has a steady stretch, h.
func (s *Response) hours(of *steady) (from, to float64) {
	begin, end := s.marks[of.mark], s.marks[of.mark+1]
	return lerp(begin, end, of.from), lerp(begin, end, of.to)
}

// steadyAt returns the temperature at an hour in a steady stretch.
func (s *Response) steadyAt(hours float64) (temperature float64, ok bool) {
	for i := range s.stencil.steady {
		of := &s.stencil.steady[i]
		if from, to := s.hours(of); hours >= from && hours <= to {
			return of.temperature, true
		}
	}
	return 0, false
}

// fill sets the temperatures at the hours of points from one on that lie at either end of
// them in a steady stretch, and returns which are left.
func (s *Response) fill(first int, at []float64) (low, high int) {
	g, high := s.stencil.grid, len(at)
	for i := range s.stencil.steady {
		of := &s.stencil.steady[i]
		from, to := s.hours(of)
		in := func(point int) bool { h := g.hour(first + point); return h >= from && h <= to }
		for ; low < high && in(low); low++ {
			at[low] = of.temperature
		}
		for ; low < high && in(high-1); high-- {
			at[high-1] = of.temperature
		}
	}
	return low, high
}
