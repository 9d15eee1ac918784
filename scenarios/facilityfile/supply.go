package facilityfile

import (
	"fmt"
	"math"

	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim/calendar"
)

const day = float64(calendar.SecondsPerDay)

// pulses reads the times of more production, such as the emptying of a digester.
func (r *reader) pulses(solids *yamlfile.Map) []plant.Pulse {
	var out []plant.Pulse
	for _, p := range solids.ListIf("pulses") {
		pulse := plant.Pulse{
			From:   r.date(p, "from"),
			Days:   wholeDays(p, "for"),
			PerDay: p.Quantity("dry_per_day", units.MassPerTime, yamlfile.Positive(), yamlfile.AtMost(mostDryPerDay)),
		}
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

// wholeDays reads a duration of at least a day and at most a year, in whole days.
func wholeDays(m *yamlfile.Map, key string) int {
	days := m.Quantity(key, units.Duration, yamlfile.Between(day, secondsPerYear)) / day
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
		name := f.Text("name")
		if f.Good("name") && names[name] {
			f.Error("name", fmt.Sprintf("there is already a material %q", name), "give it a name of its own")
		}
		names[name] = true
		r.m.Feedstocks = append(r.m.Feedstocks, r.feedstock(name, f))
	}
}

func (r *reader) feedstock(name string, f *yamlfile.Map) plant.Feedstock {
	out := plant.Feedstock{
		Material: composition(name, f),
		PerDay:   f.Monthly("dry_per_day", units.MassPerTime, yamlfile.NonNegative(), yamlfile.AtMost(mostDryPerDay)),
		Weekday:  weekdayFactors(f),
		CV:       f.QuantityOr("variation", units.Fraction, 0, yamlfile.Between(0, 2)),
	}
	if f.Good("dry_per_day") && allZero(out.PerDay[:]) {
		f.Error("dry_per_day", "it never arrives", "write an amount for some month, or remove the feedstock")
	}
	out.Material.Moisture = 1 - f.Quantity("solids", units.Fraction, yamlfile.Between(0.02, 0.98))
	out.Material.BulkDensity = cakeDensity
	if f.Good("name") {
		r.check(f, out.Material)
	}
	return out
}

// slowestDewatering, kg dry per hour, keeps the making of a batch within days.
const slowestDewatering = 5

// dewatering reads how fast cake is made when a batch asks for it.
func (r *reader) dewatering() {
	d := r.root.MapIf("dewatering")
	r.dewateringGroup = d
	perDay := d.Quantity("rate_dry", units.MassPerTime, yamlfile.AtLeast(24*slowestDewatering))
	r.m.Dewatering.Rate = perDay / 24
}
