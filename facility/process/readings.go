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
	g, last := st.grid, len(st.points[0])-1
	if s.marks != nil {
		s.byMarks(first, at)
		return
	}
	var offsets, slopes [together]float64
	for k := range at {
		offsets[k], slopes[k] = s.clock(g.hour(first + k))
		at[k] = 0
	}
	for i, temperatures := range st.temperatures {
		w, warm := s.weights[i], st.warm[i]
		for k := range at {
			point, part := g.find(offsets[k]+slopes[k]*warm, last)
			at[k] += w * lerp(temperatures[point], temperatures[point+1], part)
		}
	}
}

// byMarks is temperatures where the program waits.
func (s *Response) byMarks(first int, at []float64) {
	st := s.stencil
	g, last := st.grid, len(st.points[0])-1
	var marks [together]int
	var parts [together]float64
	for k := range at {
		marks[k], parts[k] = locate(s.marks, g.hour(first+k))
		at[k] = 0
	}
	if g == even(tablePace) && marks[0] == marks[len(at)-1] {
		s.betweenMarks(marks[0], &parts, at)
		return
	}
	for i, temperatures := range st.temperatures {
		w := s.weights[i]
		for k := range at {
			mark := marks[k]
			point, part := g.find(lerp(st.marks[mark][i], st.marks[mark+1][i], parts[k]), last)
			at[k] += w * lerp(temperatures[point], temperatures[point+1], part)
		}
	}
}

// betweenMarks is byMarks at hours that all lie between the same two marks, in a table
// whose points lie at the usual pace all along: the way of each node from one mark to the
// other is then the same for all hours, and a point is found by halving one.
func (s *Response) betweenMarks(mark int, parts *[together]float64, at []float64) {
	before, after := s.stencil.marks[mark], s.stencil.marks[mark+1]
	for i, temperatures := range s.stencil.temperatures {
		w, from, way, last := s.weights[i], before[i], after[i]-before[i], len(temperatures)-1
		for k := range at {
			point, part := 0, 0.0
			switch x := (from + parts[k]*way) / tablePace; {
			case x >= float64(last):
				point, part = last-1, 1
			case x > 0:
				point = int(x)
				part = x - float64(point)
			}
			at[k] += w * lerp(temperatures[point], temperatures[point+1], part)
		}
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
