package process

import "math"

// stride bounds the time steps of an integration, h. Where both bounds are the
// same the steps are fixed.
type stride struct{ least, most float64 }

// fixed returns the stride of equal steps.
func fixed(hours float64) stride { return stride{hours, hours} }

// What a step may change, so that steps are short where the course bends and long
// where air holds the load.
const (
	warming = 2.5  // K
	dried   = 0.05 // kg of water per kg of initial dry mass
	growing = 2    // a step over the one before it
	woken   = 0.25 // of the logarithm of the activity
	sliver  = 1e-6 // h; a rest that short is added to the step

	stretched = 1.5 // a step that ends at the setpoint over what it would be
)

// next returns the length of the next step by what the last ones changed in an
// hour. The first step of a segment is the shortest, for nothing is known of it yet.
// A load that comes to its setpoint ends a step there, which may for that be longer by
// half.
func (r *run) next(segment int) float64 {
	s, last := r.stride, &r.last
	if s.least == s.most || last.length == 0 || last.segment != segment {
		return s.least
	}
	h := min(s.most, growing*last.length)
	if rate := last.warming.ahead(last.length); rate != 0 {
		h = min(h, warming/math.Abs(rate))
		if arrival := (r.m.Program[segment].Setpoint - r.level) / rate; arrival > 0 && arrival < stretched*h {
			h = arrival
		}
	}
	if last.waking > 0 {
		h = min(h, woken/last.waking)
	}
	if rate := last.drying.rate; rate != 0 {
		h = min(h, dried*1000*r.dry/math.Abs(rate))
	}
	return max(h, s.least)
}

// drift is the mean rate of a change in a step, per h, and how that has itself changed
// since the step before, per h2.
type drift struct{ rate, slope float64 }

// to returns the drift of the step that follows, at rate, whose middle is some hours later.
func (d drift) to(rate, hours float64) drift { return drift{rate, (rate - d.rate) / hours} }

// ahead returns the rate that is to be expected some hours after the middle of the
// step: between half and twice its own.
func (d drift) ahead(hours float64) float64 {
	half := math.Abs(d.rate) / 2
	return d.rate + min(max(d.slope*hours, -half), 2*half)
}
