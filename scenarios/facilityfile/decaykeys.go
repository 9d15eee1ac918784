package facilityfile

import (
	"loamcast/facility/material"
	"loamcast/facility/process"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
)

// rapidRow is a part of cake and other fine materials; chips have none.
var rapidRow = row[material.Spec]{
	Key{Path: "rapidly_degradable", Words: "part of the volatile solids that degrades within days, not counted in readily_degradable", Dimension: units.Fraction, Low: 0, High: 1,
		Usual:   &Usual{0, 0.25, "12 % brings fresh cake to the 12.1 mg O2/g·h of Zhao et al. 2011 at 35 °C (from an abstract), derived"},
		Default: orElse(0, assumption), Example: "12 %"},
	number(func(s *material.Spec) *float64 { return &s.Rapidly })}

// What temperature curves are called in the file.
const (
	riseAndFall = "rise and fall"
	cardinal    = "cardinal"
)

const perDayAt20 = "at 20 °C, with nothing limiting it"

// byCurve is the default of a rate constant.
func byCurve(of func(process.Kinetics) float64, source string) *Default {
	show := func(k process.Kinetics) string { return units.Format(of(k), units.Rate, units.SI) }
	return elseAs(show(process.LivelyKinetics())+"; with rise and fall "+show(process.DefaultKinetics()), source)
}

const kulikowska = "0.196/day at 57 °C, Kulikowska 2016, read; the temperature is an assumption"

// decayRows: the curve comes first, for the other defaults depend on it.
var decayRows = []row[process.Kinetics]{
	{Key{Path: "temperature_curve", Words: "how rates follow temperature: a rise and a fall by powers (Haug 1993), or by least, best and most temperature (Rosso et al. 1993); both from memory",
		Choices: []string{cardinal, riseAndFall}, Default: elseAs(cardinal, assumption)},
		chosen(func(k *process.Kinetics, word string) {
			if word == cardinal {
				lively := process.LivelyKinetics()
				k.Rapidly, k.Readily, k.Slowly, k.Curve = lively.Rapidly, lively.Readily, lively.Slowly, lively.Curve
			}
		})},
	cardinalRow("least_temperature", "temperature at and below which nothing decays, of the cardinal curve", -20, 15,
		&Usual{-10, 6, "some 5 °C in models of composting, from memory; less where heaps start cold"}, func(c *process.Cardinal) *float64 { return &c.Least }),
	cardinalRow("best_temperature", "temperature of the fastest decay, of the cardinal curve", 30, 70,
		&Usual{45, 65, "composting goes best at 45 to 65 °C, practice"}, func(c *process.Cardinal) *float64 { return &c.Best }),
	cardinalRow("most_temperature", "temperature at and above which nothing decays, of the cardinal curve", 55, 95,
		&Usual{68, 85, "70 to 82 °C in models of composting, from memory"}, func(c *process.Cardinal) *float64 { return &c.Most }),
	{Key{Path: "rapidly", Words: "rate of rapidly degradable solids " + perDayAt20, Dimension: units.Rate, Low: 0.02, High: 1,
		Usual:   &Usual{0.1, 0.8, "a few days in a warm heap, assumption"},
		Default: byCurve(func(k process.Kinetics) float64 { return k.Rapidly }, "set by Zhao et al. 2011, from an abstract"), Example: "0.38 1/day"},
		number(func(k *process.Kinetics) *float64 { return &k.Rapidly })},
	{Key{Path: "readily", Words: "rate of readily degradable solids " + perDayAt20, Dimension: units.Rate, Low: 0.001, High: 1,
		Usual:   &Usual{0.005, 0.15, "0.02 to 0.1 of the rate near 57 °C by either curve, derived"},
		Default: byCurve(func(k process.Kinetics) float64 { return k.Readily }, kulikowska), Example: "0.056 1/day"},
		number(func(k *process.Kinetics) *float64 { return &k.Readily })},
	{Key{Path: "slowly", Words: "rate of slowly degradable solids " + perDayAt20, Dimension: units.Rate, Low: 0, High: 0.1,
		Usual:   &Usual{0.0002, 0.01, "a fraction of the rate of readily degradable solids, assumption"},
		Default: byCurve(func(k process.Kinetics) float64 { return k.Slowly }, assumption), Example: "0.0028 1/day"},
		number(func(k *process.Kinetics) *float64 { return &k.Slowly })},
	{Key{Path: "coarse", Words: "rate in chips over the rate in fine matter", Dimension: units.Ratio, Low: 0, High: 1,
		Default: orElse(process.DefaultKinetics().CoarseFactor, "assumption, for their smaller surface")},
		number(func(k *process.Kinetics) *float64 { return &k.CoarseFactor })},
	{Key{Path: "first_activity", Words: "activity of a fresh load, of what it grows to; 100 % for one that is fully active from the start", Dimension: units.Fraction, Low: 1e-4, High: 1,
		Usual:   &Usual{0.001, 1, "0.4 % lets standard mixes with rapidly degradable solids pass 55 °C after 2 days in summer and 5 in winter, assumption"},
		Default: orElse(process.LivelyKinetics().Awakening.First, assumption)},
		number(func(k *process.Kinetics) *float64 { return &k.Awakening.First })},
	{Key{Path: "growth", Words: "growth of the activity " + perDayAt20 + ", if it is less than full at first", Dimension: units.Rate, Low: 0.1, High: 20,
		Usual:   &Usual{0.5, 10, "doubling within some hours, assumption"},
		Default: orElse(process.LivelyKinetics().Awakening.Rate, assumption)},
		number(func(k *process.Kinetics) *float64 { return &k.Awakening.Rate })},
}

// cardinalRow is a temperature that the curve named cardinal has.
func cardinalRow(path, words string, low, high float64, usual *Usual, at func(*process.Cardinal) *float64) row[process.Kinetics] {
	c := process.DefaultCardinal()
	return row[process.Kinetics]{
		Key{Path: path, Words: words, Dimension: units.Temperature, Low: low, High: high, Usual: usual,
			Default: elseAs(units.Format(*at(&c), units.Temperature, units.SI), "from memory and assumption"),
			Example: units.Format(*at(&c), units.Temperature, units.SI)},
		number(func(k *process.Kinetics) *float64 { return at(&k.Curve.Cardinal) })}
}

// decay reads how fast solids decay, in vessels and on the pad. What cures has been
// alive before: it is fully active.
func (r *reader) decay() {
	d := r.root.MapIf("decay")
	k := process.DefaultKinetics()
	read(d, decayRows, &k)
	if k.Awakening.First == 1 {
		k.Awakening = process.Awakening{}
	}
	for _, key := range [...]string{"least_temperature", "best_temperature", "most_temperature"} {
		if d.Is("temperature_curve", riseAndFall) && d.Has(key) && d.Good("temperature_curve") {
			d.Error(key, "only the cardinal curve has such a temperature", `write "temperature_curve: cardinal", or remove it`)
		}
	}
	if !d.Good("temperature_curve", "least_temperature", "best_temperature", "most_temperature", "rapidly", "readily", "slowly", "coarse", "first_activity", "growth") {
		return
	}
	if err := k.Validate(); err != nil {
		r.doc.ErrorAt(d.Position(), err.Error(), "")
		return
	}
	r.m.Active.Kinetics = k
	k.Awakening = process.Awakening{}
	r.m.Pile.Kinetics = k
}

// intakeRows are the temperatures at which materials come, and whether they freeze.
var intakeRows = []row[process.Model]{
	{Key{Path: "cake", Words: "temperature of cake and other fine matter at the mixer, each month", Dimension: units.Temperature, Low: -40, High: 75,
		Usual:   &Usual{5, 40, "cake comes at 10 to 25 °C, warmer from digesters, common practice, no source"},
		Default: orElse(process.DefaultVesselModel().Loading.Fine, assumption)},
		monthly(func(m *process.Model) *[12]float64 { return &m.Intake.Cake })},
	{Key{Path: "chips", Words: "temperature of chips at the mixer, each month", Dimension: units.Temperature, Low: -45, High: 60,
		Usual:   &Usual{-25, 40, "near the mean outdoors; a heap does not freeze through, assumption"},
		Default: elseAs("mean outdoors, but not below 2 °C", assumption), Example: "4 °C"},
		field[process.Model]{kind: Months, read: func(m *yamlfile.Map, k *Key, into *process.Model) {
			if m.Has(k.Path) {
				into.Intake.Chips = m.Monthly(k.Path, k.Dimension, k.checks()...)
			}
		}}},
	{Key{Path: "freezing", Words: "whether water below 0 °C is ice, which takes heat to thaw", Default: elseAs("false", assumption), Example: "true"},
		field[process.Model]{kind: Flag, read: func(m *yamlfile.Map, k *Key, into *process.Model) {
			if m.BoolOr(k.Path, false) {
				into.Heat.Fusion = process.FusionHeat
			}
		}}},
}

// intake reads at what temperature materials come to the mixer.
func (r *reader) intake() {
	in := r.root.MapIf("intake")
	if !in.Present() {
		return
	}
	m := r.m.Active
	least := m.Loading.Chips
	m.Intake = &process.Intake{Chips: m.Site.Temperature}
	for i := range m.Intake.Chips {
		m.Intake.Chips[i] = max(m.Intake.Chips[i], least)
	}
	read(in, intakeRows, m)
	r.m.Pile.Heat = m.Heat
}
