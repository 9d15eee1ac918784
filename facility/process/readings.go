package process

import "iter"

// together is how many hours a course is looked at together: node by node, so that what
// lies in one piece of memory is read in one go. Criteria are often met before the end,
// and what was looked at beyond that is wasted.
const together = 16

// temperatures returns those of the load at the hours of some points of the grid, from one
// on, °C, what Temperature says of each.
func (s *Response) temperatures(first int, at []float64) {
	st := s.stencil
	if s.marks == nil && st.to == 0 {
		s.asKept(first, at)
		return
	}
	low, high := s.fill(first, at)
	if low == high {
		return
	}
	first, at = first+low, at[low:high]
	clear(at)
	if s.marks != nil {
		s.byMarks(first, at)
		return
	}
	var offsets, slopes, hours [together]float64
	for k := range at {
		offsets[k], slopes[k] = s.clock(st.grid.hour(first + k))
	}
	for i, temperatures := range st.temperatures {
		warm := st.warm[i]
		for k := range at {
			hours[k] = offsets[k] + slopes[k]*warm
		}
		st.grid.add(at, temperatures, hours[:len(at)], s.weights[i])
	}
}

// byMarks adds the temperatures where the program waits: of hours between the same two marks
// together, for the way of a node from one to the other is then the same.
func (s *Response) byMarks(first int, at []float64) {
	st := s.stencil
	for len(at) > 0 {
		var parts, hours [together]float64
		mark, n := 0, 0
		for k := range at {
			m, part := locate(s.marks, st.grid.hour(first+k))
			if k > 0 && m != mark {
				break
			}
			mark, parts[k], n = m, part, k+1
		}
		before, after := st.marks[mark], st.marks[mark+1]
		for i, temperatures := range st.temperatures {
			from, way := before[i], after[i]-before[i]
			for k, part := range parts[:n] {
				hours[k] = from + part*way
			}
			st.grid.add(at[:n], temperatures, hours[:n], s.weights[i])
		}
		first, at = first+n, at[n:]
	}
}

// asKept is temperatures of a load whose nodes are not aligned, and are read where they keep
// their points.
func (s *Response) asKept(first int, at []float64) {
	clear(at)
	s.stencil.reach(s.stencil.grid.hour(first + len(at)))
	for i, temperatures := range s.stencil.temperatures {
		w, last := s.weights[i], len(temperatures)-1
		end := lerp(temperatures[last-1], temperatures[last], 1) // as Temperature has it
		for k := range at {
			if point := first + k; point < last {
				at[k] += w * temperatures[point]
			} else {
				at[k] += w * end
			}
		}
	}
}

// Warmest returns the highest temperature of the points that the table keeps up to an
// age in h, and the first after it: no reading up to then is above it. And it returns the
// hour of the first of them after which no reading comes to a level, °C.
func (s *Response) Warmest(hours, level float64) (most, until float64) {
	g := s.stencil.grid
	most = s.Temperature(0)
	if most >= level {
		until = g.hour(1)
	}
	var at [together]float64
	for point, ends := 0, g.points(hours); point < ends; point += together {
		n := min(together, ends-point)
		s.temperatures(point+1, at[:n])
		for k, t := range at[:n] {
			most = max(most, t)
			if t >= level { // and what lies between this point and the next may
				until = g.hour(point + 1 + k + 1)
			}
		}
	}
	return most, until
}

// Readings gives the hourly mean temperatures up to an age in h, for
// Criterion.Judge. To judge a vessel and its curing together, give it both.
// Between the points that the table keeps, temperature goes in straight lines.
func (s *Response) Readings(hours float64) iter.Seq[Reading] {
	return func(yield func(Reading) bool) {
		g := s.stencil.grid
		var at [together]float64
		before := s.Temperature(0)
		most := 1 // who asks for the first reading alone need not wait for the next ones
		for point, ends := 0, g.points(hours); point < ends; most = together {
			n := min(most, ends-point)
			s.temperatures(point+1, at[:n])
			for k := range n {
				begin, next, after := g.hour(point), g.hour(point+1), at[k]
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
