package options

import (
	"fmt"
	"slices"

	"loamcast/scenarios/costs"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/money"
	"loamcast/sim/stats"
)

// leastShown is how many choices are shown however long the text gets.
const leastShown = 3

// ranked makes a table of choices for the screen. Where there are too many, the
// last are left to the files, but never the plant as it is.
func (a *Answer) ranked(t doc.Table, heads []string, cols ...doc.Col[Ranked]) doc.Table {
	const longest, shortest = 34, 12 // between which names are cut, beside the rank
	name := doc.Left(heads, func(c *Ranked) any { return fmt.Sprintf("%d %s", c.Rank, doc.Name(c.Name, longest)) })
	name.Shrink = shortest + len("1 ")
	t.In, t.Least = doc.Screen, leastShown
	list := a.Ranking()
	t = doc.TableOf(t, list, append([]doc.Col[Ranked]{name}, cols...)...)
	for i := range list {
		if !list[i].AsIs {
			t.Rows[i].Rank = i
		}
	}
	return t
}

// thousands is a column of amounts in thousands.
func thousands(group string, heads []string, of func(*Ranked) float64) doc.Col[Ranked] {
	return doc.Txt(group, heads, doc.Count, func(c *Ranked) any { return doc.Thousands(of(c)) })
}

// ranking is the table of the choices over all growth scenarios.
func (a *Answer) ranking() doc.Table {
	const thousand, target = "thousand {currency}", "service target"
	words := func(group string, heads []string, of func(*Ranked) doc.Text) doc.Col[Ranked] {
		return doc.Txt(group, heads, doc.Count, func(c *Ranked) any { return of(c) })
	}
	cols := []doc.Col[Ranked]{
		thousands(thousand, []string{"present", "worth"}, func(c *Ranked) float64 { return c.All.Present.Estimate }),
		words(thousand, []string{"over the", "first"}, func(c *Ranked) doc.Text { return plusMinus(c.All.OverFirst) }),
		thousands(thousand, []string{"each", "year"}, func(c *Ranked) float64 { return c.All.Annual }),
		doc.Txt("{currency} per dry", []string{"{unit}", "of feed"}, doc.Mass, func(c *Ranked) any { return doc.Fixed(c.All.PerDry, doc.MoneyPerDry, 0) }),
		doc.Num("", []string{"diverted", "%"}, doc.Share, 1, func(c *Ranked) float64 { return c.All.Share }),
		words(target, []string{"missed", "from"}, func(c *Ranked) doc.Text { return a.missedFrom(c.Choice) }),
		words(target, []string{"runs, in", "worst year"}, func(c *Ranked) doc.Text { return doc.Words(doc.WholePercent(c.Service.Share.Estimate)) }),
	}
	if a.Contracts {
		const diverted = 4
		cols = slices.Insert(cols, diverted+1, doc.Num("", []string{"contract", "%"}, doc.Share, 1, func(c *Ranked) float64 { return c.All.ContractShare }))
	}
	if a.Missing > 0 {
		of := thousands(thousand, []string{"for", "missing"}, func(c *Ranked) float64 { return c.All.ByPart[money.Missing] })
		cols = slices.Insert(cols, 1, of)
	}
	if a.AirKept {
		cols = append(cols, doc.Txt("", []string{"h/year", "over air"}, doc.Count, func(c *Ranked) any {
			return fmt.Sprintf("%.0f", c.All.HoursOver/float64(a.Horizon))
		}))
	}
	title := "The choices in order of rank"
	if len(a.Scenarios) > 1 {
		title += ", all growth scenarios together"
	}
	if slices.ContainsFunc(a.Choices, func(c Choice) bool { return !c.Service.Sure || !c.Service.YearSure() }) {
		title += "; ?: uncertain"
	}
	return a.ranked(doc.Table{Title: doc.Words(title), More: "; %d more in options.csv"}, []string{"Choice", ""}, cols...)
}

// missedFrom says from when a choice misses the target, with a mark where that is
// uncertain.
func (a *Answer) missedFrom(c *Choice) doc.Text {
	text := a.MissedFrom(c)
	if text == "" {
		text = "never"
	}
	if !c.Service.Sure || !c.Service.YearSure() {
		text += " ?"
	}
	return doc.Words(text)
}

// leastHalfWidth is the least that tables in thousands say of a difference, USD.
const leastHalfWidth = 1e3

// plusMinus writes a difference with its half-width; the first has none to itself.
func plusMinus(d stats.Interval) doc.Text {
	if d.Estimate == 0 && d.HalfWidth() == 0 {
		return doc.Words("-")
	}
	// Nothing is as sure as ± 0.
	return doc.Say("%s ± %s", doc.Thousands(d.Estimate), doc.Thousands(max(d.HalfWidth(), leastHalfWidth)))
}

// mostScenarios is how many growth scenarios there is room for.
const mostScenarios = 4

// byScenario is the table of the choices by growth scenario, with their regret.
func (a *Answer) byScenario() doc.Table {
	var cols []doc.Col[Ranked]
	marked := false
	for g, growth := range a.Scenarios[:min(mostScenarios, len(a.Scenarios))] {
		group := doc.Name(growth.Name, 12) + ", " + doc.PlainSpaces(doc.WholePercent(growth.Weight))
		cols = append(cols,
			doc.Txt(group, []string{"cost"}, doc.Count, func(c *Ranked) any {
				if s := &c.Growths[g]; !s.Keeps && a.Missing > 0 {
					return doc.Say("%s*", doc.Thousands(s.Present.Estimate))
				}
				return doc.Thousands(c.Growths[g].Present.Estimate)
			}),
			doc.Txt(group, []string{"regret"}, doc.Count, func(c *Ranked) any { return c.Growths[g].Regretted.shown(c.Growths[g].Regret) }))
		marked = marked || a.Missing > 0 && slices.ContainsFunc(a.Choices, func(c Choice) bool { return !c.Growths[g].Keeps })
	}
	cols = append(cols,
		doc.Txt("regret", []string{"mean"}, doc.Count, func(c *Ranked) any { return c.Regretted.shown(c.Regret) }),
		doc.Txt("regret", []string{"worst"}, doc.Count, func(c *Ranked) any { return c.Regretted.shown(c.WorstRegret) }))
	regret := "the cheapest there that keeps the target"
	if a.Missing > 0 {
		regret = "the cheapest there, missing at its price"
	}
	if marked {
		regret += "; * misses"
	}
	title := doc.Say("By growth scenario, thousand %s (regret: over %s)", doc.MoneyOf(a.Stated), regret)
	return a.ranked(doc.Table{Title: title}, []string{"Choice"}, cols...)
}

// Columns of files.

// summaryColumns are those of a choice under one growth scenario or, not within
// one and so without regret, under all; with what contracts took, where there may be one.
func summaryColumns(within, contracts bool) []doc.Col[Summary] {
	val := func(name string, q doc.Quantity, of func(*Summary) float64) doc.Col[Summary] {
		return doc.Val(name, q, of)
	}
	cols := slices.Concat(
		interval("present_worth", "present worth of all costs less what is earned, money of the stated year", doc.Money, func(s *Summary) *stats.Interval { return &s.Present }),
		[]doc.Col[Summary]{
			val("present_worth_p10", doc.Money, func(s *Summary) float64 { return s.Low }).Means("one run in ten has a lower present worth"),
			val("present_worth_p90", doc.Money, func(s *Summary) float64 { return s.High }).Means("nine runs in ten have a lower present worth"),
		},
		interval("over_as_it_is", "present worth above that of the plant as it is, under the same luck", doc.Money, func(s *Summary) *stats.Interval { return &s.OverAsIs }),
		interval("over_first", "present worth above that of the first, under the same luck", doc.Money, func(s *Summary) *stats.Interval { return &s.OverFirst }),
		[]doc.Col[Summary]{
			val("equivalent_annual_cost", doc.MoneyAYear, func(s *Summary) float64 { return s.Annual }).Means("amount that, paid in each year alike, has the present worth of all costs"),
			val("cost_per_dry_solids", doc.MoneyPerDry, func(s *Summary) float64 { return s.PerDry }).Means("price on each dry mass that came in, the same in each year, that has the present worth of all costs", doc.Dry),
			val("diverted_dry", doc.Mass, func(s *Summary) float64 { return s.Diverted }).Means("solids hauled away untreated over the horizon", doc.Dry),
			val("diverted_share", doc.Share, func(s *Summary) float64 { return s.Share }).Means("part of the dry solids that came in which was hauled away untreated"),
			val("years_missing_target", doc.Count, func(s *Summary) float64 { return s.YearsMissed }).Means("years that miss the service target, mean of the runs"),
			val("years_missing_by_waiting_alone", doc.Count, func(s *Summary) float64 { return s.WaitedAlone }).Means("years that miss the service target because cake waits, and not by what leaves untreated, mean of the runs"),
			val("hours_over_air_limit", doc.Count, func(s *Summary) float64 { return s.HoursOver }).Means("hours in which vessels ask for more air than there is, over the horizon"),
		})
	if contracts {
		cols = append(cols,
			val("contract_dry", doc.Mass, func(s *Summary) float64 { return s.Contract }).Means("solids hauled away by contract over the horizon", doc.Dry),
			val("contract_share", doc.Share, func(s *Summary) float64 { return s.ContractShare }).Means("part of the dry solids that came in which was hauled away by contract"))
	}
	if within {
		cols = append(cols,
			doc.Any("regret_is", func(s *Summary) any { return s.Regretted.String() }).Means("what the regret is measured against, or why there is none"),
			regret("regret", func(s *Summary) any { return s.Regretted.filed(s.Regret) }).Means("what the choice costs more than the best one under this growth"))
	}
	return append(cols, costs.Columns(contracts, func(s *Summary) *money.Amounts { return &s.ByPart })...)
}

// regret is a column of regrets, where there are any.
func regret[T any](name string, of func(*T) any) doc.Col[T] {
	col := doc.Any(name, of)
	col.Quantity = doc.Money
	return col
}

// interval are the columns of an estimate with its interval of 95 %.
func interval[T any](name, means string, q doc.Quantity, of func(*T) *stats.Interval) []doc.Col[T] {
	return []doc.Col[T]{
		doc.Val(name, q, func(t *T) float64 { return of(t).Estimate }).Means(means),
		doc.Val(name+"_low95", q, func(t *T) float64 { return of(t).Low }).Means("low end of the interval of 95 % of: " + means),
		doc.Val(name+"_high95", q, func(t *T) float64 { return of(t).High }).Means("high end of the interval of 95 % of: " + means),
	}
}

// choices is the table of all choices in files.
func (a *Answer) choices() doc.Table {
	cols := slices.Concat([]doc.Col[Ranked]{
		doc.Key("rank", func(c *Ranked) any { return c.Rank }).Means("place of the choice: first what keeps the target, then by cost"),
		doc.Key("choice", func(c *Ranked) any { return c.Name }).Means("option of the file, the plant as it is, or the plan found"),
		doc.Any("as_it_is", func(c *Ranked) any { return c.AsIs }).Means("whether nothing is built"),
		doc.Any("standing", func(c *Ranked) any { return c.Standing.String() }).Means("whether the choice is among the best, for all that the runs can tell"),
		doc.Any("keeps_target", func(c *Ranked) any { return c.Service.Keeps }).Means("whether the choice keeps the service target in every year"),
		doc.Any("keeps_target_sure", func(c *Ranked) any { return c.Service.Sure }).Means("whether the runs settle at the certainty asked for that the choice keeps or misses the target"),
		doc.Any("misses_target_from", func(c *Ranked) any {
			if c.Service.Keeps {
				return nil
			}
			return a.MissedFrom(c.Choice)
		}).Means("first year in which it misses the target"),
		doc.Any("may_miss_target_from", func(c *Ranked) any { return a.yearOrNone(c.Service.MayMiss) }).Means("first year in which it is not sure to keep the target"),
		doc.Any("surely_misses_target_from", func(c *Ranked) any { return a.yearOrNone(c.Service.SurelyMissed) }).Means("first year in which it surely misses the target"),
		doc.Any("worst_year", func(c *Ranked) any { return a.Label(c.Service.Worst) }).Means("year in which most runs miss the target"),
	},
		[]doc.Col[Ranked]{
			doc.Val("runs_missing_in_worst_year", doc.Share, func(c *Ranked) float64 { return c.Service.Share.Estimate }).Means("part of the runs that miss the target in the worst year"),
			doc.Val("runs_missing_in_worst_year_low", doc.Share, func(c *Ranked) float64 { return c.Service.Share.Low }).Means("low end of the interval of the part of the runs that miss the target in the worst year"),
			doc.Val("runs_missing_in_worst_year_high", doc.Share, func(c *Ranked) float64 { return c.Service.Share.High }).Means("high end of the interval of the part of the runs that miss the target in the worst year"),
			doc.Val("low_to_high_sure", doc.Share, func(c *Ranked) float64 { return c.Service.Share.Level }).Means("how sure the interval of the part of the runs that miss the target in the worst year is"),
			doc.Any("judged_by_runs", func(c *Ranked) any { return c.Service.ByRuns }).Means("whether whole runs decide it, and not what the plant carries"),
			doc.Any("replications", func(c *Ranked) any { return c.Replications }).Means("runs under each growth that the costs of the row rest on"),
			doc.Any("replications_of_service", func(c *Ranked) any { return c.Judged }).Means("runs that tell how often the target is missed, where whole runs decide it"),
			doc.Any("regret_is", func(c *Ranked) any { return c.Regretted.String() }).Means("what the regret is measured against, or why there is none"),
			regret("regret_mean", func(c *Ranked) any { return c.Regretted.filed(c.Regret) }).Means("what the choice costs more than the best one of each growth, mean by weight"),
			regret("regret_worst", func(c *Ranked) any { return c.Regretted.filed(c.WorstRegret) }).Means("what the choice costs more than the best one, under the growth in which that is greatest"),
		},
		doc.Lift(func(c *Ranked) *Summary { return &c.All }, summaryColumns(false, a.Contracts)...))
	missing := doc.In("runs_missing_by_year", func(c *Ranked) any { return c.Service.Years })
	missing.Quantity = doc.Share
	cols = append(cols, missing,
		doc.In("steps", func(c *Ranked) any { return steps(c.Steps) }),
		doc.In("growth_scenarios", func(c *Ranked) any { return a.growths(c.Choice) }))
	return doc.TableOf(doc.Table{In: doc.Files, Name: "choices", File: "options"}, a.Ranking(), cols...)
}

// yearOrNone is a year's label, or nil if there is none.
func (a *Answer) yearOrNone(year int) any {
	if year < 0 {
		return nil
	}
	return a.Label(year)
}

// steps lists the steps of a choice in JSON.
func steps(list []Step) doc.Table {
	cols := []doc.Col[Step]{doc.Any("name", func(s *Step) any { return s.Name })}
	if slices.ContainsFunc(list, func(s Step) bool { return s.Brings != "" }) {
		cols = append(cols, doc.Any("brings", func(s *Step) any { return s.Brings }))
	}
	return doc.TableOf(doc.Table{}, list, append(cols,
		doc.Any("triggered", func(s *Step) any { return s.Triggered }),
		doc.Val("taken", doc.Share, func(s *Step) float64 { return s.Taken }),
		doc.Any("in_service_median", func(s *Step) any {
			if s.Taken == 0 {
				return nil
			}
			return s.InService
		}))...)
}

// inGrowth is a choice under a growth scenario.
type inGrowth struct {
	growth string
	*Summary
}

// growths is a choice under each growth scenario, in files.
func (a *Answer) growths(c *Choice) doc.Table {
	var rows []inGrowth
	for g := range c.Growths {
		rows = append(rows, inGrowth{a.Scenarios[g].Name, &c.Growths[g]})
	}
	cols := append([]doc.Col[inGrowth]{
		doc.Key("growth", func(r *inGrowth) any { return r.growth }).Means("growth scenario of the file"),
		doc.Any("keeps_target", func(r *inGrowth) any { return r.Keeps }).Means("whether the choice keeps the service target in every year"),
	}, doc.Lift(func(r *inGrowth) *Summary { return r.Summary }, summaryColumns(true, a.Contracts)...)...)
	return doc.TableOf(doc.Table{File: "options-growth"}, rows, cols...)
}

// missing has a row for each year, and in it the runs of each choice that miss the
// target.
func (a *Answer) missing() doc.Table {
	years := make([]int, a.Horizon)
	for y := range years {
		years[y] = y
	}
	cols := []doc.Col[int]{doc.Any("year", func(y *int) any { return a.Label(*y) }).Means("year of the horizon")}
	for _, c := range a.Ranking() {
		cols = append(cols, doc.Val("runs_missing_target_percent: "+c.Name, doc.Count, func(y *int) float64 { return 100 * c.Service.Years[*y] }).Means("runs that miss the service target in the year, in percent, with: "+c.Name))
	}
	return doc.TableOf(doc.Table{In: doc.Files, File: "options-years"}, years, cols...)
}
