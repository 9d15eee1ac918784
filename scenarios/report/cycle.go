package report

import (
	"fmt"
	"io"
	"strings"

	"loamcast/facility/process"
	"loamcast/scenarios/cycleplan"
	"loamcast/scenarios/units"
)

// CycleTerminal writes the course of a load, or a row for each month if there
// are several.
func CycleTerminal(w io.Writer, a *cycleplan.Answer, sys units.System) error {
	p := newPage(sys)
	if len(a.Loads) == 1 {
		cycleText{p, a, &a.Loads[0]}.one()
	} else {
		cycleMonths{p, a}.all()
	}
	p.blank()
	p.para("! A plan, not a certificate: it checks simulated temperatures against the criteria that the file names. Monitoring, records and the permitting authority decide.")
	return p.writeTo(w)
}

type cycleText struct {
	*page
	a *cycleplan.Answer
	l *cycleplan.Load
}

func (c cycleText) one() {
	c.head()
	c.days()
	c.criteria()
	c.totals()
}

func (c cycleText) head() {
	l := c.l
	c.para("%s", c.headline())
	c.para("The load: %s, %s, %.2f of chips to 1 of cake by volume (%s of them recovered), %s of dry cake; moisture %s, C:N %.0f, free air space %s.",
		c.show(l.Wet, mass), c.show(l.Volume, volume), l.ChipsToCake, c.with(l.RecoveredShare, share, 0), c.show(l.CakeDry, mass),
		c.with(l.Moisture, share, 0), l.CarbonToNitrogen, c.with(l.FreeAirSpace, share, 0))
	c.para("%s: begun in mid-%s, cured in the weather of %s. Recovered chips are those that such loads give back, month after month.",
		shorten(printable(c.a.Facility), 40), l.Month, l.CuringMonth)
	if c.a.Invented {
		c.para(inventedNotice)
	}
}

// headline is the answer: when the load is hot, when it complies, when it may
// leave and how wet it is then.
func (c cycleText) headline() string {
	l := c.l
	text := fmt.Sprintf("A %s load ", l.Month)
	if l.Passes.OK {
		text += fmt.Sprintf("passes %s after %s", c.temperature(c.a.Landmark), c.days1(l.Passes.Hours))
	} else {
		text += fmt.Sprintf("never reaches %s (at most %s)", c.temperature(c.a.Landmark), c.temperature(max(l.Vessel.PeakTemperature, l.Curing.PeakTemperature)))
	}
	var met, unmet []string
	for _, x := range l.Criteria {
		name := printable(x.Name)
		switch {
		case !x.Met.OK:
			unmet = append(unmet, name)
		case x.OnPad:
			met = append(met, fmt.Sprintf("%s on the pad at %s", name, c.days1(x.Met.Hours)))
		default:
			met = append(met, fmt.Sprintf("%s at %s", name, c.days1(x.Met.Hours)))
		}
	}
	if len(met) > 0 {
		text += ", meets " + list(met)
	}
	if len(unmet) > 0 {
		return text + fmt.Sprintf(", but does not meet %s: it would be hauled away after the longest residence. The figures are for a release after %s.",
			list(unmet), c.days1(l.Stay))
	}
	if l.HeldFor != "" {
		return text + fmt.Sprintf("; it may leave after %s, not the %s aimed at, for %s needs them, at %s moisture.",
			c.days1(l.Stay), c.days1(l.Aimed), printable(l.HeldFor), c.with(l.MoistureOut, share, 0))
	}
	return text + fmt.Sprintf("; it may leave after %s at %s moisture.", c.days1(l.Stay), c.with(l.MoistureOut, share, 0))
}

// days1 writes hours as days with one decimal, or none where it is zero.
func (p *page) days1(h float64) string {
	text := strings.TrimSuffix(p.fixed(h, hours, 1), ".0")
	if text == "1" {
		return "1" + noBreak + "day"
	}
	return text + noBreak + "days"
}

func (p *page) temperature(t float64) string { return p.with(t, degrees, 0) }

// days is the course by day, then by week on the pad.
func (c cycleText) days() {
	rows := c.l.Days
	cell := cellsOf[cycleplan.Row]
	c.table("Day by day in the vessel, then week by week on the curing pad", []column{
		{headings: []string{"Day", ""}, cells: cell(rows, func(r *cycleplan.Row) string { return strings.TrimSuffix(c.fixed(r.Hours, hours, 1), ".0") })},
		words([]string{"", "where"}, cell(rows, func(r *cycleplan.Row) string {
			if r.OnPad {
				return "pad"
			}
			return "vessel"
		})),
		{headings: []string{"temp.", degrees.label(c.sys)}, cells: cell(rows, func(r *cycleplan.Row) string { return c.fixed(r.Temperature, degrees, 0) })},
		{headings: []string{"moisture", "%"}, cells: cell(rows, func(r *cycleplan.Row) string { return c.fixed(r.Moisture, share, 1) })},
		{headings: []string{"dry solids", "left %"}, cells: cell(rows, func(r *cycleplan.Row) string { return c.fixed(r.DryLeft, share, 1) })},
		{headings: []string{"mean air", airFlow.label(c.sys)}, cells: cell(rows, func(r *cycleplan.Row) string { return c.fixed(r.Flow, airFlow, 0) })},
		{headings: []string{"least oxygen", "% vol."}, cells: cell(rows, func(r *cycleplan.Row) string { return fmt.Sprintf("%.1f", r.Oxygen) })},
		{headings: []string{"water removed", mass.label(c.sys)}, cells: cell(rows, func(r *cycleplan.Row) string { return c.fixed(r.Water, mass, 2) })},
	})
}

// criteria says of each criterion when it is met, or why it is not.
func (c cycleText) criteria() {
	c.blank()
	for _, x := range c.l.Criteria {
		c.para("%s (%s): %s", printable(x.Name), c.requirement(x.Criterion), c.verdict(x))
	}
	c.para("%s", c.stability())
	if c.l.Complies {
		return
	}
	if len(c.l.Findings) == 0 {
		c.para("No single cause stands out: moisture, air space, oxygen and heat are within their limits. Look at the temperature program and the time in the vessel.")
	}
	for i, f := range c.l.Findings {
		lead := "Also: "
		if i == 0 {
			lead = "Most likely cause: "
		}
		c.para("%s%s", lead, c.finding(f))
	}
}

// stability says what is left to degrade at the screen.
func (c cycleText) stability() string {
	text := fmt.Sprintf("stability: %s of the readily degradable solids are left at the screen", c.with(c.l.ReadilyLeft, share, 1))
	switch {
	case c.l.ReadilyAsked == 1:
		return text + "; the file asks for no limit."
	case c.l.Stable:
		return text + fmt.Sprintf("; the file asks for at most %s.", c.with(c.l.ReadilyAsked, share, 1))
	}
	return text + fmt.Sprintf(" after the longest curing time; the file asks for at most %s.", c.with(c.l.ReadilyAsked, share, 1))
}

func (c cycleText) requirement(x process.Criterion) string {
	span := c.days1(x.Hours)
	where := "in the vessel"
	if x.Where == process.InVesselAndCuring {
		where = "in vessel and curing"
	}
	switch x.Kind {
	case process.MeanAbove:
		return fmt.Sprintf("%s above %s with a mean above %s, %s", span, c.temperature(x.Temperature), c.temperature(x.Mean), where)
	case process.HoldWithPeak:
		return fmt.Sprintf("%s at %s or more and within them %s h above %s, %s", span, c.temperature(x.Temperature),
			units.FormatNumber(x.PeakHours), c.temperature(x.Peak), where)
	case process.Lethality:
		return fmt.Sprintf("time-temperature equation from %s, %s", c.temperature(x.Temperature), where)
	}
	return fmt.Sprintf("%s in a row at %s or more, %s", span, c.temperature(x.Temperature), where)
}

func (c cycleText) verdict(x cycleplan.Criterion) string {
	if !x.Met.OK {
		return fmt.Sprintf("not met; the longest time in a row at %s or more is %s.", c.temperature(x.Temperature), c.days1(x.Longest))
	}
	text := fmt.Sprintf("met after %s (hour %.0f)", c.days1(x.Met.Hours), x.Met.Hours)
	if x.OnPad {
		return text + ", on the pad."
	}
	return text + "."
}

// finding puts a diagnosis into plain words.
func (c cycleText) finding(f process.Finding) string {
	pc := func(v float64) string { return c.with(v, share, 0) }
	var text string
	switch f.Cause {
	case process.AirSpaceBelowMinimum:
		text = fmt.Sprintf("too little free air space, %s where %s is needed; more or coarser chips", pc(f.Value), pc(f.Limit))
	case process.OxygenLimited:
		text = fmt.Sprintf("too little oxygen, %.0f %% with the blower at full flow where %.0f %% is needed; a larger blower share", f.Value, f.Limit)
	case process.TooWet:
		text = fmt.Sprintf("too wet, %s moisture where at most %s works well; drier cake or chips, or more chips", pc(f.Value), pc(f.Limit))
	case process.TooDry:
		text = fmt.Sprintf("too dry, %s moisture where at least %s works well; fewer chips or added water", pc(f.Value), pc(f.Limit))
	case process.TooLittleDegradable:
		per := quantity{units.EnergyPerMass, 1}
		text = fmt.Sprintf("too little that degrades, %s of heat for the water in it where %s is needed; more cake, drier cake, or livelier amendments", c.show(f.Value, per), c.show(f.Limit, per))
	case process.HeatLost:
		text = fmt.Sprintf("too much heat lost through walls and as warm dry air, %s of it where at most %s is usual; insulation, or less air while it heats up", pc(f.Value), pc(f.Limit))
	}
	warmer := c.with(f.Gain, quantity{units.TemperatureDifference, 1}, 0)
	if f.Gain <= 0 {
		return text + " (put right alone, it would make the load no warmer)."
	}
	return text + fmt.Sprintf(" (put right alone: %s warmer at the peak).", warmer)
}
