package process

// Where a load is at an hour, each node of its stencil is at an hour of its own: courses are
// aligned.

// clock returns by what an hour of this load becomes that of each node, where the program
// does not wait: offset + slope·(the node's hour of warming up). The hours are the same
// where both have just warmed up, the same at the ends of the segment in which they do, and
// in proportion between.
func (s *Response) clock(hours float64) (offset, slope float64) {
	from, to := s.stencil.from, s.stencil.to
	switch {
	case hours <= from || hours >= to:
		return hours, 0
	case hours < s.warm:
		slope = (hours - from) / (s.warm - from)
		return from * (1 - slope), slope
	}
	slope = (to - hours) / (to - s.warm)
	return to * (1 - slope), slope
}

// spots is where the courses of the nodes are looked at: the point before, and the fraction
// of the way to the next one. Nodes lie far apart in memory, and to look at them is mostly
// to wait for it: so the spots of all are found before anything is read, and what is made
// of them is made in loops so short that a processor that sees ahead waits for many nodes at
// once.
type spots struct {
	points [mostPoints]int32
	parts  [mostPoints]float64
}

// spots finds those at an hour of this load. Where the program waits the nodes are on the
// same part of the way from one mark to the next.
func (s *Response) spots(at *spots, hours float64) {
	st := s.stencil
	g, last, n := st.grid, len(st.points[0])-1, len(st.points)
	points, parts := at.points[:n], at.parts[:n]
	if s.marks != nil {
		mark, part := locate(s.marks, hours)
		before, after := st.marks[mark][:n], st.marks[mark+1][:n]
		for i := range points {
			point, part := g.find(lerp(before[i], after[i], part), last)
			points[i], parts[i] = int32(point), part
		}
		return
	}
	offset, slope := s.clock(hours)
	if slope == 0 {
		point, part := g.find(offset, last)
		for i := range points {
			points[i], parts[i] = int32(point), part
		}
		return
	}
	warm := st.warm[:n]
	for i := range points {
		point, part := g.find(offset+slope*warm[i], last)
		points[i], parts[i] = int32(point), part
	}
}
