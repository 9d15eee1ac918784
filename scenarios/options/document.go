package options

import (
	"fmt"
	"strings"

	doc "loamcast/scenarios/document"
)

// Document tells the comparison: what to choose, the choices in the order of
// their rank, what each costs under the growth scenarios, and how they were
// compared.
func (a *Answer) Document() *doc.Document {
	d := doc.New(Question.Name, a.Basis, a.Headline())
	doubts := a.Doubts()
	if open := a.OpenYears(); !open.Empty() {
		doubts = append(doubts, open)
	}
	d.Add(doc.Facts{
		{Name: "doubts", Value: doubts},
		{Name: "chance_first_is_cheapest_of_its_kind", Quantity: doc.Share, Value: a.Chance},
		{Name: "settled", Value: a.Settled},
		{Name: "missing_price", Quantity: doc.MoneyPerDry, Value: a.price()},
		{Name: "regret_over", Value: a.regretOver()},
		{Name: "no_regret_under", Value: a.Unkept()},
		{Name: "procedure", Value: "same replications for all choices, fewer of them for options that surely miss the target where another surely keeps it; rounds until Bonferroni's bound from paired t reaches 95 %, or 99 % in the first if it tells the difference of the headline to a tenth, then of choices judged by their runs, each replication under one growth scenario, until the target is not in doubt"},
		{Name: "replications_allowed", Value: a.Most},
		{Name: "runs", Value: a.Runs},
		{Name: "years", Value: a.years()},
		{Name: "prices_of", Value: a.Stated},
		{Name: "real_discount", Quantity: doc.AnnualRate, Value: a.Real},
	})
	for _, doubt := range doubts {
		d.Para("%s", doubt)
	}
	d.Para("%s: %s from %s; %s, %s, seed %d. Costs: present worth, %s, %s above inflation; ±: half a 95"+doc.NoBreak+"%% interval.",
		doc.Name(a.Facility, 40), doc.Counted(a.Horizon, "year"), a.Start, doc.Counted(a.Replications, "replication"),
		doc.Counted(len(a.Scenarios), "growth scenario"), a.Seed, doc.MoneyOf(a.Stated), doc.With(a.Real, doc.AnnualRate, 1))
	if a.Invented {
		d.Para(doc.Invented)
	}
	d.Add(a.ranking())
	if len(a.Scenarios) > 1 {
		d.Add(a.byScenario())
		for _, about := range a.aboutRegret() {
			d.Para("%s", about)
		}
	}
	d.Add(a.choices(), a.missing(), doc.Gap{})
	if found := a.Found(); !found.Empty() {
		d.Para("%s%s", found, a.surenessOfFound())
	}
	if brings := a.brings(); len(brings) > 0 {
		d.Para("Vessels by class: %s.", strings.Join(brings, "; "))
	}
	if signs := a.signs(); len(signs) > 0 {
		d.Para("Steps that wait for a sign are taken: %s.", doc.Join("; ", signs...))
	}
	d.Para("%s", a.judged())
	d.Para("Service target: %v. What keeps it is first, then what misses it in the fewest years or one more; each by cost with %s.", a.Target, a.hauled())
	d.Para("Costs are of the same %d replications, of at most %d, of all (common random numbers)%s: rounds until the first is cheapest with 95"+doc.NoBreak+"%% chance, 99"+doc.NoBreak+"%% after one (Bonferroni, paired t; Chen et al. 2000).",
		a.Replications, a.Most, a.fewer())
	d.Para("! It compares the options and prices that the file gives; bids, financing and rates are not in it.")
	d.Figures = a.figures()
	d.Money = a.reckoning
	return d
}

// Found says what the best of the catalogue is, if the file has one that builds anything.
func (a *Answer) Found() doc.Text {
	for _, c := range a.Choices {
		if c.Found {
			return doc.Say("The best of the catalogue is what `expand` finds: %s.", c.Words)
		}
	}
	return doc.Text{}
}

// surenessOfFound says what `expand` tells that the best of the catalogue costs, and how far
// off it is by these runs, which are of all choices and fewer.
func (a *Answer) surenessOfFound() doc.Text {
	for i := range a.Choices {
		if c := &a.Choices[i]; c.Found {
			in := c.All.Present
			return doc.Say(" What it costs is told there as %s, the mean of %d runs of this plan alone. By these runs, of all choices, it is %s (95"+doc.NoBreak+"%% interval).",
				doc.AmountOf(c.Told), c.ToldRuns, doc.AmountRange(in.Low, in.High, in.Estimate))
		}
	}
	return doc.Text{}
}

// judged says by what choices were held against the target.
func (a *Answer) judged() doc.Text {
	var runs []string
	for _, c := range a.Ranking() {
		if c.Service.ByRuns {
			runs = append(runs, fmt.Sprintf("%s (%s)", c.name(), a.many(c.Choice)))
		}
	}
	switch len(runs) {
	case 0:
		return doc.Words("Whether a choice keeps the target follows from what the plant carries with its steps, as in `when` (ranges: 90" + doc.NoBreak + "%).")
	case len(a.Choices):
		return doc.Words("Whether a choice keeps the target is judged by the runs (ranges: 95" + doc.NoBreak + "%).")
	}
	return doc.Say("Whether a choice keeps the target follows from what the plant carries with its steps, as in `when` (ranges: 90"+doc.NoBreak+"%%); for %s from the runs (95"+doc.NoBreak+"%%).", doc.Listed(runs))
}

// many says how many replications tell how often a choice misses.
func (a *Answer) many(c *Choice) string {
	text := doc.Counted(c.Replications, "replication")
	if more := c.Judged - c.Replications; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
		if len(a.Scenarios) > 1 {
			text += " of one growth each"
		}
	}
	return text
}

// fewer says what has fewer replications, and how many.
func (a *Answer) fewer() string {
	for i := range a.Choices {
		if n := a.Choices[i].Replications; n < a.Replications {
			return fmt.Sprintf(", and of %d of them for options that surely miss the target", n)
		}
	}
	return ""
}

// hauled names what what is not treated costs.
func (a *Answer) hauled() string {
	what := []string{"tipping"}
	if a.Contracts {
		what = append(what, "hauling by contract")
	}
	if a.Missing > 0 {
		what = append(what, "missing")
	}
	return doc.Listed(what)
}

// price is that of missing the target; nil where it has none.
func (a *Answer) price() any {
	if a.Missing > 0 {
		return a.Missing
	}
	return nil
}

// years labels the years of the horizon.
func (a *Answer) years() []string {
	labels := make([]string, a.Horizon)
	for y := range labels {
		labels[y] = a.Label(y)
	}
	return labels
}

// brings says of which class the vessels of each choice are, where there are several.
func (a *Answer) brings() []string {
	var parts []string
	for _, c := range a.Ranking() {
		var steps []string
		for _, s := range c.Steps {
			if s.Brings != "" {
				steps = append(steps, doc.Printable(s.Brings))
			}
		}
		if len(steps) > 0 {
			parts = append(parts, c.name()+" "+doc.Listed(steps))
		}
	}
	return parts
}

// signs say how often the steps that wait for a sign were taken.
func (a *Answer) signs() []doc.Text {
	var parts []doc.Text
	for _, c := range a.Ranking() {
		for _, s := range c.Steps {
			switch name := doc.Printable(s.Name); {
			case !s.Triggered:
			case s.Taken == 0:
				parts = append(parts, doc.Say("“%s” in no run", name))
			default:
				parts = append(parts, doc.Say("“%s” in %s of the runs, in service by %s in half of these", name, doc.WholePercent(s.Taken), doc.Month(s.InService)))
			}
		}
	}
	return parts
}
