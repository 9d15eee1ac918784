package expand

import (
	"fmt"
	"slices"

	"loamcast/scenarios/costs"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/money"
	"loamcast/sim/calendar"
)

// figures show what comes when, and what each plan costs.
func (a *Answer) figures() []doc.Figure {
	title := "What to build when: the cheapest plans that keep the service target in every year"
	if !a.Keeps() {
		title = "What to build when: the plans that keep the service target longest, through " + a.Label(max(0, a.Through))
	}
	about := func(shows doc.Text) doc.Text {
		growth := "all growths by weight"
		if a.Alone {
			growth = fmt.Sprintf("growth “%s” alone", doc.Name(a.Growth.Name, 60))
		}
		return doc.AboutText(&a.Basis, shows, doc.Say("%s, seed %d", growth, a.Seed))
	}
	when := &doc.Phases{From: a.quietYears()}
	for y := range a.Horizon {
		when.Years = append(when.Years, a.Label(y))
	}
	cost := &doc.Ladder{Quantity: doc.Millions, Unit: "million {currency}", Key: costs.Key(slices.ContainsFunc(a.Plans, func(p Plan) bool { return p.ByPart[money.Missing] > 0 }), a.Contracts)}
	var kinds []string // steps of the catalogue, as the plans meet them
	for _, p := range a.numbered() {
		name, note := fmt.Sprintf("Plan %d", p.n), p.over()
		phased := doc.PhasedPlan{Name: name, Note: note}
		for _, s := range p.Steps {
			if !slices.Contains(kinds, s.Name) {
				kinds = append(kinds, s.Name)
			}
			phased.Steps = append(phased.Steps, a.phase(&s, slices.Index(kinds, s.Name)))
		}
		when.Plans = append(when.Plans, phased)
		cost.Rows = append(cost.Rows, doc.Rung{Name: name, Note: note, Bars: costs.Bars(&p.ByPart),
			Dots: []doc.Dot{{At: p.Present.Estimate, Low: p.Low, High: p.High, Ink: doc.Black}}})
	}
	bars := doc.Words("a bar: in service; the thin line before it: on order")
	if when.From > 0 {
		bars = bars.Then("; nothing is ordered before %s", a.Label(when.From+1))
	}
	return []doc.Figure{
		{Name: "expand-when", Title: doc.Words(title), Subtitle: about(bars), Phases: when},
		{Name: "expand-cost", Title: a.costMessage(),
			Subtitle: about(doc.Say("present worth in million %s", doc.MoneyOf(a.Stated))), Ladder: cost},
	}
}

// quietYears are those at the beginning in which no plan orders anything, but for the last
// of them.
func (a *Answer) quietYears() int {
	years := a.Horizon
	for i := range a.Plans {
		for _, s := range a.Plans[i].Steps {
			years = min(years, int(a.Start.YearsUntil(s.OrderBy)))
		}
	}
	if years == a.Horizon {
		return 0 // nothing is built
	}
	return max(0, years-1)
}

// costMessage says what the first plan costs, as the title of a picture.
func (a *Answer) costMessage() doc.Text {
	keeps := "the plan that keeps the target longest"
	if a.Keeps() {
		keeps = "the cheapest plan that keeps the target"
	}
	first := &a.Plans[0]
	return doc.Say("%s costs %s million %s over %s, of which building is %s", doc.Capital(keeps),
		doc.Fixed(first.Present.Estimate, doc.Millions, 2), doc.Currency, doc.Counted(a.Horizon, "year"), doc.Fixed(first.Build(), doc.Millions, 2))
}

// phase draws a step.
func (a *Answer) phase(s *Step, kind int) doc.Phase {
	part := func(day calendar.Date) float64 {
		return float64(a.Start.DaysUntil(day)) / float64(a.Start.DaysUntil(a.Start.AddYears(a.Horizon)))
	}
	name := fmt.Sprintf("%s, %d", doc.Name(s.Name, 60), s.InService.Year)
	if s.Count > 1 {
		name = fmt.Sprintf("%d × %s", s.Count, name)
	}
	if s.Later {
		name += ", no decision yet"
	}
	return doc.Phase{Name: name, Kind: kind, Ordered: part(s.OrderBy), InService: part(s.InService)}
}

// over says what a plan costs more than the first.
func (p *numbered) over() doc.Text {
	if p.n == 1 {
		return doc.Say("%s million %s", doc.Fixed(p.Present.Estimate, doc.Millions, 2), doc.Currency)
	}
	d := p.OverFirst
	return doc.Say("+%s (%s)", doc.AmountOf(d.Estimate), doc.AmountRange(d.Low, d.High, d.Estimate))
}
