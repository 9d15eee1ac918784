package process

import "math"

// grid is the hours of which a table keeps points of courses: every pace at first, and
// far between once piles change over days only.
type grid struct {
	pace float64 // h
	near int     // points that lie a pace apart, beside the first
}

// sparse is by how much farther apart later points lie.
const sparse = 4

// even returns the grid of a pace, h, from the beginning to the end.
func even(pace float64) grid { return grid{pace, math.MaxInt32} }

// thinned returns the grid of a pace, h, that is close up to some hours.
func thinned(pace, hours float64) grid { return grid{pace, int(math.Ceil(hours / pace))} }

// hour returns that of a point.
func (g grid) hour(point int) float64 {
	if far := point - g.near; far > 0 {
		return g.pace * float64(g.near+sparse*far)
	}
	return g.pace * float64(point)
}

// place returns which point lies at an hour, in parts between two.
func (g grid) place(hours float64) float64 {
	x := hours / tablePace // by 2, which costs next to nothing
	if g.pace != tablePace {
		x = hours / g.pace
	}
	if far := x - float64(g.near); far > 0 {
		return float64(g.near) + far/sparse
	}
	return x
}

// find returns the point at or before an hour and the fraction of the way to the next one,
// of points up to the last.
func (g grid) find(hours float64, last int) (int, float64) {
	x := g.place(hours)
	if x <= 0 {
		return 0, 0
	}
	if x >= float64(last) {
		return last - 1, 1
	}
	i := int(x)
	return i, x - float64(i)
}

// add adds to each number of at what is read of a node at one of some hours, in straight
// lines between its points, times the node's weight.
func (g grid) add(at, values, hours []float64, weight float64) {
	last := len(values) - 1
	if g != even(tablePace) {
		for k, hour := range hours {
			point, part := g.find(hour, last)
			at[k] += weight * lerp(values[point], values[point+1], part)
		}
		return
	}
	at = at[:len(hours)]
	for k, hour := range hours { // the same, where a point is found by halving the hour
		point, part := 0, 0.0
		switch x := hour / tablePace; {
		case x >= float64(last):
			point, part = last-1, 1
		case x > 0:
			point = int(x)
			part = x - float64(point)
		}
		at[k] += weight * lerp(values[point], values[point+1], part)
	}
}

// end returns the first hour of a point that is not before some hours.
func (g grid) end(hours float64) float64 { return g.hour(g.points(hours)) }

// points counts those after the first up to that one.
func (g grid) points(hours float64) int { return int(math.Ceil(g.place(hours))) }
