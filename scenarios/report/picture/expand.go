package picture

import (
	"fmt"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/expand"
	"loamcast/scenarios/simulate"
)

// Expand returns the pictures of phased plans: what comes when, and what each plan
// costs.
func Expand(a *expand.Answer) []Picture {
	when := &phases{a: a, title: phasesTitle(a), subtitle: expandSubtitle(a, "a bar: in service; the thin line before it: on order")}
	cost := &ladder{title: "What each plan costs over the horizon, and what that is made of",
		subtitle: expandSubtitle(a, fmt.Sprintf("present worth in million USD of %d", a.Stated)), unit: "million USD", key: costKey()}
	for i := range a.Plans {
		cost.rows = append(cost.rows, planRow(a, i))
	}
	return []Picture{
		{Name: "expand-when", Title: when.title, draw: when.draw},
		{Name: "expand-cost", Title: cost.title, draw: cost.draw},
	}
}

func phasesTitle(a *expand.Answer) string {
	if a.Keeps() {
		return "What to build when: the cheapest plans that keep the service target in every year"
	}
	return "What to build when: the plans that keep the service target longest, through " + a.Label(max(0, a.Through))
}

func expandSubtitle(a *expand.Answer, what string) string {
	text := name(&simulate.Answer{Basis: answer.Basis{Facility: a.Facility}}) + " · " + what + fmt.Sprintf(" · growth \"%s\", seed %d", printableName(a.Growth.Name), a.Seed)
	if a.Invented {
		text += " · invented data"
	}
	return text
}

// planRow stacks the parts of a plan's cost.
func planRow(a *expand.Answer, i int) ladderRow {
	p := &a.Plans[i]
	row := ladderRow{name: fmt.Sprintf("Plan %d", i+1), note: over(a, i)}
	left, right := 0.0, 0.0
	for _, g := range costGroups {
		v := 0.0
		for _, part := range g.parts {
			v += p.ByPart[part] / million
		}
		from := &right
		if v < 0 {
			from = &left
		}
		row.bars = append(row.bars, span{from: *from, to: *from + v, fill: g.fill})
		*from += v
	}
	row.dots = []dot{{at: p.Present.Estimate / million, low: p.Low / million, high: p.High / million, colour: black}}
	return row
}

// over says what a plan costs more than the first.
func over(a *expand.Answer, i int) string {
	if i == 0 {
		return fmt.Sprintf("%.2f million USD", a.Plans[0].Present.Estimate/million)
	}
	d := a.Plans[i].OverFirst
	return fmt.Sprintf("+%.0f (%.0f to %.0f) thousand USD", d.Estimate/1000, d.Low/1000, d.High/1000)
}
