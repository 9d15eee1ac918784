package process

import (
	"encoding/binary"
	"iter"
	"math"
)

// A table may be kept from one run of the program to the next: whoever keeps it takes its
// courses as they are written here, [Responses.Added], and gives them back when they are
// asked for, [Responses.Recall]. A course that is given back is the one that would be
// integrated, to the last bit. Where it is kept, and under which [Physics], is the
// keeper's business.

// Point is where a standard load stands in a table: its month, the level of the lattice
// and its place along each axis.
type Point [2 + 2*dims]byte

func (p place) point() (out Point) {
	out[0], out[1] = byte(p.month), byte(p.level)
	for i, at := range p.at {
		binary.LittleEndian.PutUint16(out[2+2*i:], uint16(at))
	}
	return out
}

// Recall makes the table ask for a course before it integrates one: recall hands it over
// if it has it, and may have the bytes back when that returns. It must be set before the
// first load is asked about, and may then be called from several goroutines. What does
// not fit the table is taken for nothing.
func (r *Responses) Recall(recall func(at Point, over func(course []byte))) { r.recall = recall }

// Added yields the courses that the table has integrated, and not recalled, since
// [Responses.Recall], as they are to be kept. The bytes are good until the next one.
func (r *Responses) Added() iter.Seq2[Point, []byte] {
	r.mu.RLock()
	added := r.added
	r.mu.RUnlock()
	return func(yield func(Point, []byte) bool) {
		var room []byte
		for _, a := range added {
			room = a.node.append(room[:0])
			if !yield(a.at.point(), room) {
				return
			}
		}
	}
}

// added is a course that was integrated, nil if its load burns more than it has.
type added struct {
	at   place
	node *node
}

// add notes a course that was integrated.
func (r *Responses) add(at place, n *node) {
	if r.recall == nil {
		return
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	r.added = append(r.added, added{at, n})
}

// recalled returns the course at a point, if it is kept and fits the table.
func (r *Responses) recalled(at place) (n *node, ok bool) {
	if r.recall != nil {
		r.recall(at.point(), func(course []byte) { n, ok = r.read(course) })
	}
	return n, ok
}

// What is said of a node before its numbers.
const (
	isFrozen = 1 << iota
	isTimed
	drains // its points have leachate
)

// append writes a node behind b: what it is, then its numbers and lists, whose lengths the
// model gives. Of a node that is nil there is nothing.
func (n *node) append(b []byte) []byte {
	if n == nil {
		return b
	}
	flags := byte(0)
	if n.frozen {
		flags |= isFrozen
	}
	if n.timeline != nil {
		flags |= isTimed
	}
	for i := range n.points {
		if math.Float64bits(n.points[i].leachate) != 0 {
			flags |= drains
		}
	}
	b = appendNumbers(append(b, flags), n.warm)
	for _, m := range n.met {
		ok := 0.0
		if m.OK {
			ok = 1
		}
		b = appendNumbers(b, m.Hours, ok)
	}
	if t := n.timeline; t != nil {
		b = appendNumbers(b, float64(t.warmIn))
		b = appendNumbers(b, t.ends...)
		b = appendNumbers(b, t.met...)
	}
	for _, p := range n.points {
		b = appendNumbers(b, p.age, p.vapour, p.air)
	}
	if flags&drains != 0 {
		for _, p := range n.points {
			b = appendNumbers(b, p.leachate)
		}
	}
	return appendNumbers(b, n.temperatures...)
}

func appendNumbers(b []byte, numbers ...float64) []byte {
	for _, x := range numbers {
		b = binary.LittleEndian.AppendUint64(b, math.Float64bits(x))
	}
	return b
}

// kept returns how many points the table keeps of every course.
func (r *Responses) kept() int { return int(math.Round(r.grid.place(r.maxHours))) + 1 }

// read is the inverse of node.append for a node of this table.
func (r *Responses) read(b []byte) (n *node, ok bool) {
	if len(b) == 0 {
		return nil, true
	}
	kept, ends := r.kept(), 0
	flags, rest := b[0], b[1:]
	if timed := flags&isTimed != 0; timed != r.m.eventful() {
		return nil, false
	} else if timed {
		ends = len(r.m.Program) - 1
	}
	numbers := 1 + 2*len(r.m.Criteria) + 4*kept
	if flags&drains != 0 {
		numbers += kept
	}
	if flags&isTimed != 0 {
		numbers += 1 + 2*ends
	}
	if len(rest) != numberSize*numbers {
		return nil, false
	}
	var next float64
	n = &node{grid: r.grid, frozen: flags&isFrozen != 0}
	n.warm, rest = number(rest)
	n.met = make([]Met, len(r.m.Criteria))
	for i := range n.met {
		n.met[i].Hours, rest = number(rest)
		next, rest = number(rest)
		n.met[i].OK = next == 1
	}
	if flags&isTimed != 0 {
		next, rest = number(rest)
		n.timeline = &timeline{warmIn: int(next)}
		n.timeline.ends, rest = numberList(rest, ends)
		n.timeline.met, rest = numberList(rest, ends)
	}
	n.points = make([]point, kept)
	for i := range n.points {
		p := &n.points[i]
		p.age, rest = number(rest)
		p.vapour, rest = number(rest)
		p.air, rest = number(rest)
	}
	if flags&drains != 0 {
		for i := range n.points {
			n.points[i].leachate, rest = number(rest)
		}
	}
	n.temperatures, _ = numberList(rest, kept)
	return n, true
}

const numberSize = 8 // bytes

// number takes a number from the beginning of b.
func number(b []byte) (float64, []byte) {
	return math.Float64frombits(binary.LittleEndian.Uint64(b)), b[numberSize:]
}

func numberList(b []byte, length int) ([]float64, []byte) {
	xs := make([]float64, length)
	for i := range xs {
		xs[i] = math.Float64frombits(binary.LittleEndian.Uint64(b[numberSize*i:]))
	}
	return xs, b[numberSize*length:]
}
