package process

import (
	"errors"
	"fmt"
	"math"

	"loamcast/facility/material"
)

// AirPath is how far air comes into a load. Free air is not the same everywhere in
// it: where it is less than air needs to pass, there is none. With the least that
// it needs spread about Half, a load of free air ε is reached in a share of
//
//	1/(1 + exp((Half − ε)/Spread))
//
// as it lies when it begins: matter without air sets no heat free and is not dried
// by it, and so does not open up until it is moved. It takes no part in the
// decay; its heat and water are those of the load. The zero value lets air
// reach everything.
type AirPath struct {
	Half   float64 // free air at which half of a load is reached; 0 for no account of it
	Spread float64 // of free air
}

// DefaultAirPath is an assumption, set between two facts: gas stops to pass
// wet porous matter where its air-filled pores fall below some 10 % (soil physics,
// from memory), and at full scale 1:2 failed where 1:2.5 worked (Ponsá et al.,
// read), which by material.DefaultStructure is 14–15 % and 20–21 % of free air.
func DefaultAirPath() AirPath { return AirPath{Half: 0.13, Spread: 0.03} }

// AirThroughout is the requirement that goes with an AirPath: what air does not
// reach has not had the temperatures that are measured. The share is an assumption.
func AirThroughout() Criterion {
	return Criterion{Name: "air throughout the load", Kind: Aired, Share: 0.90}
}

// At returns the share of a load that air reaches at a free air space.
func (a AirPath) At(free float64) float64 {
	if a.Half == 0 {
		return 1
	}
	return 1 / (1 + math.Exp((a.Half-free)/a.Spread))
}

// open returns the path of air that comes everywhere, by the same account.
func (a AirPath) open() AirPath {
	if a.Half > 0 {
		a.Half, a.Spread = 1e-9, 1e-9
	}
	return a
}

// Reached returns the share of p that air reaches, if p is a load or lot at its
// start.
func (m *Model) Reached(p material.Parcel) float64 { return m.reached(&p) }

// reached is Reached of a load that stays where it is.
func (m *Model) reached(p *material.Parcel) float64 {
	if m.AirPath.Half == 0 {
		return 1
	}
	return m.AirPath.At(m.Bulk.FreeAirSpaceOf(p))
}

// airways returns the factor of free air on the rate. With an air path there is
// none beside the oxygen of the pores: what free air does then is said by the share
// that it lets air reach.
func (m *Model) airways(p *material.Parcel) float64 {
	if m.AirPath.Half > 0 {
		return 1
	}
	return m.Kinetics.FreeAirSpace(m.Bulk.FreeAirSpaceOf(p))
}

// draughtAt is the free air space of a pile for which the draught of one without a
// blower is stated.
const draughtAt = 0.25

// draught returns what a pile without a blower draws, of what is stated for it: by its
// permeability, which goes as ε³/(1−ε)² (Kozeny and Carman, from memory). A blower
// has pressure to spare.
func (m *Model) draught(p material.Parcel) float64 {
	if !m.Bulk.Structure.Between || m.Blower.PressureDrop > 0 {
		return 1
	}
	free := m.Bulk.FreeAirSpace(p)
	return free * free * free / (1 - free) / (1 - free) * (1 - draughtAt) * (1 - draughtAt) / (draughtAt * draughtAt * draughtAt)
}

// mostReached returns the largest share that a criterion asks for, 0 if none does.
func (m *Model) mostReached() float64 {
	most := 0.0
	for i := range m.Criteria {
		if m.Criteria[i].Kind == Aired {
			most = max(most, m.Criteria[i].Share)
		}
	}
	return most
}

// leave sets aside what lies beyond the share of the load that air reaches.
func (r *run) leave(reached float64) {
	for i, held := range poolsOf(&r.parcel) {
		r.airless[i] = held * (1 - reached)
	}
}

// airedPart returns the share of a pool with air in it that is left at an effective
// age x = k·t, when air reached a share of it at the start.
func airedPart(reached, x float64) float64 {
	if reached == 1 {
		return 1
	}
	left := reached
	if x != 0 { // as it is where a load is followed from its start
		left *= math.Exp(-x)
	}
	return left / (left + 1 - reached)
}

// aired judges an Aired criterion.
func (c *Criterion) aired(reached float64) Met { return Met{OK: reached >= c.Share} }

func (c *Criterion) validateAired() error {
	switch {
	case !(c.Share > 0 && c.Share <= 1):
		return fmt.Errorf("criterion %q: a share of %g is not above 0 and up to 1", c.Name, c.Share)
	case c.Where != InVessel:
		return fmt.Errorf("criterion %q: air is judged in the vessel", c.Name)
	}
	return nil
}

func (a AirPath) validate() error {
	switch {
	case !(a.Half >= 0 && a.Half < 1):
		return fmt.Errorf("air path: free air of %g is not between 0 and 1", a.Half)
	case a.Half > 0 && !(a.Spread > 0) || math.IsInf(a.Spread, 0):
		return errors.New("air path: the spread of the free air that air needs must be positive")
	}
	return nil
}
