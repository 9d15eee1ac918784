package facilityfile

import (
	"slices"

	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim/random"
)

// site reads the air around the plant; both courses share it.
func (r *reader) site() {
	r.defaults()
	s := r.group("site")
	site := &r.m.Active.Site
	site.Altitude = s.QuantityOr("altitude", units.Length, 0, yamlfile.Between(-400, 5000))
	site.Temperature = s.Monthly("temperature", units.Temperature, yamlfile.Between(-45, 50))
	site.Humidity = s.MonthlyOr("humidity", units.Fraction, constant(0.7), yamlfile.Between(0.01, 1))
	r.m.Pile.Site = *site
}

// mostDryPerDay, kg/day, is more than any plant of this kind takes in.
const mostDryPerDay = 1e6

// solids reads the production of cake.
func (r *reader) solids() {
	s := r.group("solids")
	f := &r.m.Feed
	r.grown = r.growth(s.MapIf("growth"))
	f.Growth = r.grown.Growth
	f.Base = r.base(s)
	f.Month = s.MonthlyOr("by_month", units.Ratio, constant(1), yamlfile.NonNegative(),
		yamlfile.Usually(0.5, 2, "maximum month 1.2 to 1.3 times the average, from memory"))
	if s.Good("by_month") && allZero(f.Month[:]) {
		s.Error("by_month", "all months are zero", "write relative values such as 1")
	}
	f.Weekday = weekdayFactors(s)
	noise := s.MapIf("day_to_day")
	f.Noise = random.AR1Lognormal{
		CV:          noise.QuantityOr("variation", units.Fraction, 0, yamlfile.Between(0, 2)),
		Correlation: noise.QuantityOr("correlation", units.Ratio, 0, yamlfile.Between(0, 0.99)),
	}
	f.CakeSolids = s.Monthly("cake_solids", units.Fraction, yamlfile.Between(leastCakeSolids, mostCakeSolids),
		yamlfile.Usually(0.15, 0.30, "15 to 25 % is common for belt presses and centrifuges, common practice, no source"))
	r.thickest, r.thinnest = slices.Max(f.CakeSolids[:]), slices.Min(f.CakeSolids[:])
	r.solidsKnown = s.Present() && s.Good("cake_solids")
	f.SolidsCV = s.QuantityOr("cake_solids_variation", units.Fraction, 0, yamlfile.Between(0, 0.3))
	f.Pulses = r.pulses(s)
}

// weekdayFactors reads the relative amounts of the weekdays; the file begins the
// week on Monday and the model on Sunday.
func weekdayFactors(m *yamlfile.Map) (factors [7]float64) {
	week := m.WeeklyOr("by_weekday", units.Ratio, [7]float64{1, 1, 1, 1, 1, 1, 1}, yamlfile.NonNegative())
	if m.Good("by_weekday") && allZero(week[:]) {
		m.Error("by_weekday", "all weekdays are zero", "write relative values such as 1")
	}
	for i, v := range week {
		factors[(i+1)%7] = v
	}
	return factors
}

func constant(v float64) (out [12]float64) {
	for i := range out {
		out[i] = v
	}
	return out
}

func allZero(v []float64) bool {
	for _, x := range v {
		if x != 0 {
			return false
		}
	}
	return true
}

func mean(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	return sum / float64(len(v))
}
