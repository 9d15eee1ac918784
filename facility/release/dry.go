package release

import "math"

// closeEnough is how near a moisture counts as reached, water per wet mass.
const closeEnough = 1e-9

// IsDry reports whether a moisture is at most what is enough.
func IsDry(moisture, enough float64) bool { return moisture <= enough+closeEnough }

// Dry returns the hours after which a load that dries is dry enough; or the longest
// time, and false, if it is not dry at the end of that. A load that is dry in between
// and wet again at the end, as one that forms more water than it loses, counts as
// wet.
//
// The moment is found between an hour at which the load is too wet and one at which
// it is dry, which come nearer to each other by the secant; what stays is counted
// half (the Illinois form), so that both move.
func Dry(moisture func(hours float64) float64, enough, longest float64) (hours float64, ok bool) {
	const rounds = 60
	low, high := 0.0, longest
	above, below := moisture(low)-enough, moisture(high)-enough
	switch {
	case above <= closeEnough:
		return 0, true
	case below > closeEnough:
		return longest, false
	}
	for range rounds {
		mid := (low*below - high*above) / (below - above)
		if !(mid > low && mid < high) {
			mid = (low + high) / 2
		}
		switch off := moisture(mid) - enough; {
		case math.Abs(off) <= closeEnough/10 || high-low <= 1e-9:
			return mid, true
		case off > 0:
			low, above, below = mid, off, below/2
		default:
			high, below, above = mid, off, above/2
		}
	}
	return high, true
}
