package process

import "math"

// timeline is when the course of a standard load does what the program waits for.
type timeline struct {
	warmIn int       // segment, or stretch between turnings, in which it comes near its setpoint
	ends   []float64 // h, of each segment but the last; the end of the course if not reached
	met    []float64 // h, when what a segment waits for is met; 0 where it waits for nothing, +Inf if it is not met in time
}

// timeline returns that of a course that has ended.
func (r *run) timeline(warmIn int) *timeline {
	p, last := &r.progress, len(r.m.Program)-1
	t := &timeline{warmIn: warmIn, ends: make([]float64, last), met: make([]float64, last)}
	for i := range last {
		t.ends[i] = r.hours
		if i < len(p.ended) {
			t.ends[i] = p.ended[i]
		}
		if p.watch == nil {
			continue
		}
		if w := p.watch[i]; w != nil {
			since := 0.0
			if r.m.Program[i].Until.Own {
				since = t.begin(i)
			}
			t.met[i] = math.Inf(1)
			if w.met.OK { // it is not judged any more once the segment is over
				t.met[i] = min(since+w.met.Hours, t.ends[i])
			}
		}
	}
	return t
}

// begin returns the hour at which a segment begins.
func (t *timeline) begin(segment int) float64 {
	if segment == 0 {
		return 0
	}
	return t.ends[segment-1]
}

// pressed is the ratio by which the times from when loads are warm to the end of the
// segment may differ in the coarse lattice.
const pressed = 2

// end returns the hour at which a segment, or a stretch between turnings, ends.
func (t *timeline) end(i int, m *Model, maxHours float64) float64 {
	stretches := t.stretches(m)
	if i < len(stretches) {
		return min(stretches[i], maxHours)
	}
	return maxHours
}

// stretches returns the hours that divide a course: those at which segments end, or at
// which the pile is turned.
func (t *timeline) stretches(m *Model) []float64 {
	if m.Turning.turns() {
		return m.Turning.At
	}
	return t.ends
}

// timed reports whether the nodes may be interpolated in a program that waits: their
// segments end for the same reason, or nearly so where the lattice is finer, and all or
// none warm up, in the same segment and at about the same time.
func (st *stencil) timed(m *Model, maxHours float64, level int8) bool {
	first := st.nodes[0].timeline
	warm, together := 0, true
	least, most := math.Inf(1), 0.0
	short, long := math.Inf(1), 0.0 // what is left of the segment once they are warm
	for _, n := range st.nodes {
		if !math.IsInf(n.warm, 1) {
			warm++
		}
		least, most = min(least, n.warm), max(most, n.warm)
		together = together && n.timeline.warmIn == first.warmIn
		left := n.timeline.end(n.timeline.warmIn, m, maxHours) - n.warm
		short, long = min(short, left), max(long, left)
	}
	for i, s := range m.Program[:len(m.Program)-1] {
		if s.Until == nil {
			continue
		}
		never, waited := 0, 0
		for _, n := range st.nodes {
			switch met := n.timeline.met[i]; {
			case met > n.timeline.ends[i]:
				never++
			case met > n.timeline.begin(i)+s.Hours:
				waited++
			}
		}
		if never > 0 && never < len(st.nodes) || waited > 0 && waited < len(st.nodes) && level < 1 {
			return false
		}
	}
	switch {
	case warm == 0:
	case warm == len(st.nodes) && together && near(least, most) && (level >= 1 || long < pressed*short):
		st.to = maxHours
	case len(m.Criteria) > 0 || level < unaligned:
		return false
	}
	st.mark(m, maxHours)
	return true
}

// wait is what the nodes of a stencil say of how long a segment waits.
type wait struct {
	met   []float64 // h, when each meets what is waited for, at the latest when the segment ends
	never bool      // none meets it in time
}

// mark notes for each node when each segment ends and, where the stencil is aligned by
// that, when it warms up; and how long segments wait.
func (st *stencil) mark(m *Model, maxHours float64) {
	for i, n := range st.nodes {
		for mark, hour := range st.lay(n.timeline, m, n.warm, maxHours) {
			if i == 0 {
				st.marks = append(st.marks, make([]float64, len(st.nodes)))
			}
			st.marks[mark][i] = hour
		}
	}
	st.waits = make([]wait, len(m.Program)-1)
	for i := range st.waits {
		if u := m.Program[i].Until; u != nil {
			st.waits[i] = st.wait(i, u.Own)
		}
	}
}

// wait tells how long a segment waits, counted from its beginning, if it is judged on its
// own, or else from when the nodes are aligned.
func (st *stencil) wait(segment int, own bool) wait {
	first := st.nodes[0].timeline
	w := wait{met: make([]float64, len(st.nodes)), never: first.met[segment] > first.ends[segment]}
	for i, n := range st.nodes {
		since := n.timeline.begin(segment)
		if !own {
			since = st.since(n)
		}
		w.met[i] = min(n.timeline.met[segment], n.timeline.ends[segment]) - since
	}
	return w
}

// lay returns the marks of a timeline, in order, from 0 to the end of the course.
func (st *stencil) lay(t *timeline, m *Model, warm, maxHours float64) []float64 {
	ends := len(t.stretches(m)) + 1
	marks := make([]float64, 1, ends+2)
	for i := range ends {
		end := t.end(i, m, maxHours)
		if st.to > 0 && i == st.nodes[0].timeline.warmIn {
			marks = append(marks, min(max(warm, marks[len(marks)-1]), end))
		}
		marks = append(marks, end)
	}
	return marks
}

// mostSegments is for how many a timeline is worked out without asking for memory.
const mostSegments = 8

// timeline returns that of a load between the nodes, in a room for its ends: each segment ends by the rule by
// which it does in an integration, when the criterion is met that the nodes meet about
// then.
func (s *Response) timeline(room []float64) timeline {
	program := s.table.m.Program
	last := len(program) - 1
	t := timeline{ends: room}
	for i := range last {
		begin := t.begin(i)
		end := begin + program[i].Hours
		if u := program[i].Until; u != nil {
			met := 0.0
			wait := &s.stencil.waits[i]
			for j, hours := range wait.met {
				met += s.weights[j] * hours
			}
			if u.Own {
				met += begin
			} else {
				met += s.warm
			}
			if wait.never {
				met = math.Inf(1)
			}
			end = min(max(end, met), begin+u.Longest)
		}
		t.ends = append(t.ends, min(end, s.table.maxHours))
	}
	return t
}

// since returns the hour of a node from which criteria are counted: when it is warm,
// if the stencil is aligned by that.
func (st *stencil) since(n *node) float64 {
	if st.to > 0 {
		return n.warm
	}
	return 0
}

// locate returns the last mark at or before an hour, and how far it is on the way to
// the next one.
func locate(marks []float64, hours float64) (int, float64) {
	i := 0
	for i+2 < len(marks) && marks[i+1] <= hours {
		i++
	}
	if length := marks[i+1] - marks[i]; length > 0 {
		return i, min(max((hours-marks[i])/length, 0), 1)
	}
	return i, 0
}

// eventful reports whether loads are changed at hours between which standard loads are
// to be aligned, their own or those of the clock.
func (m *Model) eventful() bool { return m.waits() || m.Turning.turns() }
