package process

import "iter"

// together is how many hours a course is looked at together: node by node, so that what
// lies in one piece of memory is read in one go. Criteria are often met before the end,
// and what was looked at beyond that is wasted.
const together = 16

// temperatures returns those of the load at some hours, °C, what Temperature says of each.
func (s *Response) temperatures(hours []float64, at *[together]float64) {
	st := s.stencil
	var clocks [together]clock
	for k, h := range hours {
		clocks[k] = s.clock(h)
		at[k] = 0
	}
	g, last := st.grid, len(st.points[0])-1
	for i, temperatures := range st.temperatures {
		w := s.weights[i]
		for k := range hours {
			c := &clocks[k]
			h := c.offset
			if c.moves {
				h = c.hour(st, i)
			}
			point, part := g.find(h, last)
			at[k] += w * lerp(temperatures[point], temperatures[point+1], part)
		}
	}
}

// Warmest returns the highest temperature of the points that the table keeps up to an
// age in h, and the first after it: no reading up to then is above it.
func (s *Response) Warmest(hours float64) float64 {
	g := s.stencil.grid
	most := s.Temperature(0)
	var at, ends [together]float64
	for point := 0; g.hour(point) < hours; {
		n := 0
		for ; n < together && g.hour(point) < hours; n++ {
			point++
			ends[n] = g.hour(point)
		}
		s.temperatures(ends[:n], &at)
		for _, t := range at[:n] {
			most = max(most, t)
		}
	}
	return most
}

// Readings gives the hourly mean temperatures up to an age in h, for
// Criterion.Judge. To judge a vessel and its curing together, give it both.
// Between the points that the table keeps, temperature goes in straight lines.
func (s *Response) Readings(hours float64) iter.Seq[Reading] {
	return func(yield func(Reading) bool) {
		g := s.stencil.grid
		var at [together]float64
		var ends [together]float64
		before := s.Temperature(0)
		for point := 0; g.hour(point) < hours; {
			first, n := point, 0
			for ; n < together && g.hour(first+n) < hours; n++ {
				ends[n] = g.hour(first + n + 1)
			}
			s.temperatures(ends[:n], &at)
			for k := range n {
				begin, next, after := g.hour(point), ends[k], at[k]
				for t := begin; t < min(next, hours); t++ {
					end := min(t+1, next, hours)
					mean := before + (after-before)*((t+end)/2-begin)/(next-begin)
					if !yield(Reading{Hours: end - t, Temperature: mean}) {
						return
					}
				}
				before = after
				point++
			}
		}
	}
}
