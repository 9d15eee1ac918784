package facilityfile

import (
	"fmt"
	"math"

	"loamcast/facility/material"
	"loamcast/facility/plant"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim/calendar"
)

const day = float64(calendar.SecondsPerDay)

// pulses reads the times of more production, such as the emptying of a digester.
func (r *reader) pulses(solids *yamlfile.Map) []plant.Pulse {
	var out []plant.Pulse
	for _, p := range solids.ListIf("pulses") {
		pulse := plant.Pulse{Days: wholeDays(p, &pulseFor)}
		read(p, pulseRows, &pulse)
		if p.Good("from", "for") && r.root.Good("start", "horizon") {
			switch last := pulse.From.AddDays(pulse.Days - 1); {
			case last.Before(r.m.Start):
				p.Warn("from", "these days are over before the first day reported", fmt.Sprintf("the report begins on %v", r.m.Start))
			case !pulse.From.Before(r.end()):
				p.Warn("from", "these days come after the last day simulated and change nothing", fmt.Sprintf("the run ends before %v", r.end()))
			}
		}
		out = append(out, pulse)
	}
	return out
}

// wholeDays reads a duration in whole days.
func wholeDays(m *yamlfile.Map, k *Key) int {
	key := k.Path
	days := m.Quantity(key, k.Dimension, k.checks()...) / day
	whole := math.Round(days)
	if m.Good(key) && math.Abs(days-whole) > 1e-6 {
		m.Error(key, "only whole days can be simulated", fmt.Sprintf("write %.0f day", whole))
	}
	if !m.Good(key) {
		return 1
	}
	return int(whole)
}

// feedstocks reads what arrives beside the cake.
func (r *reader) feedstocks() {
	names := map[string]bool{"cake": true, "chips": true}
	for _, f := range r.root.ListIf("feedstocks") {
		out := r.feedstock(f)
		name := out.Material.Name
		if f.Good("name") && names[name] {
			f.Error("name", fmt.Sprintf("there is already a material %q", name), "give it a name of its own")
		}
		names[name] = true
		r.m.Feedstocks = append(r.m.Feedstocks, out)
	}
}

func (r *reader) feedstock(f *yamlfile.Map) plant.Feedstock {
	out := plant.Feedstock{Material: material.Spec{BulkDensity: cakeDensity}}
	read(f, feedstockRows, &out)
	composition(f, fineRows(nil), &out.Material)
	someDay(f, out.Weekday)
	if f.Good("dry_per_day") && allZero(out.PerDay[:]) {
		f.Error("dry_per_day", "it never arrives", "write an amount for some month, or remove the feedstock")
	}
	if f.Good("name") {
		r.check(f, out.Material)
	}
	return out
}

// dewatering reads how fast cake is made when a batch asks for it.
func (r *reader) dewatering() {
	d := r.root.MapIf("dewatering")
	r.dewateringGroup = d
	read(d, dewateringRows, &r.m.Dewatering)
}
