package plant

import (
	"errors"
	"fmt"
	"math"

	"loamcast/sim"
	"loamcast/sim/random"
)

// Ordering is how a material is bought: when what is on hand and on order falls to
// Reorder, whole truckloads up to OrderUpTo are ordered, and come after the lead
// time. Volumes are loose, as delivered, m3.
type Ordering struct {
	Reorder   float64 // m3
	OrderUpTo float64 // m3; 0 for what is not bought
	Truckload float64 // m3
	LeadTime  sim.Duration
	LeadCV    float64 // coefficient of variation of the lead time
}

// Buys reports whether anything is bought at all.
func (o *Ordering) Buys() bool { return o.OrderUpTo > 0 }

// validate checks the rule for a material that is kept in a store, m3.
func (o *Ordering) validate(of string, capacity float64) error {
	var errs []error
	check := func(ok bool, format string, args ...any) {
		if !ok {
			errs = append(errs, fmt.Errorf(format, args...))
		}
	}
	check(o.Truckload > 0, "a truckload of %s must have a volume", of)
	check(o.Reorder >= 0 && o.Reorder < o.OrderUpTo, "the reorder point of %s must lie below the order-up-to level", of)
	check(o.OrderUpTo <= capacity, "the order-up-to level of %s (%.0f m3) does not fit the store (%.0f m3)", of, o.OrderUpTo, capacity)
	check(o.OrderUpTo-o.Reorder >= o.Truckload, "between reorder point and order-up-to level of %s there must be room for a truckload", of)
	check(o.LeadTime >= 0 && o.LeadCV >= 0, "the lead time of %s cannot be negative", of)
	return errors.Join(errs...)
}

// Lead returns the distribution of the lead time, s.
func (o *Ordering) Lead() random.Distribution {
	if o.LeadCV == 0 {
		return random.Constant{Value: float64(o.LeadTime)}
	}
	return random.LognormalMeanCV{Expected: float64(o.LeadTime), CV: o.LeadCV}
}

// due returns the truckloads to order at a position, m3 on hand and on order: 0
// above the reorder point. It rounds down, so that no truck is ever refused.
func (o *Ordering) due(position float64) float64 {
	if position > o.Reorder {
		return 0
	}
	return math.Floor((o.OrderUpTo - position) / o.Truckload)
}

// mostPerDay returns what can come in a day in the long run if the material is
// always short, m3; ok is false where nothing limits it. An order of whole
// truckloads then goes out as soon as what is on order falls to the reorder point.
func (o *Ordering) mostPerDay() (m3 float64, ok bool) {
	if o.LeadTime == 0 {
		return 0, false
	}
	order := math.Floor((o.OrderUpTo-o.Reorder)/o.Truckload) * o.Truckload
	onOrder := order * (math.Floor(o.Reorder/order) + 1)
	return onOrder / o.LeadTime.Days(), true
}
