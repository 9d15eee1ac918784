package recycle

import (
	"loamcast/facility/material"
	"loamcast/facility/plant"
	"loamcast/facility/process"
	"loamcast/sim"
	"pgregory.net/rapid"
)

// drawing draws numbers and choices under their names.
type drawing struct{ t *rapid.T }

func (d drawing) between(name string, low, high float64) float64 {
	return rapid.Float64Range(low, high).Draw(d.t, name)
}
func (d drawing) on(name string) bool { return rapid.Bool().Draw(d.t, name) }
func (d drawing) days(name string, low, high float64) sim.Duration {
	return sim.DurationOf(86400 * d.between(name, low, high))
}

// facility draws one in which each part of the physics of loads that a file can switch on
// is on or off, in any weather.
func (d drawing) facility() *plant.Model {
	m := constant()
	v, p := m.Active, m.Pile
	weather := v.Site
	weather.Temperature = twelve(d.between("ambient", -30, 38))
	weather.Humidity = twelve(d.between("humidity", 0.1, 1))
	v.Site, p.Site = weather, weather
	v.Enclosure.Conductance, p.Enclosure.Conductance = d.between("wall", 0, 3), d.between("surface", 0, 5)
	v.Blower.Turndown = d.between("turndown", 0, 1)
	v.Blower.Capacity, p.Blower.PerDry = d.between("blower", 50, 2500), d.between("pad air", 5, 60)
	if d.on("waits") {
		v.Program = process.DefaultHold(v.Criteria)
		v.Program[1].Ramp = d.between("ramp", 0.1, 4)
	}
	d.rates(&m)
	if d.on("structure") {
		v.Bulk.Structure, p.Bulk.Structure = material.DefaultStructure(d.between("depth", 0, 4)), material.DefaultStructure(2.5)
		v.AirPath, p.AirPath = process.DefaultAirPath(), process.DefaultAirPath()
		v.Criteria = append(v.Criteria, process.AirThroughout())
		m.Bulk.Structure = v.Bulk.Structure
	}
	if d.on("microbes") {
		microbes := material.DefaultMicrobes()
		v.Chemistry.Microbes, p.Chemistry.Microbes, m.Chemistry.Microbes = microbes, microbes, microbes
	}
	d.pad(&m)
	return &m
}

func (d drawing) rates(m *plant.Model) {
	v, p := m.Active, m.Pile
	if d.on("lively") {
		v.Kinetics = process.LivelyKinetics()
		p.Kinetics = v.Kinetics
		p.Kinetics.Awakening = process.Awakening{}
		m.Cake.Rapidly = d.between("rapidly", 0, 0.2)
		m.Cake.Readily -= m.Cake.Rapidly
	}
	if d.on("ice") {
		v.Heat.Fusion, p.Heat.Fusion = process.FusionHeat, process.FusionHeat
	}
	if d.on("intake") {
		v.Intake = &process.Intake{Cake: twelve(d.between("cake", -10, 40)), Chips: twelve(d.between("chips", -35, 35))}
	}
}

// pad draws what becomes of a lot from the tip to the screen.
func (d drawing) pad(m *plant.Model) {
	m.Screening.First = d.on("screened first")
	m.Curing.Time = d.days("cured", 0.1, 40)
	if d.on("keeps its warmth") {
		m.Pile.Tipped = &process.Handling{Share: d.between("share", 0, 1), Drop: d.between("drop", 0, 15)}
	}
	if d.on("turned") {
		m.Pile.Turning = process.Turning{At: []float64{d.between("turned at", 1, 300), 500}, Loses: process.Handling{Share: d.between("turning", 0, 1)}}
	}
	if d.on("water") {
		below := d.between("water below", 0.3, 0.7)
		m.Curing.Rewet = plant.Rewet{Below: below, UpTo: below + d.between("water more", 0, 0.1)}
	}
	if d.on("dried") {
		m.Drying = plant.ChosenDrying()
		m.Drying.Moisture, m.Drying.Air = d.between("dry enough", 0.35, 0.6), d.between("drying air", 0, 150)
		m.Drying.Longest = d.days("longest wait", 1, 60)
		if d.on("held") {
			m.Drying.Gate = plant.HoldWet
		}
	}
	if d.on("dried in the vessel") {
		m.Drying.Vessel = plant.VesselDrying{Air: d.between("vessel's drying air", 0, 150), Moisture: d.between("dry enough there", 0.35, 0.6), Longest: d.days("longest there", 0.5, 10)}
	}
}
