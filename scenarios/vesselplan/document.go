package vesselplan

import (
	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
	"loamcast/sim/stats"
)

// Document tells when the next vessels must be ordered: the answer, the staircase
// of every growth scenario, how sure it is, and what the handbook's estimate says.
func (a *Answer) Document() *doc.Document {
	d := doc.New(Question.Name, a.Basis, a.headline())
	d.Fact("vessel_lead_time", doc.Count, doc.SpanRecord(a.Lead))
	d.Fact("verdict_wrong_at_most", doc.Share, a.WrongAtMost())
	d.Fact("years_simulated", doc.Count, a.Simulated)
	if others := a.Others(); !others.Empty() {
		d.Para("%s", others)
	}
	d.Para("%s", a.Sure())
	if a.Invented {
		d.Para("%s: %s", doc.Name(a.Facility, 40), doc.Invented)
	}
	d.Add(a.shown(), a.files())
	a.notes(d)
	d.Add(doc.Gap{})
	d.Para("! A plan, not a certificate or an order: quotations, the permitting authority and a licensed engineer decide what is bought and built.")
	d.Figures = append(d.Figures, a.figure())
	return d
}

// String writes the quarter, or that there is no time left.
func (d Due) String() string {
	if d.AtOnce {
		return "at once"
	}
	return doc.Quarter(d.Quarter)
}

// headline is the answer for the growth that is believed in most.
func (a *Answer) headline() doc.Text {
	g := a.Main()
	first := &g.Rows[0]
	vessels := doc.Counted(first.Vessels, "vessel")
	if a.Committed {
		vessels += " and those that the file adds"
	}
	one := first.Vessels == 1 && !a.Committed
	due, _ := a.Ordered(g, first)
	switch a.Advice(g) {
	case NoOrder:
		return doc.Say("%s %s the service target in every year through %s: no more need be ordered.",
			doc.Capital(vessels), verb(one, "keeps", "keep"), a.Label(a.Horizon-1))
	case NoHelp:
		last := &g.Rows[len(g.Rows)-1]
		return doc.Say("More vessels do not help: %s the service target is missed with %s as with %s. Beside vessels, solids wait most for %s.",
			a.from(first), vessels, doc.Counted(last.Vessels, "vessel"), answer.Lack(last.Limit))
	case OrderAtOnce:
		misses := verb(one, "misses", "miss")
		if !first.Sure() {
			misses = "may miss"
		}
		return doc.Say("Order more vessels at once: %s %s the service target %s, and an order takes %s.%s%s",
			vessels, misses, a.from(first), doc.SpanInWords(a.Lead), a.doubt(first), a.enough(g))
	}
	return doc.Say("Order more vessels by the end of %s, to be in use by %s: %s %s the service target through %s and no longer%s.%s%s",
		doc.QuarterInWords(due.Quarter), doc.Day(first.NeededBy), vessels, verb(one, "keeps", "keep"),
		a.Label(first.LastKept), a.unsure(first), a.doubt(first), a.enough(g))
}

func verb(one bool, singular, plural string) string {
	if one {
		return singular
	}
	return plural
}

func (a *Answer) from(r *Row) string {
	if r.LastKept < 0 {
		return "from the start"
	}
	return "from " + a.Label(r.LastKept+1)
}

func (a *Answer) unsure(r *Row) doc.Text {
	switch from, to := r.LastKept+1, r.FirstMissed-1; {
	case r.Sure():
		return doc.Text{}
	case from == to:
		return doc.Say(" for sure (%s is too near to the target to tell)", a.Label(from))
	default:
		return doc.Say(" for sure (%s to %s are too near to the target to tell)", a.Label(from), a.Label(to))
	}
}

// doubt says how far off the order may be.
func (a *Answer) doubt(r *Row) doc.Text {
	kind, from, to, known := a.Doubt(r)
	if !known {
		return doc.Text{}
	}
	sure := doc.With(r.Between.Level, doc.Share, 0)
	switch kind {
	case AnyTime:
		return doc.Say(" When it is due can hardly be told: at once, or not within the horizon.")
	case NotBefore:
		return doc.Say(" It is %s sure that no order is due before %s.", sure, from)
	case NotAfter:
		return doc.Say(" It is %s sure that the order is due by %s.", sure, to)
	case WithinSpan:
		return doc.Say(" It is %s sure that the order is due between %s and %s.", sure, from, to)
	}
	return doc.Say(" That is %s sure.", sure)
}

// enough says how many more keep the target to the end.
func (a *Answer) enough(g *Growth) doc.Text {
	r, reach := a.Enough(g)
	more, end := r.Vessels-g.Rows[0].Vessels, a.Label(a.Horizon-1)
	switch reach {
	case NotTheEnd:
		return doc.Say(" Even %d do not last through %s.", r.Vessels, end)
	case PerhapsTheEnd:
		return doc.Say(" With %d more it holds through %s, and what comes after is too near to the target to tell.", more, a.Label(r.LastKept))
	}
	return doc.Say(" With %d more it holds through %s.", more, end)
}

// Others says what is to be done under the other growth scenarios, in a line.
func (a *Answer) Others() doc.Text {
	main := a.Main()
	var parts []doc.Text
	for i := range a.Growths {
		if g := &a.Growths[i]; g != main {
			parts = append(parts, doc.Say("%q (%s): %s", doc.Printable(g.Name), doc.With(g.Weight, doc.Share, 0), a.brief(g)))
		}
	}
	if parts == nil {
		return doc.Text{}
	}
	return doc.Say("That is for the growth %q (%s). %s.", doc.Printable(main.Name), doc.With(main.Weight, doc.Share, 0), doc.Join("; ", parts...))
}

func (a *Answer) brief(g *Growth) string {
	switch a.Advice(g) {
	case NoOrder:
		return "no order within the horizon"
	case NoHelp:
		return "more vessels do not help"
	case OrderAtOnce:
		return "order at once"
	}
	due, _ := a.Ordered(g, &g.Rows[0])
	return "order by the end of " + doc.QuarterInWords(due.Quarter)
}

// Sure says how sure the first step is.
func (a *Answer) Sure() doc.Text {
	r := &a.Main().Rows[0]
	var parts []doc.Text
	for _, year := range []int{r.LastKept, r.LastKept + 1} {
		if y, ok := r.Of(year); ok {
			miss, of := "", ""
			if len(parts) == 0 {
				miss, of = " miss it", "95 % interval "
			}
			parts = append(parts, doc.Say("in %s %s of %d runs%s (%s%s)", a.Label(year),
				doc.With(y.Share.Estimate, doc.Share, 0), y.Trials, miss, of, interval(y.Share)))
		}
	}
	text := doc.Say("Service target: %v.", a.Target)
	if len(parts) > 0 {
		text = text.Then(" How sure: %s.", doc.Join(", ", parts...))
	}
	return text
}

func interval(i stats.Interval) doc.Text {
	return doc.Say("%s to %s", doc.Fixed(i.Low, doc.Share, 0), doc.With(i.High, doc.Share, 0))
}

// notes say why the handbook's estimate differs, what is short next, and how the
// answer was found.
func (a *Answer) notes(d *doc.Document) {
	g := a.Main()
	r := &g.Rows[0]
	text := doc.Say("-: not within the horizon. Between \"kept through\" and \"missed from\" the years are too near to the target to tell.")
	if a.leavesOut() {
		text = text.Then(" Not all rows are shown here; --out writes them.")
	}
	d.Para("%s", text)
	if r.CakePerLoad > 0 {
		why := ""
		if r.Lighter() {
			why = ", for recovered chips are heavier than fresh ones"
		}
		d.Para("The handbook's estimate (loads a day × days in a vessel, without queues or noise) reckons with %s of dry cake a load and %s in a vessel; simulated, it is %s%s, and %s with working hours. Day-to-day noise and the holding do the rest.",
			doc.Show(r.StaticCakePerLoad, doc.Mass), doc.DaysInWords(r.StaticStay), doc.Show(r.CakePerLoad, doc.Mass), why, doc.DaysInWords(r.Stay))
	}
	if least, known := g.NextLimit(); known {
		last := g.Rows[len(g.Rows)-1]
		d.Para("Next limit after vessels: %s, which can carry %s of dry solids; in %s the plant with %s brings %s.",
			least.Stage, doc.Show(least.CakeDry, doc.MassPerDay), a.Label(max(0, last.LastKept)), doc.Counted(last.Vessels, "vessel"), doc.Show(g.Fed, doc.MassPerDay))
	}
	d.Para("A year's verdict is wrong with a chance of at most %s where the true share of runs is %s or less, or %s or more. %s years were simulated to find it, where every year of every row at %d runs would be %s.",
		doc.With(a.WrongAtMost(), doc.Share, 0), doc.With(a.Test.Low, doc.Share, 0), doc.With(a.Test.High, doc.Share, 0),
		doc.Bare(float64(a.Simulated), doc.Count), a.Most, doc.Bare(float64(a.Whole), doc.Count))
}
