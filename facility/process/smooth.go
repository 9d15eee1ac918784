package process

import (
	"math"
	"time"
)

// How far the masses of two standard loads on either side of a centre may lie, in the
// mean, from that of the centre, kg per kg of its dry mass, summed over the axes: what
// bends more than that is not told by a quadratic within the bounds that Responses
// promises (see its tests). A finer lattice is asked about where a coarser one bends too
// much, mostly for a kink somewhere. There what bends in half the spacing bends less evenly,
// and may be a straighter-th of that.
const (
	bentDry    = 0.015
	bentWater  = 0.015
	straighter = 3
)

// smooth reports whether the courses of standard loads that are not aligned differ so
// evenly that a quadratic tells what lies between them, by the masses that a load at the
// centre would lose along each of them.
func (r *Responses) smooth(st *stencil) bool {
	for _, n := range st.nodes {
		if n.frozen != st.nodes[0].frozen {
			return false
		}
	}
	p, ok := r.compose(r.stands(st.centre), time.Month(st.centre.month))
	if !ok {
		return false
	}
	var s Response
	r.begin(&s, &p)
	lost := func(node, k int) (dry, water float64) {
		q := &st.nodes[node].points[k]
		gone := s.decay(q.age)
		o := s.uptake(&gone) / s.dry
		return o, q.vapour*o + q.leachate
	}
	finer := math.Pow(straighter, float64(st.centre.level))
	const often = 3 // looks in a doubling of time, about
	for k := 1; k < len(st.nodes[0].points); k += max(1, k/often) {
		dry, water := 0.0, 0.0
		middleDry, middleWater := lost(0, k)
		for i := 1; i <= 2*len(st.shape.axes); i += 2 {
			dry1, water1 := lost(i, k)
			dry2, water2 := lost(i+1, k)
			dry += math.Abs((dry1+dry2)/2 - middleDry)
			water += math.Abs((water1+water2)/2 - middleWater)
		}
		if finer*dry > bentDry || finer*water > bentWater {
			return false
		}
	}
	return true
}
