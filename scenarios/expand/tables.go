package expand

import (
	"fmt"
	"slices"

	"loamcast/scenarios/capability"
	"loamcast/scenarios/costs"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/money"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// numbered is a plan with its number, from 1.
type numbered struct {
	n int
	*Plan
}

func (a *Answer) numbered() []numbered {
	list := make([]numbered, len(a.Plans))
	for i := range a.Plans {
		list[i] = numbered{i + 1, &a.Plans[i]}
	}
	return list
}

// leastPlans are shown however long the text gets: a choice is between two.
const leastPlans = 2

// costs is the table of the plans on the screen.
func (a *Answer) costs() doc.Table {
	worth, missed := fmt.Sprintf("present worth, thousand {currency} of %d", a.Stated), "worst year"
	text := func(group string, heads []string, of func(*numbered) any) doc.Col[numbered] {
		return doc.Txt(group, heads, doc.Count, of)
	}
	list := a.numbered()
	cols := []doc.Col[numbered]{
		text("", []string{"Plan", ""}, func(p *numbered) any { return p.n }),
		text(worth, []string{"all costs", "mean"}, func(p *numbered) any { return doc.Thousands(p.Present.Estimate) }),
		text(worth, []string{"P10–P90", "of runs"}, func(p *numbered) any { return doc.Say("%s–%s", doc.Thousands(p.Low), doc.Thousands(p.High)) }),
		text(worth, []string{"of it", "building"}, func(p *numbered) any { return doc.Thousands(p.Build()) }),
		text("more than plan 1", []string{"thousand", "{currency}"}, func(p *numbered) any {
			if p.n == 1 {
				return nil
			}
			return doc.Say("%s (%s–%s)", doc.Thousands(p.OverFirst.Estimate), doc.Thousands(p.OverFirst.Low), doc.Thousands(p.OverFirst.High))
		}),
		text(missed, []string{"how many", "(90 % sure)"}, func(p *numbered) any { return a.missingShort(p.Plan) }),
		text(missed, []string{"target", ""}, func(p *numbered) any { return p.judged("kept", "missed") }),
	}
	if a.Contracts {
		cols = append(cols, doc.Num("", []string{"contract", "%"}, doc.Share, 1, func(p *numbered) float64 { return p.ContractShare }))
	}
	t := doc.TableOf(doc.Table{In: doc.Screen, Least: leastPlans,
		Title: doc.Words("The cheapest plan of each set of steps, all of them needed"), More: "; %d more in expand.csv (--out)"}, list, cols...)
	for i := range list {
		t.Rows[i].Rank = max(0, i-leastPlans+1)
	}
	return t
}

// judged is the judgement on a plan: some word for kept or missed, or open.
func (p *Plan) judged(kept, missed string) string {
	switch p.Verdict {
	case stats.Below:
		return kept
	case stats.Above:
		return missed
	}
	return "open"
}

// plans is the table of the plans in files.
func (a *Answer) plans() doc.Table {
	val := func(name string, q doc.Quantity, of func(*Plan) float64) doc.Col[numbered] {
		return doc.Val(name, q, func(p *numbered) float64 { return of(p.Plan) })
	}
	cols := append([]doc.Col[numbered]{
		doc.Key("plan", func(p *numbered) any { return p.n }).Means("plan by its number, the cheapest that keeps the target first"),
		doc.Any("in_words", func(p *numbered) any { return p.InWords() }).Means("what it builds and when"),
		doc.In("steps", func(p *numbered) any { return stepTable(p.Steps) }),
		doc.Any("replications", func(p *numbered) any { return p.Replications }).Means("whole runs that the numbers of the row rest on"),
		doc.Any("target_kept", func(p *numbered) any { return p.judged("yes", "no") }).Means("whether the plan keeps the service target, or open"),
		doc.Any("worst_year", func(p *numbered) any { return a.Label(p.Worst) }).Means("year in which most runs miss the target"),
		doc.In("runs_missing_by_year", func(p *numbered) any { return p.Missed }),
		val("present_worth", doc.Money, func(p *Plan) float64 { return p.Present.Estimate }).Means("present worth of all costs less what is earned, money of the stated year"),
		val("present_worth_low95", doc.Money, func(p *Plan) float64 { return p.Present.Low }).Means("low end of the interval of 95 % of the present worth"),
		val("present_worth_high95", doc.Money, func(p *Plan) float64 { return p.Present.High }).Means("high end of the interval of 95 % of the present worth"),
		val("present_worth_p10", doc.Money, func(p *Plan) float64 { return p.Low }).Means("one run in ten has a lower present worth"),
		val("present_worth_p90", doc.Money, func(p *Plan) float64 { return p.High }).Means("nine runs in ten have a lower present worth"),
		val("over_first", doc.Money, func(p *Plan) float64 { return p.OverFirst.Estimate }).Means("present worth above that of plan 1, under the same luck"),
		val("over_first_low95", doc.Money, func(p *Plan) float64 { return p.OverFirst.Low }).Means("low end of the interval of 95 % of the present worth above that of plan 1"),
		val("over_first_high95", doc.Money, func(p *Plan) float64 { return p.OverFirst.High }).Means("high end of the interval of 95 % of the present worth above that of plan 1"),
		val("runs_missing_in_worst_year", doc.Share, func(p *Plan) float64 { return p.Share.Estimate }).Means("part of the runs that miss the target in the worst year"),
		val("runs_missing_in_worst_year_low", doc.Share, func(p *Plan) float64 { return p.Share.Low }).Means("low end of the interval of the part of the runs that miss the target in the worst year"),
		val("runs_missing_in_worst_year_high", doc.Share, func(p *Plan) float64 { return p.Share.High }).Means("high end of the interval of the part of the runs that miss the target in the worst year"),
	}, a.byContract()...)
	cols = append(cols, costs.Columns(a.Contracts, func(p *numbered) *money.Amounts { return &p.ByPart })...)
	return doc.TableOf(doc.Table{In: doc.Files, Name: "plans", File: "expand"}, a.numbered(), cols...)
}

// byContract are the columns of what is hauled by contract, where it may be.
func (a *Answer) byContract() []doc.Col[numbered] {
	if !a.Contracts {
		return nil
	}
	return []doc.Col[numbered]{
		doc.Val("contract_dry", doc.Mass, func(p *numbered) float64 { return p.Contract }).Means("solids hauled away by contract over the horizon", doc.Dry),
		doc.Val("contract_share", doc.Share, func(p *numbered) float64 { return p.ContractShare }).Means("part of the dry solids that came in which was hauled away by contract"),
	}
}

// stepTable has a row for each step of a plan.
func stepTable(steps []Step) doc.Table {
	cols := []doc.Col[Step]{doc.Any("step", func(s *Step) any { return s.Name }).Means("step of the plan, by its name in the catalogue")}
	if slices.ContainsFunc(steps, func(s Step) bool { return s.Brings != "" }) {
		cols = append(cols, doc.Any("brings", func(s *Step) any { return s.Brings }).Means("what the step brings"))
	}
	return doc.TableOf(doc.Table{File: "expand-steps"}, steps, append(cols,
		doc.Any("count", func(s *Step) any { return s.Count }).Means("how many of the step are built at once"),
		doc.Any("in_service", func(s *Step) any { return s.InService }).Means("day from which it can be used"),
		doc.Any("order_by", func(s *Step) any { return s.OrderBy }).Means("last day of order that is in time"),
		doc.Any("order_is_late", func(s *Step) any { return s.Late }).Means("whether the last day of order that is in time is past on the first day of the run"),
		doc.Any("no_decision_yet", func(s *Step) any { return s.Later }).Means("whether a decision can wait until more is known"))...)
}

// inYear is a year of a plan.
type inYear struct {
	numbered
	year int
}

// years has a row for each year of each plan.
func (a *Answer) years() doc.Table {
	var rows []inYear
	for _, p := range a.numbered() {
		for y := range p.Missed {
			rows = append(rows, inYear{p, y})
		}
	}
	cols := []doc.Col[inYear]{
		doc.Any("plan", func(r *inYear) any { return r.n }).Means("plan by its number, the cheapest that keeps the target first"),
		doc.Any("year", func(r *inYear) any { return a.Label(r.year) }).Means("year of the horizon"),
		doc.Any("whole_runs", func(r *inYear) any { return r.Replications }).Means("whole runs that the year was looked at in"),
		doc.Any("whole_runs_missing", func(r *inYear) any { return r.Missed[r.year] }).Means("whole runs that miss the target in the year, as a part of them"),
	}
	if a.ByRuns == "" {
		share := func(name, means string, of func(stats.Interval) float64) {
			cols = append(cols, doc.Val(name, doc.Share, func(r *inYear) float64 { return of(r.Shares[r.year]) }).Means(means))
		}
		share("runs_missing", "part of the runs that miss the target in the year, by what the plant carries", capability.Estimate)
		share("runs_missing_low90", "low end of the interval of 90 % of the part of the runs that miss the target in the year", capability.LowEnd)
		share("runs_missing_high90", "high end of the interval of 90 % of the part of the runs that miss the target in the year", capability.HighEnd)
	}
	return doc.TableOf(doc.Table{In: doc.Files, File: "expand-years"}, rows, cols...)
}

// signs has a row for each step of the first plan with its sign.
func (a *Answer) signs() doc.Table {
	return doc.TableOf(doc.Table{In: doc.Files, Name: "adaptive", File: "expand-signs"}, a.Adaptive.Steps,
		doc.Any("step", func(s *Signed) any { return s.Name }).Means("step of the plan, by its name in the catalogue"),
		doc.Any("count", func(s *Signed) any { return s.Count }).Means("how many of the step are built at once"),
		doc.Val("order_above_production", doc.MassPerDay, func(s *Signed) float64 { return s.Production }).Means("mean production of twelve months above which the step is ordered", doc.Dry),
		doc.Any("seen_from", func(s *Signed) any { return dayOrNone(s, s.From) }).Means("day on which the earliest runs see the sign for the order"),
		doc.Any("seen_to", func(s *Signed) any { return dayOrNone(s, s.To) }).Means("day on which the latest runs see the sign for the order"),
		doc.Val("never_seen", doc.Share, func(s *Signed) float64 { return s.Never }).Means("part of the runs that do not see the sign for the order within the horizon"))
}

// dayOrNone is a day of a step that has a sign.
func dayOrNone(s *Signed, day calendar.Date) any {
	if s.Production == 0 {
		return nil
	}
	return day
}
