package mix

import (
	"loamcast/facility/material"
)

// Result is the mix found for a design.
type Result struct {
	Status           Status
	Mass             []float64       // kg of each material, as Design.Materials
	Mix              material.Parcel // the whole batch
	Cake             float64         // kg wet of cake in it
	Weight           float64         // kg wet
	Volume           float64         // m3
	BulkDensity      float64         // kg/m3
	Moisture         float64
	CarbonToNitrogen float64
	FreeAirSpace     float64
	ChipsToCake      float64 // by volume, as delivered
	Cost             float64 // of the batch, in the caller's unit
	Binding          []Target
	UsedUp           []int  // places in Design.Materials of what ran out
	Misses           []Miss // empty when Met
	Rounds           int    // of linearisation until the answer stayed
	// Settled is false if the answer came to rest only by damping, or the solver
	// failed on a rival branch. The mix is checked, but a better one may exist.
	Settled bool
}

// Miss is a target that the nearest mix does not meet.
type Miss struct {
	Target            Target
	Required, Reached float64 // in Target.Unit
}

// trace is the part of a batch below which a mass is rounding, not a dose.
const trace = 1e-8

// result measures an answer on the volume model, without any tangent.
func (p *problem) result(c candidate) Result {
	r := Result{Mass: make([]float64, len(p.Materials)), Rounds: c.rounds, Settled: c.settled && c.rounds <= freeMoves}
	chips, cakes := 0.0, 0.0
	for i, u := range p.units {
		kg := c.y[i] * p.batch
		if kg < trace*p.batch {
			kg = 0
		}
		if kg > u.Available*(1-tolerance) {
			kg = min(kg, u.Available)
			r.UsedUp = append(r.UsedUp, p.order[i])
		}
		r.Mass[p.order[i]] = kg
		r.Mix.Add(u.one.Times(kg))
		r.Cost += kg * u.Cost
		chips += kg * chipsOf(u)
		cakes += kg * cakeOf(u)
		r.Cake += kg * cakeMassOf(u)
	}
	values := reached(p.Bulk, r.Mix, chips, cakes, r.Cake)
	r.Weight, r.Volume = values[BatchWeight], values[BatchVolume]
	r.BulkDensity, r.FreeAirSpace = values[BulkDensityHigh], values[FreeAirSpaceLow]
	r.Moisture, r.CarbonToNitrogen = r.Mix.Moisture(), values[CarbonToNitrogenLow]
	r.ChipsToCake = values[ChipsToCakeLow]
	p.judge(&r, values)
	return r
}

// judge compares a result with every target. A bound is binding when the mix
// lies on it.
func (p *problem) judge(r *Result, values [NumTargets]float64) {
	for t := Target(0); t < numTargets; t++ {
		required, asked := p.required(t)
		if !asked {
			continue
		}
		short := (required - values[t]) / required
		if t.AtMost() {
			short = -short
		}
		switch {
		case short > tolerance:
			r.Status = NearestMiss
			r.Misses = append(r.Misses, Miss{Target: t, Required: required, Reached: values[t]})
		case short > -10*tolerance && t != CakeMass:
			r.Binding = append(r.Binding, t)
		}
	}
}
