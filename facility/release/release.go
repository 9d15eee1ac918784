package release

import "loamcast/facility/process"

// Courses say when a load meets a criterion, named by its index.
type Courses interface {
	// Alone returns the hour at which the vessel alone meets a criterion, if
	// within the longest residence.
	Alone(criterion int) (hours float64, ok bool)
	// Together judges a criterion on the readings of the vessel up to now and of
	// the longest curing that would follow.
	Together(criterion int) process.Met
}

// Action is what to do with a load.
type Action int

const (
	Release Action = iota
	Stay           // in the vessel
	Fail           // a criterion is not met and will not be
)

// Decision is an action and what goes with it.
type Decision struct {
	Action    Action
	Criterion int     // for which the load stays, or by which it fails
	Until     float64 // Stay: the hour at which to judge again
	Pad       float64 // Release: least hours on the pad, counted from unloading
}

// InVessel says what the criteria of the vessel ask of a load that is just begun:
// to stay until the last of them is met, nothing, or that it fails by the first
// that is never met.
func InVessel(criteria []process.Criterion, c Courses) Decision {
	var d Decision
	for i := range criteria {
		if criteria[i].Where != process.InVessel {
			continue
		}
		at, ok := c.Alone(i)
		if !ok {
			return Decision{Action: Fail, Criterion: i}
		}
		if at > d.Until {
			d = Decision{Action: Stay, Criterion: i, Until: at}
		}
	}
	return d
}

// Due says whether a load that has stayed some hours and met the criteria of the
// vessel may be unloaded: whether what vessel and curing must meet together is
// met, or will be on the pad. By the first criterion of which neither is true,
// the load stays until the vessel alone meets it, when it is judged again, or
// fails if that is never.
func Due(criteria []process.Criterion, stay float64, c Courses) Decision {
	var d Decision
	for i := range criteria {
		if criteria[i].Where != process.InVesselAndCuring {
			continue
		}
		alone, ok := c.Alone(i)
		if ok && alone <= stay {
			continue
		}
		if met := c.Together(i); met.OK {
			d.Pad = max(d.Pad, met.Hours-stay)
			continue
		}
		if !ok {
			return Decision{Action: Fail, Criterion: i}
		}
		return Decision{Action: Stay, Criterion: i, Until: alone}
	}
	return d
}

// precision is how close the moment of stability is found, h.
const precision = 1

// Stable returns the hours on the pad until no more than limit is left of what
// decays there, to the hour above; or the longest curing time, and false, if the
// lot does not get there. What is left must not grow with time.
func Stable(left func(hours float64) float64, limit, longest float64) (hours float64, ok bool) {
	if left(longest) > limit {
		return longest, false
	}
	low, high := 0.0, longest
	for high-low > precision {
		if mid := (low + high) / 2; left(mid) > limit {
			low = mid
		} else {
			high = mid
		}
	}
	return high, true
}
