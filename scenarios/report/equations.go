package report

import (
	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
)

// equation is a rule of the model, as a reviewer reads it.
type equation struct{ subject, rule, source string }

// rules are those of the model by subject. "From memory" is a value that was not looked
// up again, "assumption" one of our own.
var rules = []equation{
	{"Moist air", "saturation pressure over water and ice, humidity ratio 0.621945·e/(p − e), enthalpy 1.006·t + W·(2501 + 1.86·t) kJ/kg of dry air; pressure by altitude",
		"Hyland and Wexler 1983 in ASHRAE Fundamentals; standard atmosphere (from memory)"},
	{"Rate of decay", "−dm/dt = m·k·a·g(T)·fw·fa·fo for each of six pools: rapidly, readily and slowly degradable matter, fine and coarse",
		"form: Haug 1993 (from memory); k from Kulikowska 2016 and Zhao et al. 2011"},
	{"Temperature", "rate follows a curve that is zero at −5 °C, best at 57 °C and zero again at 78 °C; a file may ask for rise and fall instead",
		"Rosso et al. 1993 (from memory); place of the best temperature: common practice, no source"},
	{"Moisture", "1/(exp(7.0622 − 17.684·w) + 1), w water per wet mass", "Haug 1993 (from memory)"},
	{"Oxygen", "c/(c + 2), c % of dry air in the pores", "Haug 1993 (from memory)"},
	{"Air in a load", "free air between chips and between fine particles, in a load that settles under its own weight; matter that air does not reach neither decays nor is dried",
		"compaction fitted to Eftoda and McCartney 2004; mixes that failed and worked, Ponsá et al.; the rest assumption"},
	{"Heat", "heat of oxidation less evaporation, warming of air and matter, walls; the blower follows the setpoint within its least and most", "balance; heat of oxidation by the oxygen used"},
	{"Nitrogen", "what decays releases nitrogen, what grows on it takes some up; the rest leaves as ammonia", "microbial balance (from memory); compared with PMC2897019"},
	{"Volume", "chips by their envelopes and voids, fine matter fills the voids first", "assumption, compared with published mixes"},
	{"Compliance", "time and temperature criteria of the file, judged on the simulated temperature of the load, and on how much of it air reaches; what vessel and curing are to have as a mean together is asked with 0.5 K more, which is how far off the table of courses may be", "40 CFR 503 and state rules as the file names them; the permitting authority decides"},
	{"Production", "growth, months, weekdays, and days that follow each other (first-order autoregression in the logarithm)", "the file"},
	{"Operations", "discrete events: batches, loads, vessels, pad, screen, deliveries, crews, breakdowns, hours of work; random numbers keyed by purpose, so that two plans meet the same days", "the file"},
	{"Service", "share of years that miss as a normal curve in a power of production, which is the higher the less years differ, found by simulating the plant along a ramp of production; years that the plan rests on are checked by whole runs", "measured against whole runs"},
	{"Money", "present worth at the start; prices of the year named, escalated one by one; what is built is worth at the end what is left of its life", "engineering economy (textbook cases)"},
}

// equations lists the rules of the model.
func equations(b answer.Basis) *doc.Document {
	d := doc.New("equations", b, doc.Words("What the simulation takes for granted, and where it comes from. What is marked as from memory or as an assumption deserves a second look before much money rests on it."))
	left := func(head string, of func(*equation) string) doc.Col[equation] {
		return doc.Left([]string{head}, func(e *equation) any { return of(e) })
	}
	d.Add(doc.TableOf(doc.Table{In: doc.Screen}, rules,
		left("Subject", func(e *equation) string { return e.subject }),
		left("Rule", func(e *equation) string { return e.rule }),
		left("Source", func(e *equation) string { return e.source })))
	return d
}
