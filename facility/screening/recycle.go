package screening

import (
	"errors"
	"fmt"
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

	// plain are the cycles before any is leapt over or states are compared. Most
	// plants are steady by then.
	plain   = 60
	between = 6 // cycles from leap to leap, in which what is not slow dies away
	longest = 12
)

// ErrNotSteady is returned when recycling keeps changing the recovered
// material, as it does when a component builds up without end.
var ErrNotSteady = errors.New("screening: recycled material does not become steady")

// ErrAlternates is the [ErrNotSteady] of a loop that goes round the same few states.
var ErrAlternates = fmt.Errorf("%w: it goes round the same few states", ErrNotSteady)

// SteadyRecycle runs the cycle from fresh bulking agent alone until the
// recovered material stays the same. Where nearly all is recovered, a cycle changes
// it by nearly as much as the one before: the rest of that series is leapt over, and
// the cycles go on from there. It returns [ErrAlternates] if states come round again
// without coming to rest.
func SteadyRecycle(c Cycle) (Steady, error) {
	if err := c.Screen.Validate(); err != nil {
		return Steady{}, err
	}
	var recovered, step material.Parcel
	var before []material.Parcel // recovered, the latest last
	leap := plain
	for n := 1; n <= maxCycles; n++ {
		batch, fresh := c.Mix(recovered)
		processed := c.Process(batch)
		split := Screen(processed, c.Screen)
		close := steady * batch.Dry()
		if distance(split.Recovered, recovered) <= close {
			return Steady{
				Makeup: share(fresh.Coarse.Dry(), batch.Coarse.Dry()), Fresh: fresh, Batch: batch,
				Processed: processed, Split: split, Iterations: n,
			}, nil
		}
		last := step
		step = split.Recovered.Minus(recovered)
		recovered = split.Recovered
		if n < plain {
			continue
		}
		for _, p := range before {
			if distance(p, recovered) <= close {
				return Steady{}, ErrAlternates
			}
		}
		if before = append(before, recovered); len(before) > longest {
			before = before[1:]
		}
		if n >= leap {
			if rest, ok := remainder(last, step); ok {
				recovered, before = above(recovered.Plus(rest)), nil
				leap = n + between
			}
		}
	}
	return Steady{}, ErrNotSteady
}

// remainder returns the sum of all steps that follow two of a geometric series, and
// whether they are two of a slow one.
func remainder(last, step material.Parcel) (material.Parcel, bool) {
	const slow, straight = 0.5, 0.02
	a, b := components(last), components(step)
	var aa, ab float64
	for i := range a {
		aa += a[i] * a[i]
		ab += a[i] * b[i]
	}
	ratio := share(ab, aa)
	if !(ratio > slow && ratio < 1) || !(distance(step, last.Times(ratio)) <= straight*distance(step, material.Parcel{})) {
		return material.Parcel{}, false
	}
	return step.Times(ratio / (1 - ratio)), true
}

// above returns a parcel without the negative components that a leap may leave.
func above(p material.Parcel) material.Parcel {
	p.Water = max(p.Water, 0)
	for _, s := range []*material.Solids{&p.Fine, &p.Coarse} {
		for _, v := range []*float64{&s.Fixed, &s.Rapidly, &s.Readily, &s.Slowly, &s.Refractory, &s.Carbon, &s.Nitrogen} {
			*v = max(*v, 0)
		}
	}
	return p
}

// components lists what a parcel holds, kg.
func components(p material.Parcel) []float64 {
	list := []float64{p.Water}
	for _, s := range []material.Solids{p.Fine, p.Coarse} {
		list = append(list, s.Fixed, s.Rapidly, s.Readily, s.Slowly, s.Refractory, s.Carbon, s.Nitrogen)
	}
	return list
}

// distance returns the largest difference of a component, kg; NaN if any is.
func distance(p, q material.Parcel) float64 {
	top := 0.0
	for _, v := range components(p.Minus(q)) {
		if a := math.Abs(v); !(a <= top) {
			top = a
		}
	}
	return top
}
