package vesselplan

import (
	"fmt"
	"math"
	"strings"

	"loamcast/scenarios/capability"
	doc "loamcast/scenarios/document"
	"loamcast/sim/stats"
)

// Document tells when the next vessels must be ordered: the answer, what waiting
// means, what to watch, the staircase of every growth scenario, and how sure it is.
func (a *Answer) Document() *doc.Document {
	d := doc.New(Question.Name, a.Basis, a.headline())
	d.Fact("vessel_lead_time", doc.Count, doc.SpanRecord(a.Lead))
	d.Fact("verdict_wrong_at_most", doc.Share, a.Wrong)
	d.Fact("runs", doc.Count, a.Runs)
	d.Fact("years_simulated", doc.Count, a.Simulated)
	a.decision(d)
	if a.Look.Runs > 0 {
		d.Fact("quick_look", doc.Count, true)
		d.Labelled(a.lookedName(), "%s", a.lookText())
	}
	for _, p := range []doc.Paragraph{
		{Text: a.sign()}, {Text: a.batchText()}, {Text: a.inTurn()}, {Text: a.aboutClasses()}, {Text: a.ByContract()}, {Text: doc.Say("Service target: %v.", a.Target), Spare: 1}, {Text: a.Sure(), Rank: 2}, {Text: a.Others(), Rank: 2}, {Text: a.Whatever()},
	} {
		if !p.Text.Empty() {
			d.Add(p)
		}
	}
	if a.Invented {
		d.Para("%s: %s", doc.Name(a.Facility, 40), doc.Invented)
	}
	if shown := a.shownOrders(); len(shown.Rows) > 0 && !a.few() {
		d.Add(shown)
	}
	d.Add(a.shown(), a.orderFiles(), a.capabilityFiles(), a.files())
	if a.Next != nil {
		d.Add(a.classFiles())
	}
	if a.Contract != nil {
		d.Add(a.contractFiles())
	}
	a.notes(d)
	d.Add(doc.Gap{})
	d.Para("! A plan, not a certificate or an order: quotations, the permitting authority and a licensed engineer decide what is bought and built.")
	d.Figures = append(d.Figures, a.figure())
	if advice := a.Advice(&a.All); advice != NoOrder && advice != NoHelp && !a.few() {
		d.Figures = append(d.Figures, a.waiting())
	}
	return d
}

// String writes the quarter, or that there is no time left.
func (d Due) String() string {
	if d.AtOnce {
		return "at once"
	}
	return doc.Quarter(d.Quarter)
}

// headline is the order, over all growths by weight.
func (a *Answer) headline() doc.Text {
	first := &a.All.Rows[0]
	vessels := a.vessels(first)
	one := first.Vessels == 1 && !a.Committed
	due, _ := a.Ordered(&a.All, first)
	switch a.Advice(&a.All) {
	case NoOrder:
		return doc.Say("%s %s the service target in every year through %s: no more need be ordered.",
			doc.Capital(vessels), verb(one, "keeps", "keep"), a.Label(a.Horizon-1))
	case NoHelp:
		rows := a.Planned().Rows
		last := &rows[len(rows)-1]
		text := doc.Say("More vessels do not help: from %s the service target is missed with %s as with %s.",
			a.from(first), vessels, doc.Counted(last.Vessels, "vessel"))
		switch {
		case last.Limit.Failing:
			return text.Then(" Too many loads fail to comply: loamcast run says by what, loamcast cycle why.")
		case last.Limit.Room:
			return text.Then(" The holding has not enough room for cake over weekends and holidays and until a load has come together.")
		}
		return text.Then(" Beside vessels, solids wait most for %s.", last.Limit)
	case OrderAtOnce:
		return doc.Say("Order %s at once: the chance that %s %s the service target before more are in use, %s after the order, is %s even so.%s",
			a.howMany(), vessels, verb(one, "misses", "miss"), doc.SpanInWords(a.Lead), chance(a.Orders[0].Late.Estimate), a.doubt(first))
	}
	text := doc.Say("Order %s by the end of %s, to be in use by %s: the chance of missing the service target before then is %s.",
		a.howMany(), doc.QuarterInWords(due.Quarter), doc.Day(first.NeededBy), chance(a.Orders[a.Latest()].Late.Estimate))
	if later, ok := a.Waiting(); ok {
		text = text.Then(" Waiting until the end of %s: %s.", doc.QuarterInWords(later.Quarter), chance(later.Late.Estimate))
	}
	return text.Then("%s%s", a.doubt(first), a.ifExpected())
}

// vessels are those of a row.
func (a *Answer) vessels(r *Row) string {
	text := doc.Counted(r.Vessels, "vessel")
	if a.Committed {
		text += " and those that the file adds"
	}
	return text
}

func chance(share float64) string { return doc.ShareText(share) }

func verb(one bool, singular, plural string) string {
	if one {
		return singular
	}
	return plural
}

// howMany says how many vessels to order.
func (a *Answer) howMany() string {
	if a.Batch.Vessels == 0 {
		return "more vessels"
	}
	text := doc.Counted(a.Batch.Vessels, "vessel")
	if of := a.ordered(a.Batch.Vessels); of != "" {
		text += " (" + of + ")"
	}
	return text
}

// ifExpected says until when the order could wait if growth were as is believed in
// most.
func (a *Answer) ifExpected() doc.Text {
	g := a.Main()
	if len(a.Growths) == 1 {
		return doc.Text{}
	}
	if due, more := a.Ordered(g, &g.Rows[0]); more {
		return doc.Say(" If growth is “%s” (%s) it is due by the end of %s.", doc.Printable(g.Name), doc.With(g.Weight, doc.Share, 0), doc.QuarterInWords(due.Quarter))
	}
	return doc.Say(" If growth is “%s” (%s) none need be.", doc.Printable(g.Name), doc.With(g.Weight, doc.Share, 0))
}

func (a *Answer) from(r *Row) string { return a.Label(min(r.Short/quarters, a.Horizon-1)) }

// doubt says how far off the order may be.
func (a *Answer) doubt(r *Row) doc.Text {
	kind, from, to, known := a.Doubt(r)
	switch {
	case !known:
		return doc.Text{}
	case a.few():
		return doc.Say(" It rests on few runs and may be some years off.")
	}
	sure := doc.With(capability.Sureness, doc.Share, 0)
	switch kind {
	case AnyTime:
		return doc.Say(" When it is due can hardly be told: at once, or not within the horizon.")
	case NotBefore:
		return doc.Say(" It is %s sure that no order is due before %s.", sure, from)
	case NotAfter:
		return doc.Say(" It is %s sure that the order is due by %s.", sure, to)
	case WithinSpan:
		return doc.Say(" That is the early end: it is %s sure that the order is due between %s and %s.", sure, from, to)
	}
	return doc.Say(" It is %s sure that the order is due %s.", sure, atOnceOrIn(from))
}

// atOnceOrIn says when something is due within a sentence.
func atOnceOrIn(d Due) string {
	if d.AtOnce {
		return d.String()
	}
	return "in " + d.String()
}

// Others says what is to be done under each growth scenario, in a line.
func (a *Answer) Others() doc.Text {
	if len(a.Growths) == 1 {
		return doc.Text{}
	}
	var parts []doc.Text
	for i := range a.Growths {
		g := &a.Growths[i]
		parts = append(parts, doc.Say("“%s” (%s): %s", doc.Printable(g.Name), doc.With(g.Weight, doc.Share, 0), a.Brief(g)))
	}
	return doc.Say("That is for all growths by weight. If one of them were certain: %s.", doc.Join("; ", parts...))
}

// Brief says in a few words what is to be done if production grows in one way.
func (a *Answer) Brief(g *Growth) string {
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

// sign says what to watch.
func (a *Answer) sign() doc.Text {
	s := a.Sign
	if s == nil {
		return doc.Text{}
	}
	under := ""
	if len(a.Growths) > 1 {
		under = ", under every growth"
	}
	text := doc.Say("What to watch each month: order %s, whatever the date, once the mean production of the last twelve months passes %s of dry solids (%s today). That leaves the %s that vessels take%s: the chance of being late is then %s.",
		a.howMany(), doc.Show(s.Production, doc.MassPerDay), doc.Show(s.Now, doc.MassPerDay), doc.SpanInWords(a.Lead), under, chance(s.Late))
	between, never := fmt.Sprintf("between %d and %d", s.From.Year, s.To.Year), ""
	if !s.To.Before(a.Start.AddYears(a.Horizon)) {
		between = fmt.Sprintf("from %d on", s.From.Year)
		never = fmt.Sprintf("; in %s of futures it does not come within the horizon", chance(s.Never))
	}
	return text.Then(" Expected %s, with %s of the vessels in use in the fullest month and the holding up to %s full (%s dry)%s.",
		between, doc.With(s.InUse, doc.Share, 0), doc.With(s.Full, doc.Share, 0), doc.Show(s.Held, doc.Mass), never)
}

// batchText says why so many vessels are ordered at a time.
func (a *Answer) batchText() doc.Text {
	b := a.Batch
	if b.Vessels == 0 {
		return doc.Text{}
	}
	last := "they last to the end of the horizon"
	if b.Next < a.Horizon*quarters {
		last = "the next must be there by the end of " + doc.QuarterInWords(a.due(a.Start.AddMonths(b.Next*monthsPerQuarter)).Quarter)
	}
	switch {
	case b.Why == AllTold:
		return doc.Say("How many: even %d more run short before another order would be in use.", b.Vessels)
	case b.Why == ByWorth && b.Vessels > 1 && !math.IsNaN(b.OneByOne):
		return doc.Say("How many: with %d at a time %s; over the horizon that costs %s in present worth, one at a time %s.",
			b.Vessels, last, doc.AmountOf(b.Worth).Of(a.PricesOf), doc.AmountOf(b.OneByOne))
	case b.Why == ByWorth:
		return doc.Say("How many: with %d at a time %s, and no other number is cheaper over the horizon.", b.Vessels, last)
	}
	return doc.Say("How many: with %d at a time %s, after these are in use.", b.Vessels, last)
}

// inTurnAtMost is how many vessels are named with their quarters.
const inTurnAtMost = 6

// inTurn names the vessels one by one with the quarter by whose end each must be ordered,
// if those before it have come; nothing where one at most is due.
func (a *Answer) inTurn() doc.Text {
	if advice := a.Advice(&a.All); advice == NoOrder || advice == NoHelp {
		return doc.Text{}
	}
	var due []string
	for _, t := range a.turns() {
		class := ""
		if t.class != "" {
			class = ", " + className(t.class) + ","
		}
		due = append(due, fmt.Sprintf("vessel %d%s %s", t.vessel, class, byOrAtOnce(t.due)))
	}
	if len(due) < 2 {
		return doc.Text{}
	}
	more := ""
	if len(due) > inTurnAtMost {
		due, more = due[:inTurnAtMost], ", and so on"
	}
	beside := ""
	if a.Committed {
		beside = ", beside those that the file adds"
	}
	return doc.Say("One by one%s, to be ordered by the end of: %s%s.", beside, strings.Join(due, a.apart()), more)
}

// apart stands between vessels that are named, with commas of their own where a class is.
func (a *Answer) apart() string {
	if a.Next != nil {
		return "; "
	}
	return ", "
}

// turn is a vessel and when it must be ordered.
type turn struct {
	vessel int
	class  string // where there are several
	due    Due
}

// turns are the orders of one vessel after the other, over all growths by weight, as long
// as it is known when each is due.
func (a *Answer) turns() []turn {
	var out []turn
	for i := range a.All.Rows {
		r := &a.All.Rows[i]
		due, more := a.Ordered(&a.All, r)
		if !more || i > 0 && r.Vessels != a.All.Rows[i-1].Vessels+1 {
			break
		}
		out = append(out, turn{r.Vessels + 1, a.nextClass(r), due})
	}
	return out
}

func byOrAtOnce(d Due) string {
	if d.AtOnce {
		return "(at once)"
	}
	return d.String()
}

// Sure says what share of the runs misses the target about when vessels run short.
func (a *Answer) Sure() doc.Text {
	r := &a.All.Rows[0]
	if r.Shares == nil || !r.RunsShort(a.Horizon) {
		return doc.Text{}
	}
	var parts []doc.Text
	short := r.Short / quarters
	for year := max(0, short-1); year <= min(short+1, a.Horizon-1); year++ {
		parts = append(parts, doc.Say("%s in %s (%s)", chance(r.Shares[year].Estimate), a.Label(year), interval(r.Shares[year])))
	}
	return doc.Say("Share of runs that miss it with %s, with the range that is %s sure: %s.",
		a.vessels(r), doc.With(capability.Sureness, doc.Share, 0), doc.Join(", ", parts...))
}

// Whatever says what share of the years misses the target whatever comes in, where some do.
func (a *Answer) Whatever() doc.Text {
	if len(a.Capability) == 0 || a.Capability[0].Background.Estimate == 0 {
		return doc.Text{}
	}
	in := a.Capability[0].Background
	return doc.Say("However little comes in, %s of the years miss it with %s (%s, %s sure): that hangs on what is uncertain about the plant, which loamcast drivers ranks, and on its loads, see loamcast cycle.",
		chance(in.Estimate), a.vessels(&a.All.Rows[0]), interval(in), doc.With(capability.Sureness, doc.Share, 0))
}

func interval(i stats.Interval) doc.Text {
	return doc.Say("%s to %s", doc.BareShare(i.Low), doc.ShareText(i.High))
}

// notes say why the handbook's estimate differs, what is short next, and how the
// answer was found.
func (a *Answer) notes(d *doc.Document) {
	g := a.Main()
	r := &g.Rows[0]
	left := ""
	if a.leavesOut() {
		left = " More: when.csv."
	}
	d.Para("-: not within the horizon. Years between kept and missed are too near to the target to tell.%s", left)
	if r.CakePerLoad > 0 {
		why := ""
		if r.Lighter() {
			why = ", for recovered chips are heavier than fresh ones"
		}
		d.Add(doc.Paragraph{Rank: 1, Text: doc.Say("The handbook's estimate (loads a day × days in a vessel, without queues or noise) reckons with %s of dry %s a load and %s in a vessel; simulated, it is %s%s, and %s with working hours. Day-to-day noise and the holding do the rest.",
			doc.Show(r.StaticCakePerLoad, doc.Mass), a.Held(), doc.DaysInWords(r.StaticStay), doc.Show(r.CakePerLoad, doc.Mass), why, doc.DaysInWords(r.Stay))})
	}
	if least, known := g.NextLimit(); known {
		last := g.Rows[len(g.Rows)-1]
		d.Add(doc.Paragraph{Rank: 1, Text: doc.Say("Next limit after vessels: %s, which can carry %s of dry solids; in %s the plant with %s brings %s.",
			least.Stage, doc.Show(least.CakeDry, doc.MassPerDay), a.Label(max(0, last.LastKept)), a.vessels(&last), doc.Show(g.Fed, doc.MassPerDay)).Then("%s", tooMuch(least.CakeDry, g.Fed))})
	}
	a.method(d)
}

// tooMuch warns where another stage carries less than comes: sooner or later it
// fills, however many vessels there are.
func tooMuch(carries, comes float64) string {
	if carries >= comes {
		return ""
	}
	return ": more than that, so that it runs short whatever the vessels are"
}

// method says how the shares were found.
func (a *Answer) method(d *doc.Document) {
	d.Add(doc.Paragraph{Rank: 1, Text: doc.Say("A year counts as kept or missed where the chance that it is not is at most %s.", doc.With(a.Wrong, doc.Share, 0))})
	var text doc.Text
	if a.Calendar != "" {
		text = doc.Say("Years of the calendar were simulated, %s with warm-ups, because %s: %d runs of those about the first missed, and with more vessels as many as a verdict takes.",
			doc.Bare(float64(a.Simulated), doc.Count), a.Calendar, a.Runs)
	} else {
		text = doc.Say("What the plant carries was found by %d runs up a ramp of production, %s years with warm-ups and checks: a year's share of runs that miss depends on its production alone, and growth says when so much arrives. Uncertain inputs are drawn for each run.",
			a.Runs, doc.Bare(float64(a.Simulated), doc.Count))
	}
	if c := a.Check; c.Runs > 0 && c.Through >= 0 {
		text = text.Then(" %s from the start through %s check it: the worst of these years is missed by %d.", doc.Capital(doc.Counted(c.Runs, "whole run")), a.Label(c.Through), c.Missed)
	}
	d.Add(doc.Paragraph{Rank: 2, Text: text})
}
