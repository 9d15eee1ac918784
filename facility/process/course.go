package process

import (
	"errors"
	"math"
	"time"

	"loamcast/facility/material"
)

// Course is what happened to one load.
type Course struct {
	Initial material.Parcel
	Start   float64 // initial temperature, °C
	Samples []Sample
	Reached float64 // share of the load that air reaches
	Met     []Met   // by criterion of the model, judged on this course alone
	Energy  Energy
	// Heat is what the load holds at the start, kJ above that of solids and water at 0 °C;
	// at the end it is that and Energy.Stored.
	Heat float64
}

// Sample is the state at the end of a step.
type Sample struct {
	Hours       float64 // since the start
	Temperature float64 // °C, of the load
	Mean        float64 // °C, over the step: what the criteria are judged on
	Parcel      material.Parcel
	Exchange    material.Exchange // since the start
	Flow        float64           // m3/h over the step, at inlet conditions
	Blowing     float64           // m3/h while the blower is on
	Air         float64           // m3 since the start
	Oxygen      float64           // % by volume in the pores, mean over those that air does not reach too
	Uptake      float64           // mg O2 per g of volatile solids and hour
	Blower      float64           // kWh since the start
	Condensate  float64           // kg since the start
	Segment     int               // of the program
	Full        bool              // the blower gave all it has
}

// Course integrates a load that starts in a month, up to maxHours, at the temperature
// of its parts.
func (m *Model) Course(p material.Parcel, month time.Month, maxHours float64) (*Course, error) {
	return m.CourseFrom(p, month, maxHours, math.NaN())
}

// CourseFrom is Course of a load that starts at a temperature, °C; at that of its
// parts if it is not a number.
func (m *Model) CourseFrom(p material.Parcel, month time.Month, maxHours, start float64) (*Course, error) {
	if !(maxHours >= 0) || math.IsInf(maxHours, 0) {
		return nil, errors.New("course: a duration is needed that is not negative")
	}
	if err := checkLoad(&p, month); err != nil {
		return nil, err
	}
	r := m.start(p, month, start, fixed(m.Step))
	c, before := &Course{Initial: p, Start: r.temperature, Reached: m.Reached(p)}, r.level
	r.leave(c.Reached)
	c.Samples = make([]Sample, 0, int(maxHours/m.Step)+len(m.Program)+1)
	watch := m.trackers()
	r.advance(maxHours, func(s *state) {
		c.Samples = append(c.Samples, s.sample(c.Reached))
		watch.add(Reading{Hours: s.last.length, Temperature: s.last.mean})
	})
	if maxHours == 0 {
		c.Samples = append(c.Samples, Sample{Temperature: r.temperature, Mean: r.temperature, Parcel: p, Oxygen: c.Reached * inletOxygen})
	}
	c.Met = watch.met()
	for i := range m.Criteria {
		if m.Criteria[i].Kind == Aired {
			c.Met[i] = m.Criteria[i].aired(c.Reached)
		}
	}
	c.Energy = r.energy
	c.Heat = m.Heat.Of(p.Dry(), p.Water) * before
	c.Energy.Stored = m.Heat.Of(r.parcel.Dry(), r.parcel.Water)*r.level - c.Heat
	return c, nil
}

func (s *state) sample(reached float64) Sample {
	uptake := 0.0
	if v := s.parcel.Volatile(); v > 0 {
		uptake = s.last.uptake / s.last.length / v * 1000
	}
	return Sample{
		Hours: s.hours, Temperature: s.temperature, Mean: s.last.mean,
		Parcel: s.parcel, Exchange: s.exchange,
		Flow: s.last.flow, Blowing: s.last.blowing, Air: s.air, Oxygen: reached * s.last.oxygen, Uptake: uptake,
		Blower: s.blower, Condensate: s.condensate, Segment: s.last.segment, Full: s.last.full,
	}
}

// Final returns the last sample.
func (c *Course) Final() *Sample { return &c.Samples[len(c.Samples)-1] }

// History returns the temperatures on which the criteria are judged.
func (c *Course) History() []Reading {
	history := make([]Reading, len(c.Samples))
	before := 0.0
	for i, s := range c.Samples {
		history[i] = Reading{Hours: s.Hours - before, Temperature: s.Mean}
		before = s.Hours
	}
	return history
}

// PeakFlow returns the largest air flow, m3/h at inlet conditions, that of a blower
// which blows on and off while it is on.
func (c *Course) PeakFlow() float64 {
	peak := 0.0
	for _, s := range c.Samples {
		peak = max(peak, s.Blowing)
	}
	return peak
}

// MeanFlow returns the mean air flow, m3/h at inlet conditions.
func (c *Course) MeanFlow() float64 {
	if c.Final().Hours == 0 {
		return 0
	}
	return c.Final().Air / c.Final().Hours
}

// PeakTemperature returns the highest temperature, °C.
func (c *Course) PeakTemperature() float64 {
	peak := c.Start
	for _, s := range c.Samples {
		peak = max(peak, s.Temperature)
	}
	return peak
}

type trackers []*tracker

func (m *Model) trackers() trackers {
	ts := make(trackers, len(m.Criteria))
	for i, c := range m.Criteria {
		ts[i] = newTracker(c)
	}
	return ts
}

func (ts trackers) add(r Reading) {
	for _, t := range ts {
		t.add(r)
	}
}

// settled reports whether all criteria are met, so that nothing more is to be seen.
func (ts trackers) settled() bool {
	for _, t := range ts {
		if !t.met.OK {
			return false
		}
	}
	return true
}

// met ends what the trackers watch and returns what is met.
func (ts trackers) met() []Met {
	met := make([]Met, len(ts))
	for i, t := range ts {
		met[i] = t.met
		t.done()
	}
	return met
}
