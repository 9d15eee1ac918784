package screening

import (
	"errors"
	"math"

	"loamcast/facility/material"
)

// Cycle is a plant reduced to one loop: mix, process, screen, and back.
type Cycle struct {
	// Mix makes a batch that uses the recovered bulking agent and returns it
	// with the fresh bulking agent in it.
	Mix func(recovered material.Parcel) (batch, fresh material.Parcel)
	// Process returns what a batch has become when it reaches the screen.
	Process func(batch material.Parcel) material.Parcel
	Screen  Settings
}

// Steady is the loop when nothing changes any more from batch to batch.
type Steady struct {
	Makeup     float64 // fresh per total coarse dry matter of a batch
	Fresh      material.Parcel
	Batch      material.Parcel // as mixed
	Processed  material.Parcel // as screened
	Split      Split
	Iterations int // cycles from a start on fresh bulking agent alone
}

const (
	maxCycles = 5000
	steady    = 1e-10 // largest change of a component per dry mass of the batch
)

// ErrNotSteady is returned when recycling keeps changing the recovered
// material, as it does when a component builds up without end.
var ErrNotSteady = errors.New("screening: recycled material does not become steady")

// SteadyRecycle runs the cycle from fresh bulking agent alone until the
// recovered material stays the same.
func SteadyRecycle(c Cycle) (Steady, error) {
	if err := c.Screen.Validate(); err != nil {
		return Steady{}, err
	}
	var recovered material.Parcel
	for n := 1; n <= maxCycles; n++ {
		batch, fresh := c.Mix(recovered)
		processed := c.Process(batch)
		split := Screen(processed, c.Screen)
		moved := distance(split.Recovered, recovered)
		recovered = split.Recovered
		if moved <= steady*batch.Dry() {
			return Steady{
				Makeup: share(fresh.Coarse.Dry(), batch.Coarse.Dry()), Fresh: fresh, Batch: batch,
				Processed: processed, Split: split, Iterations: n,
			}, nil
		}
	}
	return Steady{}, ErrNotSteady
}

// distance returns the largest difference of a component, kg; NaN if any is.
func distance(p, q material.Parcel) float64 {
	d := p.Minus(q)
	top := math.Abs(d.Water)
	for _, s := range []material.Solids{d.Fine, d.Coarse} {
		for _, v := range []float64{s.Fixed, s.Readily, s.Slowly, s.Refractory, s.Carbon, s.Nitrogen} {
			if a := math.Abs(v); !(a <= top) {
				top = a
			}
		}
	}
	return top
}
