package chipplan

import (
	"time"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/costs"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/money"
	"loamcast/sim/stats"
)

// Amendments is what the amendments of the recipe take; it has none where the recipe
// has none.
type Amendments struct {
	Months []AmendmentMonth // amendment by amendment
	Years  []AmendmentYear  // the same
	Whole  []WholeBudget    // of chips and amendments together, by fiscal year; none without the price of chips
}

// AmendmentFlows are volumes of an amendment in a month or year, m3 as delivered.
type AmendmentFlows struct {
	Bought, Truckloads answer.Spread // on order
	Own                answer.Spread // of own sources
	Used               answer.Spread // mixed
	Missed             answer.Spread // that loads did without
	StorePeak          answer.Spread
	StoreEnd           answer.Spread
	HoursShort         answer.Spread // during which mixing waited for it
	Spend              answer.Spread // USD of the day, bought and of own sources
}

// AmendmentMonth is a month of one amendment.
type AmendmentMonth struct {
	Name string
	fiscal.Month
	AmendmentFlows
}

// AmendmentYear is a fiscal year of one amendment; see [Year].
type AmendmentYear struct {
	Name, Label string
	AmendmentFlows
	Budget  float64
	Passing stats.Interval
}

// WholeBudget is what chips and amendments cost together in a fiscal year: less than
// the sum of their budgets, since not all are dear in the same run.
type WholeBudget struct {
	Label   string
	Spend   answer.Spread
	Budget  float64
	Passing stats.Interval
}

// amendmentFacts are what a month of one replication did with an amendment.
type amendmentFacts struct {
	plant.MonthlyAmendment
	spend float64
}

// amendmentFacts takes them from a month, some years after the start of the file.
func (p *planner) amendmentFacts(m *fiscal.Goods, e *facilityfile.Economy, years float64) []amendmentFacts {
	if m.Amendments == nil {
		return nil
	}
	out := make([]amendmentFacts, len(m.Amendments))
	for i, a := range m.Amendments {
		spend := costs.Amendment(&a, e.Amendments[i])
		if p.price.Escalates {
			spend = e.Rates.Nominal(money.Flow{Amount: spend, At: years, Escalation: e.Rates.General(0).Escalation})
		}
		out[i] = amendmentFacts{a, spend}
	}
	return out
}

// amendments puts what they take into a plan.
func (p *planner) amendments(t fiscal.Tally[facts], into *Amendments) {
	amendments := p.study.File.Model.Amendments
	into.Months = make([]AmendmentMonth, len(amendments)*len(p.years.Months))
	into.Years = make([]AmendmentYear, len(amendments)*len(p.years.Labels))
	for i := range amendments {
		name := amendments[i].Material.Name
		of := func(get func(*amendmentFacts) float64) func(*facts) float64 {
			return func(f *facts) float64 { return get(&f.amendments[i]) }
		}
		for n, month := range p.years.Months {
			m := &into.Months[i*len(p.years.Months)+n]
			m.Name, m.Month = name, month
			amendmentFlows(t, &m.AmendmentFlows, of, fiscal.InMonth[facts](n))
		}
		for y, label := range p.years.Labels {
			year := &into.Years[i*len(p.years.Labels)+y]
			year.Name, year.Label = name, label
			spent := amendmentFlows(t, &year.AmendmentFlows, of, fiscal.InYear[facts](y))
			t.Last(func() { year.Budget, year.Passing = budget(year.Spend, spent) })
		}
	}
	if len(amendments) == 0 || !p.price.Known {
		return
	}
	into.Whole = make([]WholeBudget, len(p.years.Labels))
	for y, label := range p.years.Labels {
		whole := &into.Whole[y]
		whole.Label = label
		spent := t.Over(&whole.Spend, fiscal.InYear[facts](y)(allSpend, fiscal.Sum))
		t.Last(func() { whole.Budget, whole.Passing = budget(whole.Spend, spent) })
	}
}

func allSpend(f *facts) float64 {
	sum := f.spend
	for i := range f.amendments {
		sum += f.amendments[i].spend
	}
	return sum
}

// amendmentFlows puts those of a month or year into a plan, and returns what is kept of the
// spend.
func amendmentFlows(t fiscal.Tally[facts], into *AmendmentFlows, of func(func(*amendmentFacts) float64) func(*facts) float64, in fiscal.Time[facts]) *stats.Sample {
	over := func(into *answer.Spread, join fiscal.Join, get func(*amendmentFacts) float64) *stats.Sample {
		return t.Over(into, in(of(get), join))
	}
	over(&into.Bought, fiscal.Sum, func(a *amendmentFacts) float64 { return a.Bought })
	over(&into.Truckloads, fiscal.Sum, func(a *amendmentFacts) float64 { return a.Truckloads })
	over(&into.Own, fiscal.Sum, func(a *amendmentFacts) float64 { return a.Own })
	over(&into.Used, fiscal.Sum, func(a *amendmentFacts) float64 { return a.Used })
	over(&into.Missed, fiscal.Sum, func(a *amendmentFacts) float64 { return a.Missed })
	over(&into.StorePeak, fiscal.Most, func(a *amendmentFacts) float64 { return a.StorePeak })
	over(&into.StoreEnd, fiscal.End, func(a *amendmentFacts) float64 { return a.StoreEnd })
	over(&into.HoursShort, fiscal.Sum, func(a *amendmentFacts) float64 { return a.HoursShort })
	return over(&into.Spend, fiscal.Sum, func(a *amendmentFacts) float64 { return a.spend })
}

// columns of a month or year in files.
var amendmentColumns = []doc.Col[AmendmentFlows]{
	doc.Spr("bought", doc.Volume, func(f *AmendmentFlows) answer.Spread { return f.Bought }).Means("amendment delivered, loose"),
	doc.Spr("truckloads", doc.Count, func(f *AmendmentFlows) answer.Spread { return f.Truckloads }).Means("truckloads delivered"),
	doc.Spr("own", doc.Volume, func(f *AmendmentFlows) answer.Spread { return f.Own }).Means("amendment from the plant's own sources, loose"),
	doc.Spr("mixed", doc.Volume, func(f *AmendmentFlows) answer.Spread { return f.Used }).Means("amendment that went into the mixer, loose"),
	doc.Spr("done_without", doc.Volume, func(f *AmendmentFlows) answer.Spread { return f.Missed }).Means("amendment that loads went without because it was short, loose"),
	doc.Spr("store_peak", doc.Volume, func(f *AmendmentFlows) answer.Spread { return f.StorePeak }).Means("most in store at one time, loose"),
	doc.Spr("store_end", doc.Volume, func(f *AmendmentFlows) answer.Spread { return f.StoreEnd }).Means("in store at the end of the time, loose"),
	doc.Spr("mixing_waited_h", doc.Count, func(f *AmendmentFlows) answer.Spread { return f.HoursShort }).Means("hours for which mixing waited for the amendment"),
	doc.Spr("spend", doc.Money, func(f *AmendmentFlows) answer.Spread { return f.Spend }).Means("what is paid, money of the day"),
}

// tell adds the amendments to a document; word is what its years are called.
func (a *Amendments) tell(d *doc.Document, word string) {
	if len(a.Years) == 0 {
		return
	}
	d.Add(a.shown(word), a.files())
	months := []doc.Col[AmendmentMonth]{
		doc.Key("material", func(m *AmendmentMonth) any { return m.Name }).Means("amendment of the recipe"),
		doc.ByMonth(func(m *AmendmentMonth) (int, time.Month) { return m.Year, m.Month.Month }),
	}
	months = append(months, doc.Lift(func(m *AmendmentMonth) *AmendmentFlows { return &m.AmendmentFlows }, amendmentColumns...)...)
	d.Add(doc.TableOf(doc.Table{In: doc.Files, Name: "amendment_months", File: "amendment-months"}, a.Months, months...))
	if len(a.Whole) == 0 {
		return
	}
	first := &a.Whole[0]
	d.Labelled("With chips", "%s of chips and amendments together in the budget of %s, money of the day, passed with a chance of %s",
		doc.Show(first.Budget, doc.Money), first.Label, doc.ChanceInterval(first.Passing))
	d.Add(doc.TableOf(doc.Table{In: doc.Files, Name: "budget_of_all", File: "budget-of-all"}, a.Whole,
		doc.Key("fiscal_year", func(w *WholeBudget) any { return w.Label }).Means("year of the budget"),
		doc.Spr("spend", doc.Money, func(w *WholeBudget) answer.Spread { return w.Spend }).Means("what is paid, money of the day"),
		doc.Val("budget", doc.Money, func(w *WholeBudget) float64 { return w.Budget }).Means("budget that the asked part of the runs keeps, money of the day"),
		doc.Est("budget_passed_chance", doc.Share, func(w *WholeBudget) stats.Interval { return w.Passing }).Means("chance that the budget is passed")))
}

// shown is what the screen shows of them by year.
func (a *Amendments) shown(word string) doc.Table {
	volume := func(heads []string, of func(*AmendmentYear) float64) doc.Col[AmendmentYear] {
		return doc.Num("", heads, doc.Volume, 0, of)
	}
	dollars := func(heads []string, of func(*AmendmentYear) float64) doc.Col[AmendmentYear] {
		return doc.Num("", heads, doc.Money, 0, of)
	}
	table := doc.TableOf(doc.Table{In: doc.Screen, More: "; %d more in amendment-years.csv (--out)",
		Title: doc.Say("Amendments by %s, means but where it says otherwise; money of the day", word)}, a.Years,
		doc.Left([]string{"Amendment", ""}, func(y *AmendmentYear) any { return doc.Name(y.Name, 20) }),
		doc.Left([]string{"Year", ""}, func(y *AmendmentYear) any { return y.Label }),
		volume([]string{"bought", "{unit}"}, func(y *AmendmentYear) float64 { return y.Bought.Mean }),
		volume([]string{"own", "{unit}"}, func(y *AmendmentYear) float64 { return y.Own.Mean }),
		volume([]string{"mixed", "{unit}"}, func(y *AmendmentYear) float64 { return y.Used.Mean }),
		volume([]string{"without", "{unit}"}, func(y *AmendmentYear) float64 { return y.Missed.Mean }),
		doc.Num("", []string{"waited", "h"}, doc.Count, 0, func(y *AmendmentYear) float64 { return y.HoursShort.Mean }),
		dollars([]string{"spend", "P50"}, func(y *AmendmentYear) float64 { return y.Spend.P50 }),
		dollars([]string{"budget", "{unit}"}, func(y *AmendmentYear) float64 { return y.Budget }))
	for i := range a.Years { // later years make room
		if a.Years[i].Label != a.Years[0].Label {
			table.Rows[i].Rank = 2
		}
	}
	return table
}

// files is the table of fiscal years in files.
func (a *Amendments) files() doc.Table {
	cols := []doc.Col[AmendmentYear]{
		doc.Key("material", func(y *AmendmentYear) any { return y.Name }).Means("amendment of the recipe"),
		doc.Key("fiscal_year", func(y *AmendmentYear) any { return y.Label }).Means("year of the budget"),
	}
	cols = append(cols, doc.Lift(func(y *AmendmentYear) *AmendmentFlows { return &y.AmendmentFlows }, amendmentColumns...)...)
	cols = append(cols, doc.Val("budget", doc.Money, func(y *AmendmentYear) float64 { return y.Budget }).Means("budget that the asked part of the runs keeps, money of the day"),
		doc.Est("budget_passed_chance", doc.Share, func(y *AmendmentYear) stats.Interval { return y.Passing }).Means("chance that the budget is passed"))
	return doc.TableOf(doc.Table{In: doc.Files, Name: "amendment_years", File: "amendment-years"}, a.Years, cols...)
}
