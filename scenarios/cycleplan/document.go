package cycleplan

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"loamcast/facility/process"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/units"
)

const hoursPerDay = 24

// Document tells the course of a load, or compares the loads of several months.
// It is a page to work by.
func (a *Answer) Document() *doc.Document {
	headline := a.headline()
	d := doc.New(Question.Name, a.Basis, headline)
	d.Sheet = true
	d.Fact("landmark", doc.Degrees, a.Landmark)
	if a.Class != "" {
		d.Fact("vessel_class", doc.Count, a.Class)
		d.Para("The vessel, and all that are counted here, are of one class of the file: %s.", doc.Name(a.Class, 30))
	}
	if len(a.Loads) == 1 {
		a.one(d, &a.Loads[0])
	} else {
		a.several(d)
	}
	d.Add(a.loads(), doc.Gap{})
	d.Para("! A plan, not a certificate: it checks simulated temperatures against the criteria that the file names. Monitoring, records and the permitting authority decide.")
	return d
}

// headline is the answer.
func (a *Answer) headline() doc.Text {
	if len(a.Loads) == 1 {
		return a.course(&a.Loads[0])
	}
	if failing := a.Failing(); len(failing) > 0 {
		return doc.Say("Loads of %s do not meet every criterion.", doc.Listed(failing))
	}
	slowest := a.Slowest()
	return doc.Say("Loads of every month meet every criterion; the slowest is %s, after %s, and it may leave after %s at %s moisture.",
		slowest.Month, inDays(slowest.Complied()), inDays(slowest.Stay), doc.With(slowest.MoistureOut, doc.Share, 0))
}

// withArticle is a month before a load of it: three months begin with a vowel.
func withArticle(m time.Month) string {
	switch m {
	case time.April, time.August, time.October:
		return "an " + m.String()
	}
	return "a " + m.String()
}

// course says when a load is hot, when it complies, when it may leave and how wet
// it is then.
func (a *Answer) course(l *Load) doc.Text {
	text := doc.Say("A%s load ", withArticle(l.Month)[1:])
	if l.Passes.OK {
		text = text.Then("passes %s after %s", degrees(a.Landmark), inDays(l.Passes.Hours))
	} else {
		text = text.Then("never reaches %s (at most %s)", degrees(a.Landmark), degrees(max(l.Vessel.PeakTemperature, l.Curing.PeakTemperature)))
	}
	var met, unmet []string
	for _, x := range l.Criteria {
		name := doc.Printable(x.Name)
		switch {
		case !x.Met.OK:
			unmet = append(unmet, name)
		case x.Kind == process.Aired: // met from the start, which is not worth a word
		case x.OnPad:
			met = append(met, fmt.Sprintf("%s on the pad at %s", name, inDays(x.Met.Hours)))
		default:
			met = append(met, fmt.Sprintf("%s at %s", name, inDays(x.Met.Hours)))
		}
	}
	if len(met) > 0 {
		text = text.Then(", meets %s", doc.Listed(met))
	}
	if len(unmet) > 0 {
		but := "but"
		if !l.Passes.OK && len(met) == 0 {
			but = "and"
		}
		return text.Then(", %s does not meet %s: it would be hauled away after the longest residence. The figures are for a release after %s.",
			but, doc.Listed(unmet), inDays(l.Stay))
	}
	if l.HeldFor != "" {
		return text.Then("; it may leave after %s, not the %s aimed at, for %s needs them, at %s moisture.",
			inDays(l.Stay), inDays(l.Aimed), doc.Printable(l.HeldFor), doc.With(l.MoistureOut, doc.Share, 0))
	}
	return text.Then("; it may leave after %s at %s moisture.", inDays(l.Stay), doc.With(l.MoistureOut, doc.Share, 0))
}

// inDays writes hours as days with one decimal, or none where it is zero.
func inDays(h float64) string { return doc.DaysInWords(h / hoursPerDay) }

func degrees(t float64) doc.Number { return doc.With(t, doc.Degrees, 0) }

// one tells the course of one load.
func (a *Answer) one(d *doc.Document, l *Load) {
	d.Para("The load: %s wet, %s, %.2f of chips to 1 of cake by volume (%s of them recovered), %s of dry cake; moisture %s, C:N %.0f, free air space %s.",
		doc.Show(l.Wet, doc.Mass), doc.Show(l.Volume, doc.Volume), l.ChipsToCake, doc.With(l.RecoveredShare, doc.Share, 0), doc.Show(l.CakeDry, doc.Mass),
		doc.With(l.Moisture, doc.Share, 0), l.CarbonToNitrogen, doc.With(l.FreeAirSpace, doc.Share, 0))
	d.Para("%s: begun in mid-%s, cured in the weather of %s. Recovered chips are those that such loads give back, month after month.",
		doc.Name(a.Facility, 40), l.Month, l.CuringMonth)
	if a.Invented {
		d.Para(doc.Invented)
	}
	l.swings(d)
	d.Add(l.dayByDay(), l.rows("cycle-days", l.Days), l.rows("cycle-samples", l.Samples), doc.Gap{})
	for _, x := range l.Criteria {
		d.Para("%s (%s): %s", doc.Printable(x.Name), requirement(x.Criterion), x.verdict())
	}
	if l.Carried {
		d.Para("%s", l.tipping())
	}
	d.Para("%s", l.stability())
	l.wet(d)
	l.causes(d)
	d.Add(l.totals(), doc.Gap{})
	l.site(d)
	d.Figures = a.courseFigures(l)
}

// several compares the loads of several months.
func (a *Answer) several(d *doc.Document) {
	first := &a.Loads[0]
	d.Para("%s: a full vessel at %.2f of chips to 1 of cake by volume, begun in the middle of each month. Air is per %s of dry matter loaded.",
		doc.Name(a.Facility, 40), first.ChipsToCake, doc.Unit{Quantity: doc.Mass})
	if a.Invented {
		d.Para(doc.Invented)
	}
	d.Add(a.months(), a.monthly())
	if marks := a.marks(); len(marks) > 0 {
		d.Para("%s", strings.Join(marks, " "))
	}
	d.Figures = []doc.Figure{a.monthsFigure()}
}

const (
	metOnPad = "p: met on the curing pad."
	swinging = "~: no load is like the one before it; see the month by itself."
	notMet   = "-: not met, and a run would haul the load away."
)

// marks explain those that the table of months uses.
func (a *Answer) marks() []string {
	var marks []string
	for i := range a.Loads {
		if !a.Loads[i].settles() && !slices.Contains(marks, swinging) {
			marks = append(marks, swinging)
		}
		for _, x := range a.Loads[i].Criteria {
			switch {
			case !x.Met.OK && !slices.Contains(marks, notMet):
				marks = append(marks, notMet)
			case x.OnPad && !slices.Contains(marks, metOnPad):
				marks = append(marks, metOnPad)
			}
		}
	}
	return marks
}

// causes say why a load does not comply.
func (l *Load) causes(d *doc.Document) {
	if l.Complies {
		return
	}
	if len(l.Findings) == 0 {
		d.Para("No single cause stands out: moisture, air space, oxygen and heat are within their limits. Look at the temperature program and the time in the vessel.")
	}
	for i, f := range l.Findings {
		lead := "Also: "
		if i == 0 {
			lead = "Most likely cause: "
		}
		d.Para("%s%s", lead, finding(f))
	}
}

// stability says what is left to degrade at the screen.
func (l *Load) stability() doc.Text {
	text := doc.Say("stability: %s of the readily degradable solids are left at the screen", doc.With(l.ReadilyLeft, doc.Share, 1))
	asked := doc.With(l.ReadilyAsked, doc.Share, 1)
	switch {
	case l.ReadilyAsked == 1:
		return text.Then("; the file asks for no limit.")
	case l.Stable:
		return text.Then("; the file asks for at most %s.", asked)
	}
	return text.Then(" after the longest curing time; the file asks for at most %s.", asked)
}

// requirement says what a criterion asks.
func requirement(x process.Criterion) doc.Text {
	span, where := inDays(x.Hours), "in the vessel"
	if x.Where == process.InVesselAndCuring {
		where = "in vessel and curing"
	}
	switch x.Kind {
	case process.MeanAbove:
		return doc.Say("%s above %s with a mean above %s, %s", span, degrees(x.Temperature), degrees(x.Mean), where)
	case process.HoldWithPeak:
		return doc.Say("%s at %s or more and within them %s h above %s, %s", span, degrees(x.Temperature),
			units.FormatNumber(x.PeakHours), degrees(x.Peak), where)
	case process.Aired:
		return doc.Say("air reaches %s of the load, %s", doc.With(x.Share, doc.Share, 0), where)
	case process.Lethality:
		return doc.Say("time-temperature equation from %s, %s", degrees(x.Temperature), where)
	}
	return doc.Say("%s in a row at %s or more, %s", span, degrees(x.Temperature), where)
}

// verdict says when a criterion is met, or how near it came.
func (x *Criterion) verdict() doc.Text {
	if x.Kind == process.Aired {
		met := "met; air reaches %s of it."
		if !x.Met.OK {
			met = "not met; air reaches %s of it, and the rest does not get hot by itself."
		}
		return doc.Say(met, doc.With(x.Reached, doc.Share, 0))
	}
	if !x.Met.OK {
		return doc.Say("not met; the longest time in a row at %s or more is %s.", degrees(x.Temperature), inDays(x.Longest))
	}
	text := doc.Say("met after %s (hour %.0f)", inDays(x.Met.Hours), x.Met.Hours)
	if x.OnPad {
		return text.Then(", on the pad.")
	}
	return text.Then(".")
}

// finding puts a diagnosis into plain words.
func finding(f process.Finding) doc.Text {
	pc := func(v float64) doc.Number { return doc.With(v, doc.Share, 0) }
	var text doc.Text
	switch f.Cause {
	case process.AirSpaceBelowMinimum:
		text = doc.Say("too little free air space, %s where %s is needed; more or coarser chips", pc(f.Value), pc(f.Limit))
	case process.OxygenLimited:
		text = doc.Say("too little oxygen, %.0f %% with the blower at full flow where %.0f %% is needed; a larger blower share", f.Value, f.Limit)
	case process.TooWet:
		text = doc.Say("too wet, %s moisture where at most %s works well; drier cake or chips, or more chips", pc(f.Value), pc(f.Limit))
	case process.TooDry:
		text = doc.Say("too dry, %s moisture where at least %s works well; fewer chips or added water", pc(f.Value), pc(f.Limit))
	case process.TooLittleDegradable:
		per := doc.Quantity{Dim: units.EnergyPerMass, ToBase: 1}
		text = doc.Say("too little that degrades, %s of heat for the water in it where %s is needed; more cake, drier cake, or livelier amendments", doc.Show(f.Value, per), doc.Show(f.Limit, per))
	case process.AirDoesNotReach:
		text = doc.Say("air reaches %s of the load where %s is asked for; the rest is without oxygen. More or coarser chips, drier cake, or a vessel less deep", pc(f.Value), pc(f.Limit))
	case process.HeatLost:
		text = doc.Say("too much heat lost through walls and as warm dry air, %s of it where at most %s is usual; insulation, or less air while it heats up", pc(f.Value), pc(f.Limit))
	}
	if f.Gain <= 0 {
		return text.Then(" (put right alone, it would make the load no warmer).")
	}
	return text.Then(" (put right alone: %s warmer at the peak).", doc.With(f.Gain, doc.Quantity{Dim: units.TemperatureDifference, ToBase: 1}, 0))
}

// site tells the biofilter of all vessels, and how well the accounts close.
func (l *Load) site(d *doc.Document) {
	b := l.Biofilter
	d.Labelled("Biofilter", "for %s, all in use: %s on average, %s at most with loads begun at even intervals (%s if all peaked at once). "+
		"At %s and %s deep the bed needs %s and holds the air %.0f s, empty bed (loading and depth: common practice, from memory)",
		doc.Counted(b.Vessels, "vessel"), doc.Show(b.Mean, doc.AirFlow), doc.Show(b.Staggered, doc.AirFlow), doc.Show(b.AtOnce, doc.AirFlow),
		doc.Show(b.Loading, doc.BedLoading), doc.Show(b.Depth, doc.Length), doc.Show(b.Area, doc.Area), b.Residence)
	l.nitrogen(d)
	v, p := l.Vessel, l.Curing
	d.Labelled("Accounts", "heat closes to %s (vessel) and %s (pad) of the heat set free; mass to %s and %s of what went in (total, water, carbon, nitrogen)",
		doc.Tiny(v.EnergyResidual), doc.Tiny(p.EnergyResidual), doc.Tiny(v.MassResidual), doc.Tiny(p.MassResidual))
}
