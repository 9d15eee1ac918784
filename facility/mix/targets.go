package mix

import (
	"fmt"

	"loamcast/facility/material"
)

// Window bounds a quantity. Low 0 means no lower bound, High 0 no upper bound.
type Window struct{ Low, High float64 }

func (w Window) validate(name string) error {
	if !(w.Low >= 0) || !(w.High >= 0) {
		return fmt.Errorf("%s: window %g to %g must not be negative", name, w.Low, w.High)
	}
	if w.High > 0 && w.High < w.Low {
		return fmt.Errorf("%s: window %g to %g is upside down", name, w.Low, w.High)
	}
	return nil
}

// Targets say what a good mix is. Zero values ask for nothing.
type Targets struct {
	Solids           Window  // dry per wet mass
	CarbonToNitrogen Window  // mass ratio
	FreeAirSpace     float64 // at least; air per volume
	BulkDensity      float64 // at most, kg/m3
	ChipsToCake      Window  // volume ratio as delivered
}

// Target names one requirement on a batch.
type Target int

const (
	SolidsLow Target = iota
	SolidsHigh
	CarbonToNitrogenLow
	CarbonToNitrogenHigh
	FreeAirSpaceLow
	BulkDensityHigh
	ChipsToCakeLow
	ChipsToCakeHigh
	BatchVolume // the mixer's useful volume, at most
	BatchWeight // the scale's capacity, at most
	CakeMass    // the cake to be taken, exactly; the last, see Weights
	numTargets
)

// NumTargets is the number of targets.
const NumTargets = int(numTargets)

var targetNames = [numTargets]struct{ name, unit string }{
	{"lowest solids content", ""},
	{"highest solids content", ""},
	{"lowest C:N", ""},
	{"highest C:N", ""},
	{"least free air space", ""},
	{"highest bulk density", "kg/m3"},
	{"lowest chips-to-cake ratio", "m3/m3"},
	{"highest chips-to-cake ratio", "m3/m3"},
	{"mixer volume", "m3"},
	{"scale capacity", "kg"},
	{"cake in the batch", "kg"},
}

func (t Target) String() string {
	if t < 0 || t >= numTargets {
		return fmt.Sprintf("Target(%d)", int(t))
	}
	return targetNames[t].name
}

// Unit returns the unit of the target's value, empty for fractions and C:N.
func (t Target) Unit() string { return targetNames[t].unit }

// AtMost reports whether the target is an upper bound. CakeMass counts as a
// lower one: a batch never takes more cake than asked for.
func (t Target) AtMost() bool {
	switch t {
	case SolidsHigh, CarbonToNitrogenHigh, BulkDensityHigh, ChipsToCakeHigh, BatchVolume, BatchWeight:
		return true
	}
	return false
}

// Weights say how much a miss of each target counts when no mix meets them
// all. The nearest mix has the least sum of weight × miss. So that the sum is
// linear, a miss is counted per cake: a C:N 10 % too high, for instance, counts
// 0.1 × nitrogen of the mix ÷ nitrogen of the cake. CakeMass has no weight: a
// nearest mix still takes the cake, as far as there is any.
type Weights [CakeMass]float64

// DefaultWeights count the qualities of the mix alike and the mixer's volume
// and scale ten times as much. This is an assumption of this package.
func DefaultWeights() Weights {
	var w Weights
	for t := range w {
		w[t] = 1
	}
	w[BatchVolume], w[BatchWeight] = 10, 10
	return w
}

// required returns the value that d asks of t, and whether it asks at all.
func (d Design) required(t Target) (float64, bool) {
	v := [NumTargets]float64{
		SolidsLow: d.Targets.Solids.Low, SolidsHigh: d.Targets.Solids.High,
		CarbonToNitrogenLow: d.Targets.CarbonToNitrogen.Low, CarbonToNitrogenHigh: d.Targets.CarbonToNitrogen.High,
		FreeAirSpaceLow: d.Targets.FreeAirSpace, BulkDensityHigh: d.Targets.BulkDensity,
		ChipsToCakeLow: d.Targets.ChipsToCake.Low, ChipsToCakeHigh: d.Targets.ChipsToCake.High,
		BatchVolume: d.Volume, BatchWeight: d.Weight,
	}
	if d.Objective == LeastCost {
		v[CakeMass] = d.Cake
	}
	return v[t], v[t] > 0
}

// reached returns the values that a batch has, by target. A ratio whose
// denominator is 0 is 0.
func reached(b material.Bulk, mix material.Parcel, chips, cake, cakeMass float64) [NumTargets]float64 {
	ratio := 0.0
	if cake > 0 {
		ratio = chips / cake
	}
	solids, cn := mix.SolidsContent(), mix.CarbonToNitrogen()
	return [NumTargets]float64{
		SolidsLow: solids, SolidsHigh: solids,
		CarbonToNitrogenLow: cn, CarbonToNitrogenHigh: cn,
		FreeAirSpaceLow: b.FreeAirSpace(mix), BulkDensityHigh: b.Density(mix),
		ChipsToCakeLow: ratio, ChipsToCakeHigh: ratio,
		BatchVolume: b.Volume(mix), BatchWeight: mix.Total(), CakeMass: cakeMass,
	}
}
