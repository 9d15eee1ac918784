package report

import (
	"fmt"
	"math"

	"loamcast/scenarios/cycleplan"
)

// totals are what the load gives and takes, and how well its accounts close.
func (c cycleText) totals() {
	type line struct {
		name string
		cell func(*cycleplan.Stage) string
	}
	kg := func(v float64) string { n, _ := scaleMass(v, c.sys); return n }
	_, unit := scaleMass(0, c.sys)
	lines := []line{
		{"dry solids lost, % of those at its start", func(s *cycleplan.Stage) string { return c.fixed(s.DryLoss/s.DryIn, share, 1) }},
		{"water evaporated, " + mass.label(c.sys), func(s *cycleplan.Stage) string { return c.fixed(s.Vapour, mass, 2) }},
		{"condensate that runs back, " + mass.label(c.sys), func(s *cycleplan.Stage) string { return c.fixed(s.Condensate, mass, 2) }},
		{"leachate, " + mass.label(c.sys), func(s *cycleplan.Stage) string { return c.fixed(s.Leachate, mass, 2) }},
		{"ammonia given off, " + unit, func(s *cycleplan.Stage) string { return kg(s.Ammonia) }},
		{"air, mean, " + airFlow.label(c.sys), func(s *cycleplan.Stage) string { return c.fixed(s.AirMean, airFlow, 0) }},
		{"air, peak, " + airFlow.label(c.sys), func(s *cycleplan.Stage) string { return c.fixed(s.AirPeak, airFlow, 0) }},
		{"air, mean, " + airPerT.label(c.sys) + " dry", func(s *cycleplan.Stage) string { return c.number(s.MeanPerDry, airPerT) }},
		{"air, peak, " + airPerT.label(c.sys) + " dry", func(s *cycleplan.Stage) string { return c.number(s.PeakPerDry, airPerT) }},
		{"blower energy, kWh", func(s *cycleplan.Stage) string { return c.number(s.Blower, energyKW) }},
		{"blower energy, kWh/" + mass.label(c.sys) + " dry", func(s *cycleplan.Stage) string {
			return fmt.Sprintf("%.1f", s.Blower/mass.in(s.DryIn, c.sys))
		}},
		{"highest temperature, " + degrees.label(c.sys), func(s *cycleplan.Stage) string { return c.fixed(s.PeakTemperature, degrees, 0) }},
		{"lowest oxygen in the pores, % vol.", func(s *cycleplan.Stage) string { return fmt.Sprintf("%.1f", s.LeastOxygen) }},
		{"heat set free, kWh", func(s *cycleplan.Stage) string { return c.number(s.Energy.Generated, energyKJ) }},
		{"  evaporating water, %", c.heatShare(func(s *cycleplan.Stage) float64 { return s.Energy.AirLatent })},
		{"  warming air, %", c.heatShare(func(s *cycleplan.Stage) float64 { return s.Energy.AirDry })},
		{"  through walls or surface, %", c.heatShare(func(s *cycleplan.Stage) float64 { return s.Energy.Wall })},
		{"  kept, or carried off with matter, %", c.heatShare(func(s *cycleplan.Stage) float64 { return s.Energy.Stored + s.Energy.Carried })},
	}
	stages := []*cycleplan.Stage{&c.l.Vessel, &c.l.Curing}
	columns := []column{words([]string{"Totals"}, cellsOf(lines, func(l *line) string { return l.name }))}
	for i, name := range []string{"vessel, " + c.days1(c.l.Stay), "pad, " + c.days1(c.l.Cured)} {
		columns = append(columns, column{headings: []string{plainSpaces(name)}, cells: cellsOf(lines, func(l *line) string { return l.cell(stages[i]) })})
	}
	c.table("What it gives and takes", columns)
	c.blank()
	c.biofilter()
	v, p := c.l.Vessel, c.l.Curing
	c.labelled("Accounts", "heat closes to %s (vessel) and %s (pad) of the heat set free; mass to %s and %s of what went in (total, water, carbon, nitrogen)",
		tiny(v.EnergyResidual), tiny(p.EnergyResidual), tiny(v.MassResidual), tiny(p.MassResidual))
}

// heatShare writes a part of the heat set free in percent.
func (c cycleText) heatShare(part func(*cycleplan.Stage) float64) func(*cycleplan.Stage) string {
	return func(s *cycleplan.Stage) string {
		if s.Energy.Generated == 0 {
			return "-"
		}
		return fmt.Sprintf("%.0f", 100*part(s)/s.Energy.Generated)
	}
}

func (c cycleText) biofilter() {
	b := c.l.Biofilter
	c.labelled("Biofilter", "for %s, all in use: %s on average, %s at most with loads begun at even intervals (%s if all peaked at once). "+
		"At %s and %s deep the bed needs %s and holds the air %.0f s, empty bed (loading and depth: common practice, from memory)",
		counted(b.Vessels, "vessel"), c.show(b.Mean, airFlow), c.show(b.Staggered, airFlow), c.show(b.AtOnce, airFlow),
		c.show(b.Loading, bedLoad), c.show(b.Depth, length), c.show(math.Round(b.Area), area), b.Residence)
}
