package drivers

import (
	"fmt"
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/costs"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

// Output is the answer that inputs move.
type Output int

const (
	// VesselYear is the year from which on more than the target allows of the years miss
	// it with the vessels that the file has, years since the start. Where years do not
	// stand each for itself it is the mean over runs of [FirstMissed] instead.
	VesselYear Output = iota
	// ChipsBought are the fresh chips delivered, m3/year, mean over the horizon.
	ChipsBought
	// PresentWorth is what the plant costs as the file has it, USD: a cost is
	// positive.
	PresentWorth
)

var outputNames = [...]string{VesselYear: "vessels", ChipsBought: "chips", PresentWorth: "cost"}

// String returns the name by which a user asks for it, such as "vessels".
func (o Output) String() string { return outputNames[o] }

// ParseOutput reads the name of an output.
func ParseOutput(name string) (Output, error) {
	for o, known := range outputNames {
		if name == known {
			return Output(o), nil
		}
	}
	return 0, fmt.Errorf("%q is not an answer; write vessels, chips or cost", name)
}

// reading is the output at a point of a design, or of one run there.
type reading struct {
	value float64
	// Of VesselYear: the share in which the target is kept to the end of the horizon, and
	// in which it is missed from the first year on, so that the value is a bound.
	kept, begun float64
}

// read takes the output from a run.
func (o Output) read(p *facilityfile.Planning, r *study.Result) (reading, error) {
	switch o {
	case ChipsBought:
		bought := 0.0
		for i := range r.Record.Months {
			bought += r.Record.Months[i].Chips.Bought
		}
		return reading{value: bought / float64(r.Plant.Years)}, nil
	case PresentWorth:
		plan, err := costs.Plan(p, r)
		if err != nil {
			return reading{}, err
		}
		return reading{value: plan.Cost().Present}, nil
	}
	at, missed := firstMissed(p.Target, r.Record.Months)
	return reading{value: at, kept: indicator(!missed)}, nil
}

const monthsPerYear = 12

// indicator is 1 of what is so, and 0 of what is not.
func indicator(is bool) float64 {
	if is {
		return 1
	}
	return 0
}

// firstMissed returns when a run first misses a target, by what leaves untreated
// or by how long cake waits; see [FirstMissed].
func firstMissed(t facilityfile.Target, months []plant.Month) (at float64, missed bool) {
	var untreated, delay []float64
	for year := range slices.Chunk(months, monthsPerYear) {
		untreated = append(untreated, plant.UntreatedShare(year))
		delay = append(delay, plant.CakeDelay(year))
	}
	at, missed = FirstMissed(untreated, t.DivertedLimit)
	if byDelay, late := FirstMissed(delay, t.DelayLimit); late {
		at, missed = min(at, byDelay), true
	}
	return at, missed
}

// FirstMissed returns when something of which each year has its share passes a
// limit, years since the start. It draws a straight line from one year's share,
// put at the year's end, to the next, beginning with nothing at the start: a time
// in year y, counted from 0, says that y is the first year missed, and grows
// without jumps as the shares fall. If no year is missed, the time is the end of
// the horizon, and missed is false: the true time lies beyond.
func FirstMissed(shares []float64, limit float64) (at float64, missed bool) {
	before := 0.0
	for year, share := range shares {
		if share > limit {
			return float64(year) + (limit-before)/(share-before), true
		}
		before = share
	}
	return float64(len(shares)), false
}
