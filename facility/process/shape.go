package process

import "slices"

// shape is which points a stencil has: its centre, two along each axis in which its loads
// differ, and one off both axes of some pairs. From as many points follows a quadratic.
type shape struct {
	axes    []int
	crossed [][]int // with each, those before it, by their places in axes
	points  int
}

// shapes are those of the stencils of a table, without and with matter that lags and
// that degrades rapidly.
type shapes [2][2]shape

// shapeOf returns that of the axes for which along holds, with the pairs for which
// crossed holds.
func shapeOf(along func(axis int) bool, crossed func(a, b int) bool) shape {
	s := shape{points: 1}
	for axis := range dims {
		if !along(axis) {
			continue
		}
		var with []int
		for place, before := range s.axes {
			if crossed(axis, before) {
				with = append(with, place)
			}
		}
		s.axes, s.crossed = append(s.axes, axis), append(s.crossed, with)
		s.points += 2 + len(with)
	}
	return s
}

// unmoved are pairs of axes that need not be crossed, the later one first: how far a load
// is along one of them changes what the other does to it by so little that without the
// product the table is as near to integration, and a plant's loop of chips to the steady
// one (see its tests and that of the question `cycle`), with fewer standard loads to
// integrate and to read. Without that of coarse and rise the loop is 0.08 points off.
var unmoved = [...][2]int{
	{wetAxis, slowAxis},
	{coarseAxis, slowAxis},
	{sizeAxis, slowAxis},
	{lagAxis, coarseAxis}, {lagAxis, sizeAxis},
	{rapidAxis, sizeAxis}, {rapidAxis, lagAxis},
}

// interplay crosses all other pairs.
func interplay(axis, before int) bool {
	return !slices.Contains(unmoved[:], [2]int{axis, before})
}

// livelihood crosses those axes only that say how fast a load that has begun to decay goes
// on: the others shift what a lot on the pad loses by nearly as much, whatever they are.
func livelihood(a, b int) bool {
	says := func(axis int) bool { return axis == riseAxis || axis == slowAxis || axis == startAxis }
	return says(a) && says(b)
}

// shapes returns the shapes of the table: along axes of which it has none, all loads
// stand at 0.
func (r *Responses) shapes(crossed func(a, b int) bool) *shapes {
	var s shapes
	for lag := range 2 {
		for rapid := range 2 {
			has := [dims]bool{true, true, true, true, r.sized, lag > 0, rapid > 0, r.tipped}
			s[lag][rapid] = shapeOf(func(axis int) bool { return has[axis] }, crossed)
		}
	}
	return &s
}

// about returns the shape of the stencil about a centre.
func (s *shapes) about(centre *place) *shape {
	return &s[min(int(centre.at[lagAxis]), 1)][min(int(centre.at[rapidAxis]), 1)]
}

// mostPoints is what a stencil has of all axes and all pairs that are crossed.
const mostPoints = 1 + 2*dims + dims*(dims-1)/2 - len(unmoved)

// around lists the points of the stencil about a centre.
func (s *shape) around(centre place) []place {
	all := make([]place, s.points)
	for i := range all {
		all[i] = centre
	}
	n := 1 + 2*len(s.axes)
	for i, axis := range s.axes {
		all[1+2*i].at[axis]++
		all[2+2*i].at[axis]--
		for _, j := range s.crossed[i] {
			all[n].at[axis]++
			all[n].at[s.axes[j]]++
			n++
		}
	}
	return all
}

// weigh sets what each point of the stencil counts at an offset, so that every
// quadratic is met exactly that has no product of axes which are not a pair. They add up
// to 1.
func (s *shape) weigh(off *[dims]float64, w []float64) {
	centre, n := 1.0, 1+2*len(s.axes)
	for i, axis := range s.axes {
		x := off[axis]
		centre -= x * x
		ahead := (x*x + x) / 2
		w[2+2*i] = (x*x - x) / 2
		for _, j := range s.crossed[i] {
			both := x * off[s.axes[j]]
			centre += both
			ahead -= both
			w[1+2*j] -= both
			w[n] = both
			n++
		}
		w[1+2*i] = ahead
	}
	w[0] = centre
}
