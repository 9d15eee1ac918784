package mix

import (
	"errors"
	"fmt"
	"math"

	"loamcast/facility/material"
)

// Objective is what a design asks for.
type Objective int

const (
	// LeastCost takes exactly Design.Cake and spends as little as possible.
	LeastCost Objective = iota
	// MostCake takes as much cake as one batch can, at most Design.Cake if
	// that is not 0, and then spends as little as possible.
	MostCake
)

// Design is a mix to be found. Solve does not change it.
type Design struct {
	Materials []Material
	Targets   Targets
	Objective Objective
	Cake      float64 // kg wet of all materials of kind Cake together
	Volume    float64 // useful volume of the mixer, m3; 0 is no limit
	Weight    float64 // capacity of the scale, kg wet; 0 is no limit
	Bulk      material.Bulk
	Weights   Weights // see DefaultWeights
}

// Status says whether a mix meets what was asked.
type Status int

const (
	Met         Status = iota // every target is met
	NearestMiss               // no mix meets them all; this one comes nearest
)

// ErrNoConvergence is returned when the linearised programs do not settle on
// any piece of the volume model.
var ErrNoConvergence = errors.New("mix: the linearised volume does not settle")

// Validate returns every reason why the design cannot be solved, joined.
func (d Design) Validate() error {
	var errs []error
	names := make(map[string]bool, len(d.Materials))
	onHand, limited := 0.0, true
	for _, m := range d.Materials {
		errs = append(errs, m.validate())
		if names[m.Name] {
			errs = append(errs, fmt.Errorf("%s: two materials have this name", m.Name))
		}
		names[m.Name] = true
		if m.Least > 0 && d.Objective != LeastCost {
			errs = append(errs, fmt.Errorf("%s: a least amount is for a batch of a given cake", m.Name))
		}
		if m.Kind == Cake {
			onHand += m.Available
			limited = limited && !math.IsInf(m.Available, 1)
		}
	}
	if !(onHand > 0) {
		errs = append(errs, errors.New("no cake on hand"))
	}
	errs = append(errs, d.validateSizes(limited), d.validateTargets())
	for t, w := range d.Weights {
		if !(w > 0) || math.IsInf(w, 0) {
			errs = append(errs, fmt.Errorf("weight of %s: %g must be positive and finite", Target(t), w))
		}
	}
	return errors.Join(errs...)
}

func (d Design) validateSizes(cakeLimited bool) error {
	for _, size := range []float64{d.Cake, d.Volume, d.Weight} {
		if !(size >= 0) || math.IsInf(size, 0) {
			return fmt.Errorf("cake %g kg, mixer volume %g m3 and scale capacity %g kg must be finite and not negative",
				d.Cake, d.Volume, d.Weight)
		}
	}
	switch d.Objective {
	case LeastCost:
		if d.Cake == 0 {
			return errors.New("least cost needs the cake per batch")
		}
	case MostCake:
		if d.Cake == 0 && d.Volume == 0 && d.Weight == 0 && !cakeLimited {
			return errors.New("most cake needs a mixer volume, a scale capacity, a most of cake or a limit on the cake on hand")
		}
	default:
		return fmt.Errorf("unknown objective %d", int(d.Objective))
	}
	return nil
}

func (d Design) validateTargets() error {
	t := d.Targets
	errs := []error{
		t.Solids.validate("solids content"),
		t.CarbonToNitrogen.validate("C:N"),
		t.ChipsToCake.validate("chips-to-cake ratio"),
	}
	if t.Solids.High > 1 || t.Solids.Low > 1 {
		errs = append(errs, fmt.Errorf("solids content: window %g to %g goes beyond 1", t.Solids.Low, t.Solids.High))
	}
	if !(t.FreeAirSpace >= 0 && t.FreeAirSpace < 1) {
		errs = append(errs, fmt.Errorf("free air space %g is not between 0 and 1", t.FreeAirSpace))
	}
	if !(t.BulkDensity >= 0) {
		errs = append(errs, fmt.Errorf("bulk density %g kg/m3 must not be negative", t.BulkDensity))
	}
	return errors.Join(errs...)
}
