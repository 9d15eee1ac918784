package process

import "math"

// Within a stencil the times of warming up may differ by the ratio apart, and by astray
// hours, what is then left of the segment by the ratio squeezed, and leachate come to
// drained kg per kg dry if some loads drain and others do not, or some at once and others
// later.
// Interpolation across more is not safe: heating up is steep near failure, and
// drainage starts abruptly.
const (
	apart    = 1.25
	astray   = 36
	squeezed = 3
	drained  = 0.02
)

// stencil is a set of standard loads from which others are interpolated.
type stencil struct {
	centre place
	none   bool // they cannot be composed or not be interpolated
	nodes  []*node
	shape  *shape

	// The segment in which all of them pass the warm mark, h; zero if none does.
	from, to float64
	// Where the program waits, when the nodes do what is to be aligned, h, by mark and node;
	// then from and to only say whether nodes are aligned by when they warm up.
	marks  [][]float64
	waits  []wait   // by segment but the last; of those that wait for nothing, zero
	steady []steady // of those between marks
	// The load itself, where it is integrated no farther than it is looked at; nil once it
	// is at its end.
	rest *reduction

	columns
}

// columns are what a response reads of the nodes, side by side, as it reads one
// thing of all of them.
type columns struct {
	grid          grid
	points        [][]point
	temperatures  [][]float64
	warm, warmLog []float64
	verdicts      []verdict // by criterion of the model
}

// alike reports whether the nodes may be interpolated: all or none of them warm up, in
// the same segment and at about the same time, all or none of them drain, from the start
// or not, and all or none of them come in with ice. Where no criterion is judged, as on a
// curing pad, nodes that warm up differently are interpolated too, without aligning them,
// once they stand close: their masses differ little.
func (st *stencil) alike(m *Model, maxHours float64, level int8) bool {
	least, most := math.Inf(1), 0.0
	dry, wet := math.Inf(1), 0.0
	early, late := false, false
	for _, n := range st.nodes {
		if n.frozen != st.nodes[0].frozen {
			return false
		}
		least, most = min(least, n.warm), max(most, n.warm)
		dry, wet = min(dry, n.drained()), max(wet, n.drained())
		early, late = early || n.points[1].leachate > 0, late || n.points[1].leachate == 0
	}
	if wet > drained && (dry == 0 || early && late) {
		return false
	}
	if m.eventful() {
		return st.timed(m, maxHours, level)
	}
	if math.IsInf(least, 1) {
		return true
	}
	st.from, st.to = segmentAround(m.Program, least, maxHours)
	if near(least, most) && st.to-least < squeezed*(st.to-most) {
		return true
	}
	st.from, st.to = 0, 0
	return len(m.Criteria) == 0 && level >= unaligned
}

// near reports whether loads that warm up between two times, h, may be interpolated.
func near(least, most float64) bool {
	return most < apart*least && most-least < astray
}

// reach sees to it that the nodes are there up to some hours.
func (st *stencil) reach(hours float64) {
	if st.rest != nil && st.rest.reach(hours) {
		st.rest = nil
	}
}

// verdict is what the nodes of a stencil say of a criterion.
type verdict struct {
	met   int       // nodes that meet it
	after []float64 // h, when each does, counted from when it is warm if the stencil is aligned
}

// lineUp fills the columns for a number of criteria.
func (st *stencil) lineUp(criteria int) {
	c := &st.columns
	c.grid = st.nodes[0].grid
	c.verdicts = make([]verdict, criteria)
	for _, n := range st.nodes {
		c.points = append(c.points, n.points)
		c.temperatures = append(c.temperatures, n.temperatures)
		c.warm = append(c.warm, n.warm)
		c.warmLog = append(c.warmLog, math.Log(n.warm))
		for i, m := range n.met {
			v := &c.verdicts[i]
			if m.OK {
				v.met++
			}
			if st.to > 0 {
				m.Hours -= n.warm
			}
			v.after = append(v.after, m.Hours)
		}
	}
	st.findSteady()
}

// find returns the point kept at or before an hour and the fraction of the way to the
// next one, the same for all nodes. Before the start it is at the first, after the end
// at the last.
func (c *columns) find(hours float64) (int, float64) { return c.grid.find(hours, len(c.points[0])-1) }

// segmentAround returns when the segment that holds an hour starts and ends; the
// last one, and any other, ends with the course at the latest.
func segmentAround(program []Segment, hours, maxHours float64) (from, to float64) {
	for _, s := range program[:len(program)-1] {
		to = from + s.Hours
		if hours < to {
			return from, min(to, maxHours)
		}
		from = to
	}
	return from, maxHours
}

// unaligned is the level from which on nodes of which no criterion is judged are
// interpolated although they warm up differently.
const unaligned = 1
