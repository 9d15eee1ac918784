package process

import (
	"math"
	"time"

	"loamcast/facility/material"
)

// The response table keeps courses at the points of a lattice over what
// distinguishes one load from another, and interpolates between them.

// dims is the number of coordinates, in this order:
//
//	rise    ln of the first rate of heating, K/h, if nothing were lost
//	slow    ln of the part of that rate due to slowly degradable matter over
//	        the part due to readily, and rapidly, degradable matter
//	wet     ln of water per water that can be held; above 0 a load drains. On a pad, ln of
//	        water per dry mass
//	coarse  coarse share of the dry mass
//	size    ln of dry mass, kg
//	lag     coarse share of the uptake by readily degradable matter
//	rapid   share of rapidly degradable matter in the uptake by it and by readily
//	        degradable matter
//	start   temperature, °C, where it is not that of the parts
//
// How long a load takes to heat up, to which all else is sensitive, depends
// mostly on the first, which therefore has the finest spacing. The lag is how
// long the readily degradable matter lasts: of two loads that begin alike, the
// one that has it in chips holds more of it, takes up more oxygen in all, and
// later. Where chips have none it is 0 for every load. The rapid share is how lively a
// load is at first beside later; where nothing degrades rapidly it is 0 for every load.
const dims = 8

// spacing is the distance between lattice points: about the coarsest found that
// keeps the bound which Responses promises (see its test) and the steady loads of
// a plant within 0.05 points of the moisture at the screen (see the test of the
// question `cycle`).
var spacing = [dims]float64{0.12, 0.75, 0.15, 1. / 15, 0.3, 0.05, 0.05, 5}

// dryingSpacing takes its place where nodes are interpolated as they are, and pileSpacing
// of these on a pad. Of two lots there that hold as much water per dry mass the coarser one
// loses it hardly otherwise, so that one centre along that axis does for most plants.
var (
	dryingSpacing = [dims]float64{0.24, 0.75, 0.3, 2. / 15, 0.3, 0.05, 0.1, 5}
	pileSpacing   = [dims]float64{0.24, 0.75, 0.3, 2. / 9, 0.3, 0.05, 0.1, 5}
)

const (
	riseAxis   = 0
	slowAxis   = 1
	wetAxis    = 2
	coarseAxis = 3
	sizeAxis   = 4
	lagAxis    = 5
	rapidAxis  = 6
	startAxis  = 7

	leastRise  = 1e-6 // K/h, in place of none
	leastPart  = 1e-3 // kg O2/d per t dry, in place of none
	dryest     = 0.02 // of what water is measured by, in place of less
	leastQuick = 1e-4 // rapid share, in place of none
)

// levels is how many lattices there are, each of half the spacing of the one before, to
// go on to where the loads at the points of one behave too differently to be interpolated;
// pileLevels, on a pad: a third would there serve few lots, which cost less to integrate.
// So would a second for loads that dry.
const (
	levels     = 3
	pileLevels = 2
)

// place is a lattice point. A level's spacing is half that of the level before.
type place struct {
	month int8
	level int8
	at    [dims]int16
}

// is reports whether two points are the same. It compares number by number: as a whole they
// could be read only once all numbers of a place that was just found are in memory.
func (p *place) is(q *place) bool {
	for i := range p.at {
		if p.at[i] != q.at[i] {
			return false
		}
	}
	return p.month == q.month && p.level == q.level
}

// coordinates finds where p lies, of which air reaches a share; at first x is 0.
func (r *Responses) coordinates(x *[dims]float64, p *material.Parcel, reached float64, month time.Month, start float64) {
	rapidly, readily, slowly := r.uptakes(p, reached)
	quick := readily + rapidly
	m := p.Matter()
	dry := m.Dry()
	least := leastPart * dry / 1000
	rise := 0.0
	if quick+slowly > 0 {
		rise = (quick + slowly) * r.heating(p, &m, month)
	}
	x[riseAxis] = math.Log(max(rise, leastRise))
	x[slowAxis] = math.Log(max(slowly, least) / max(quick, least))
	x[wetAxis] = math.Log(max(m.Water/r.wets(&m), dryest))
	x[coarseAxis] = m.Coarse / dry
	if lagging := r.m.Kinetics.CoarseFactor * p.Coarse.Readily; lagging > 0 {
		x[lagAxis] = lagging / (p.Fine.Readily + lagging)
	}
	if rapidly > leastQuick*quick {
		x[rapidAxis] = rapidly / quick
	}
	if r.sized {
		x[sizeAxis] = math.Log(dry)
	}
	if r.tipped {
		if x[startAxis] = start; math.IsNaN(start) {
			x[startAxis] = r.m.Heat.felt(r.m.startLevel(&m, month), dry, m.Water)
		}
	}
}

// wets returns what the water of a load is measured by, kg: what it can hold, or, on a pad,
// where next to nothing drains, its dry mass. There moisture, by which rates and drying go,
// follows from the latter whatever the coarse share. (Of loads that dry it tells no more
// than the former: it was tried.)
func (r *Responses) wets(m *material.Matter) float64 {
	if r.byDry {
		return m.Dry()
	}
	return r.m.Bulk.FieldCapacityWater(m, r.m.Enclosure.Holding)
}

// uptakes returns the oxygen uptake at 20 °C without limitation that is due to
// rapidly, readily and slowly degradable matter that air reaches, kg/d. Standard loads
// have air throughout: what it does not reach of a load lies in that as matter that does
// not degrade.
func (r *Responses) uptakes(p *material.Parcel, reached float64) (rapidly, readily, slowly float64) {
	k, c := &r.m.Kinetics, &r.m.Chemistry
	rapidly = (p.Fine.Rapidly + k.CoarseFactor*p.Coarse.Rapidly) * k.Rapidly * c.Readily.O2 * reached
	readily = (p.Fine.Readily + k.CoarseFactor*p.Coarse.Readily) * k.Readily * c.Readily.O2 * reached
	slowly = (p.Fine.Slowly + k.CoarseFactor*p.Coarse.Slowly) * k.Slowly * c.Slowly.O2 * reached
	return rapidly, readily, slowly
}

// heating returns the first rise in temperature, K/h, per unlimited uptake of 1 kg
// O2/d at 20 °C, of a load p of which of is the matter.
func (r *Responses) heating(p *material.Parcel, of *material.Matter, month time.Month) float64 {
	m, dry := r.m, of.Dry()
	start := m.Heat.felt(m.startLevel(of, month), dry, of.Water)
	rate := r.curve.at(start) * m.Kinetics.Moisture(of.Moisture()) * m.airways(p)
	return rate * m.HeatOfOxygen / hoursPerDay / m.Heat.Of(dry, of.Water)
}

// nearest finds the lattice point nearest to x of a month and level, and how far x is from
// it, in spacings: −0.5…0.5.
func (r *Responses) nearest(x *[dims]float64, p *place, off *[dims]float64) {
	finer := float64(int(1) << p.level)
	for i := range x {
		if x[i] == 0 && i != coarseAxis { // as along the axes that the table does not have
			p.at[i], off[i] = 0, 0
			continue
		}
		v := x[i] / r.spacing[i] * finer
		round := math.Round(v)
		switch {
		case i == coarseAxis || (i == lagAxis || i == rapidAxis) && v > 0: // keep all of the stencil between 0 and 1
			last := math.Floor(finer/r.spacing[i] + 1e-9)
			round = min(max(round, 1), last-1)
		case i == startAxis && v > 0: // and none of it frozen
			round = max(round, 1)
		}
		p.at[i], off[i] = int16(round), v-round
	}
}

// Composition of the loads that stand at lattice points, where the coordinates
// leave it open, per dry mass of the size class: ash, and what is degradable in
// fresh matter.
const (
	fineFixed    = 0.25
	coarseFixed  = 0.02
	coarseSlowly = 0.5

	// Of these the ammonia that leaves depends at most, and on that next to nothing.
	fineCarbon   = 0.42
	fineNitrogen = 0.045
)

// stands returns where a lattice point lies.
func (r *Responses) stands(p place) [dims]float64 {
	var x [dims]float64
	for i := range x {
		x[i] = float64(p.at[i]) * r.spacing[i] / float64(int(1)<<p.level)
	}
	return x
}

// compose is the inverse of coordinates: it returns a load that stands at x, false
// if matter cannot be so composed.
func (r *Responses) compose(x [dims]float64, month time.Month) (material.Parcel, bool) {
	dry := 1000.0
	if r.sized {
		dry = math.Exp(x[sizeAxis])
	}
	coarse := dry * min(max(x[coarseAxis], 0), 1)
	fine := dry - coarse
	p := material.Parcel{
		Fine:   material.Solids{Fixed: fineFixed * fine, Refractory: (1 - fineFixed) * fine},
		Coarse: material.Solids{Fixed: coarseFixed * coarse, Refractory: (1 - coarseFixed) * coarse},
	}
	m := p.Matter()
	m.Water = math.Exp(x[wetAxis]) * r.wets(&m)
	p.Water = m.Water
	k, c := &r.m.Kinetics, &r.m.Chemistry
	total := math.Exp(x[riseAxis]) / r.heating(&p, &m, month)
	part := math.Exp(x[slowAxis])
	quick := total / (1 + part)
	readily := quick * (1 - x[rapidAxis]) / (k.Readily * c.Readily.O2)
	if x[rapidAxis] > 0 {
		p.Fine.Rapidly = quick * x[rapidAxis] / (k.Rapidly * c.Readily.O2)
	}
	slowly := 0.0
	if k.Slowly > 0 {
		slowly = total * part / (1 + part) / (k.Slowly * c.Slowly.O2)
	}
	degradable(&p, readily, slowly, x[lagAxis], k.CoarseFactor)
	p.Fine.Carbon, p.Fine.Nitrogen = fineCarbon*fine, fineNitrogen*fine
	return p, total <= math.MaxFloat64 && min(p.Fine.Refractory, p.Coarse.Refractory) >= -beyond*p.Dry()
}

// beyond is how much refractory matter of a size a standard load may lack, over its
// dry mass. One that lacks more is near to no real load, and burns more than there is.
const beyond = 2

// degradable turns refractory matter of p into readily and slowly degradable
// matter that counts as much as the given fine masses, and into the rapidly
// degradable that it has. Coarse matter gets the part
// lag of what is readily degradable, and of the slowly degradable what it has when
// fresh; fine matter gets the rest. Standard loads stand on either side of
// real ones and need not be possible themselves, so refractory matter may
// fall below zero: nothing depends on it but the dry mass, which stays.
func degradable(p *material.Parcel, readily, slowly, lag, factor float64) {
	p.Fine.Readily = readily * (1 - lag)
	if lag > 0 {
		p.Coarse.Readily = readily * lag / factor
	}
	p.Fine.Slowly, p.Coarse.Slowly = divide(slowly, factor, coarseSlowly*p.Coarse.Dry())
	p.Fine.Refractory -= p.Fine.Readily + p.Fine.Slowly + p.Fine.Rapidly
	p.Coarse.Refractory -= p.Coarse.Readily + p.Coarse.Slowly
}

// divide gives coarse matter the mass wanted, or as much as counts for all of
// mass, and fine matter the rest.
func divide(mass, factor, wanted float64) (fine, coarse float64) {
	if factor*wanted > mass {
		return 0, mass / factor
	}
	return mass - factor*wanted, wanted
}
