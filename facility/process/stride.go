package process

import "math"

// stride bounds the time steps of an integration, h. Where both bounds are the
// same the steps are fixed.
type stride struct{ least, most float64 }

// fixed returns the stride of equal steps.
func fixed(hours float64) stride { return stride{hours, hours} }

// What a step may change: its error goes with the square of that.
const (
	warming = 2.5   // K
	dried   = 0.012 // of the wet mass, as water
	growing = 2     // a step over the one before it
	sliver  = 1e-6  // h; a rest that short is added to the step
)

// next returns the length of the next step by what the last one changed in an
// hour, so that temperature and moisture change by about as much in each.
// Where a load comes to its setpoint a step ends. The first step of a segment is
// the shortest, for nothing is known of it yet.
func (r *run) next(segment int) float64 {
	s, last := r.stride, &r.last
	if s.least == s.most || last.length == 0 || last.segment != segment {
		return s.least
	}
	h := min(s.most, growing*last.length)
	if rate := r.warmingRate(last.length); rate != 0 {
		h = min(h, warming/math.Abs(rate))
		if arrival := (r.m.Program[segment].Setpoint - r.temperature) / rate; arrival > 0 && arrival < 1.5*h {
			h = arrival
		}
	}
	if last.drying != 0 {
		h = min(h, dried*r.parcel.Total()/math.Abs(last.drying))
	}
	return max(h, s.least)
}

// warmingRate returns how fast the load will warm up over the next h hours, K/h, if the
// last steps go on.
func (r *run) warmingRate(h float64) float64 {
	last := &r.last
	further := last.trend * (last.length + h) / 2
	half := math.Abs(last.rate) / 2
	return last.rate + min(max(further, -half), 2*half)
}
