package facilityfile

import (
	"math"

	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/sim"
)

// input is a value of the file that may be uncertain. What shapes the course of
// a load beyond its mix is not among them: the tables of courses are shared by
// all replications.
type input struct {
	key string
	dim units.Dimension
	// What a value may be, in the unit of dim. Several inputs together are tried
	// on the model at their ends, see possible.
	low, high float64
	set       func(*plant.Model, *Economy, float64)
}

// inputs are the values that may be uncertain, in the order of the file. A value
// takes the place of that of the file, if not said otherwise. Setters copy what
// they change: models of different replications share nothing that is written.
var inputs = []input{
	{"solids.dry_per_day", units.MassPerTime, 1e-3, mostDryPerDay,
		func(m *plant.Model, _ *Economy, v float64) { m.Feed.Base = v }},
	// Added to the yearly rate, whatever the form of growth.
	{"solids.growth", units.AnnualRate, -0.1, 0.1,
		func(m *plant.Model, _ *Economy, v float64) {
			m.Feed.Growth = plant.NewFaster(m.Feed.Growth, v)
		}},
	// Points added to every month.
	{"solids.cake_solids", units.Fraction, -0.2, 0.2,
		func(m *plant.Model, _ *Economy, v float64) { addTo(&m.Feed.CakeSolids, v) }},
	{"cake.volatile_solids", units.Fraction, 0.05, 1,
		func(m *plant.Model, _ *Economy, v float64) { m.Cake.Volatile = v }},
	{"cake.readily_degradable", units.Fraction, 0, 1,
		func(m *plant.Model, _ *Economy, v float64) { m.Cake.Readily = v }},
	{"cake.nitrogen", units.Fraction, 0, 0.2,
		func(m *plant.Model, _ *Economy, v float64) { m.Cake.Nitrogen = v }},
	{"mix.chips_to_cake", units.Ratio, 0.2, 10,
		func(m *plant.Model, _ *Economy, v float64) { m.Recipe.ChipsPerCake = v }},
	// Points added to every month.
	{"chips.moisture", units.Fraction, -0.4, 0.4,
		func(m *plant.Model, _ *Economy, v float64) { addTo(&m.Chips.Moisture, v) }},
	{"chips.lead_time", units.Duration, 0, secondsPerYear,
		func(m *plant.Model, _ *Economy, v float64) { m.Chips.LeadTime = sim.DurationOf(v) }},
	{"screen.recovery", units.Fraction, 0, 1,
		func(m *plant.Model, _ *Economy, v float64) { m.Screening.Settings.Recovery = v }},
	{"screen.carry_over", units.Fraction, 0, 2,
		func(m *plant.Model, _ *Economy, v float64) { m.Screening.Settings.CarryOver = v }},
	{"screen.attrition", units.Fraction, 0, 1,
		func(m *plant.Model, _ *Economy, v float64) { m.Screening.Settings.Attrition = v }},
	// The shortest residence is shortened with it where it must be; the longest
	// stays, and no longer one is drawn.
	{"vessels.residence", units.Duration, hour, secondsPerYear,
		func(m *plant.Model, _ *Economy, v float64) {
			m.Vessels.Residence = sim.DurationOf(v)
			m.Vessels.Minimum = min(m.Vessels.Minimum, m.Vessels.Residence)
		}},
	{"vessels.turnaround", units.Duration, 0, 60 * day,
		func(m *plant.Model, _ *Economy, v float64) { m.Vessels.Turnaround = sim.DurationOf(v) }},
	// A factor on every month.
	{"product.demand_per_day", units.Ratio, 0, 100,
		func(m *plant.Model, _ *Economy, v float64) { scale(&m.Product.Demand, v) }},
	{"chips.price", units.MoneyPerVolume, 0, math.Inf(1),
		func(_ *plant.Model, e *Economy, v float64) { e.Prices.Chips.Amount = v }},
	{"money.discount", units.AnnualRate, -0.1, 0.5,
		func(_ *plant.Model, e *Economy, v float64) { e.Rates.Discount = v }},
	{"money.labour", units.MoneyPerHour, 0, math.Inf(1),
		func(_ *plant.Model, e *Economy, v float64) { e.Prices.Labour.Amount = v }},
	{"money.power", units.MoneyPerEnergy, 0, math.Inf(1),
		func(_ *plant.Model, e *Economy, v float64) { e.Prices.Power.Amount = secondsPerHour * v }},
	{"money.fuel", units.MoneyPerVolume, 0, math.Inf(1),
		func(_ *plant.Model, e *Economy, v float64) { e.Prices.Fuel.Amount = v }},
	{"money.tipping", units.MoneyPerMass, 0, math.Inf(1),
		func(_ *plant.Model, e *Economy, v float64) { e.Prices.Tipping.Amount = v }},
	// Added to the price of every month.
	{"money.product", units.MoneyPerVolume, math.Inf(-1), math.Inf(1),
		func(_ *plant.Model, e *Economy, v float64) { addTo(&e.ProductPrice, v) }},
	// Added to what every step costs, as a part of it.
	{"money.capital", units.Fraction, -0.9, 10,
		func(_ *plant.Model, e *Economy, v float64) { e.CapitalOver = v }},
}

// inputNamed returns the input of a key.
func inputNamed(key string) (input, bool) {
	for _, in := range inputs {
		if in.key == key {
			return in, true
		}
	}
	return input{}, false
}

func inputKeys() []string {
	keys := make([]string, len(inputs))
	for i, in := range inputs {
		keys[i] = in.key
	}
	return keys
}

func addTo(months *[12]float64, v float64) {
	for i := range months {
		months[i] += v
	}
}

func scale(months *[12]float64, v float64) {
	for i := range months {
		months[i] *= v
	}
}
