package process

import (
	"errors"
	"fmt"
	"math"
	"time"

	"loamcast/facility/material"
)

// run is one integration: constants of the load and its state.
type run struct {
	m *Model

	// Constant over the course.
	stride    stride
	inlet     inlet
	constants pools // k20, 1/d
	oxygen    pools // kg O2 per kg oxidised
	curve     curve
	pools     int     // that may hold something
	idle      float64 // °C at and above which nothing decays
	dry       float64 // initial dry mass, t
	most      float64 // largest air flow, kg dry air per h
	leak      float64 // U·A, kJ/(h·K)
	airless   pools   // kg that air does not reach and that therefore stays

	progress progress // in the program
	turned   int      // how often, of Turning.At
	lay      float64  // h, since when the pile lies still
	wakes    bool     // is not fully active yet
	warm     warmth   // the terms at the temperature last asked for

	state
}

// state is what a step changes.
type state struct {
	hours       float64
	level       float64 // °C, the temperature if nothing were frozen
	temperature float64 // °C
	parcel      material.Parcel
	exchange    material.Exchange // since the start
	age         float64           // d at 20 °C without limitation that would do the same
	energy      Energy            // since the start, without Stored
	air         float64           // m3 since the start, at inlet conditions
	blower      float64           // kWh since the start
	condensate  float64           // kg since the start
	last        stepInfo
}

// stepInfo describes the step that has just ended.
type stepInfo struct {
	length  float64 // h
	start   float64 // °C, at its beginning
	mean    float64 // °C
	warming drift   // K/h
	drying  drift   // kg/h of water lost, less what was formed
	waking  float64 // 1/h, relative rise of the activity
	factor  float64 // Kinetics.Oxygen of the pores
	flow    float64 // m3/h at inlet conditions, mean
	blowing float64 // m3/h while the blower is on
	oxygen  float64 // % by volume in the pores
	uptake  float64 // kg O2
	segment int
	full    bool // the blower gave all it has
}

// start prepares the integration of p, which must have passed checkLoad, from a
// temperature, or from that of its parts if it is not a number.
func (m *Model) start(p material.Parcel, month time.Month, temperature float64, steps stride) *run {
	in := m.Site.inlet(month)
	b := m.Blower
	dry := p.Dry() / 1000
	r := &run{
		m:         m,
		stride:    steps,
		inlet:     in,
		constants: m.Kinetics.constants(),
		oxygen:    oxygenPer(&m.Chemistry),
		curve:     m.Kinetics.Curve.kept(),
		idle:      m.Kinetics.Curve.Vanishes(),
		pools:     occupied(&p),
		dry:       dry,
		most:      (b.Capacity + b.PerDry*dry) / in.volume,
		leak:      m.Enclosure.leak(m.Bulk.Volume(p)),
	}
	r.most *= m.draught(p)
	r.wakes = !m.Kinetics.Awakening.none()
	r.parcel = p
	of := p.Matter()
	r.level = m.startLevel(&of, month)
	if !math.IsNaN(temperature) {
		r.level = m.Heat.level(temperature, p.Dry(), p.Water)
	}
	r.temperature = r.felt(r.level)
	r.progress = m.progress(r.temperature)
	return r
}

func checkLoad(p *material.Parcel, month time.Month) error {
	if month < time.January || month > time.December {
		return fmt.Errorf("month %d does not exist", month)
	}
	for _, v := range [...]float64{p.Water, p.Fine.Fixed, p.Fine.Rapidly, p.Fine.Readily, p.Fine.Slowly, p.Fine.Refractory,
		p.Coarse.Fixed, p.Coarse.Rapidly, p.Coarse.Readily, p.Coarse.Slowly, p.Coarse.Refractory} {
		if !(v >= 0 && v <= math.MaxFloat64) {
			return fmt.Errorf("load: a mass of %g kg is impossible", v)
		}
	}
	if p.Dry() <= 0 {
		return errors.New("load: no dry matter")
	}
	return nil
}

// advance integrates up to maxHours in steps as the stride has them, which are cut
// where a segment ends, and calls each after every step.
func (r *run) advance(maxHours float64, each func(*state)) { r.advanceTo(maxHours, maxHours, each) }

// advanceTo is advance that stops after the step which reaches some hours. To go on later
// makes the same steps as not to stop.
func (r *run) advanceTo(hours, maxHours float64, each func(*state)) {
	for r.hours < hours {
		r.pass()
		r.turn()
		segment := r.progress.segment
		end := min(maxHours, r.latest(), r.nextTurn())
		next := min(r.hours+r.next(segment), max(r.soonest(), r.hours+soon))
		if next > end-sliver {
			next = end
		}
		before := r.temperature
		r.step(next-r.hours, segment)
		r.follow(before)
		r.hours = next
		each(&r.state)
	}
}
