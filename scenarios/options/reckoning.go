package options

import (
	"math"

	"loamcast/scenarios/costs"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
)

// reckoning is what the costs of the choices are made of, in means over the growth
// scenarios and the replications compared: what [comparison.summary] makes of present
// worths, made of their parts.
func (c *comparison) reckoning(a *Answer) *doc.Reckoning {
	first := a.Order[0]
	out := &doc.Reckoning{
		Start: c.file.Model.Start, Horizon: c.file.Model.Years, Rates: c.reference.Rates, Items: c.reference.Items,
		Decided: c.dated(first, true), Capital: c.capitalRise(),
	}
	for i := range c.file.Planning.Inputs {
		in, _ := facilityfile.InputNamed(c.file.Planning.Inputs[i].Key)
		rate := in.Key == "money.discount"
		if in.UsedBy != facilityfile.ForPlanning || rate && c.discount != nil { // which is given then, and not drawn
			continue
		}
		out.Drawn = append(out.Drawn, in.Name)
		out.DrawnRate = out.DrawnRate || rate
	}
	for _, i := range a.Order {
		out.Choices = append(out.Choices, c.reckoned(a, i, first))
	}
	return out
}

// capitalRise is how the cost of what is built rises, the same for all of it.
func (c *comparison) capitalRise() float64 {
	steps := append([]facilityfile.Step{}, c.file.Planning.Committed...)
	for _, cases := range c.cases {
		steps = append(steps, cases[0].Steps...)
	}
	for _, s := range steps {
		if s.Asset.Cost.Amount != 0 {
			return s.Asset.Cost.Escalation
		}
	}
	return c.reference.Rates.Escalation
}

// reckoned is what the cost of one choice is made of.
func (c *comparison) reckoned(a *Answer, choice, first int) doc.ReckonedChoice {
	ch := &a.Choices[choice]
	out := doc.ReckonedChoice{
		Name: ch.Name, Keeps: a.kept(ch), Steps: c.dated(choice, false),
		Present: ch.All.Present.Estimate, Annual: ch.All.Annual, ByPart: ch.All.ByPart,
	}
	for item := range c.reference.Items {
		row := make([]float64, c.file.Model.Years)
		for y := range row {
			row[y] = c.expected(choice, first, c.everywhere(), func(o *outcome) float64 { return o.account.Used[item][y] })
		}
		out.Used = append(out.Used, row)
	}
	for _, step := range c.cases[choice][0].Steps {
		if step.Trigger.Waits() {
			out.Waits = append(out.Waits, step.Name)
		}
	}
	for k, part := range doc.BuiltParts {
		out.Loose[k] = c.loose(choice, first, k, part)
	}
	return out
}

// dated returns the steps of a choice that have dates, or those of the file that cost
// something, with what they came to in the mean of its runs.
func (c *comparison) dated(choice int, decided bool) []doc.ReckonedStep {
	var out []doc.ReckonedStep
	for i, d := range c.runs[choice][0][0].account.Dated { // of the same steps in every run
		if d.Committed != decided || decided && d.Asset.Cost.Amount == 0 && d.Asset.Running.Amount == 0 {
			continue
		}
		s := doc.ReckonedStep{Name: d.Step.Name, Ordered: d.Step.Date, InService: d.Step.Lead.After(d.Step.Date), Asset: d.Asset}
		inFile := c.reference.InFile(&d)
		for k := range inFile {
			s.Times[k] = 1
			runs := mean(c.among(choice, c.everywhere(), func(o *outcome) float64 { return o.account.Dated[i].Worth[k] }))
			if !same(runs, inFile[k]) {
				s.Times[k] = runs / inFile[k]
			}
		}
		out = append(out, s)
	}
	return out
}

// loose is what is paid in a part for steps on dates of each run's own, by year: what the
// runs paid for all steps less those with dates. Where a choice has fewer replications than
// the first, what luck they had of it is in it, too, as in its present worth.
func (c *comparison) loose(choice, first, k int, part money.Part) []float64 {
	rise := c.reference.Rates.Escalation
	if part != money.Running {
		rise = c.capitalRise()
	}
	out := make([]float64, c.file.Model.Years)
	for y := range out {
		of := func(row func(*costs.Account) *doc.Built[[]float64]) func(*outcome) float64 {
			return func(o *outcome) float64 { return row(&o.account)[k][y] }
		}
		built := c.expected(choice, first, c.everywhere(), of(func(a *costs.Account) *doc.Built[[]float64] { return &a.Built }))
		decided := mean(c.among(first, c.everywhere(), of(func(a *costs.Account) *doc.Built[[]float64] { return &a.Decided })))
		chosen := mean(c.among(choice, c.everywhere(), of(func(a *costs.Account) *doc.Built[[]float64] { return &a.Chosen })))
		if rest := built - decided - chosen; !same(built, decided+chosen) {
			out[y] = c.reference.Paid(rest, y, rise)
		}
	}
	return out
}

// same reports whether two amounts differ by rounding alone.
func same(a, b float64) bool {
	return math.Abs(a-b) <= 1e-12*(math.Abs(a)+math.Abs(b))
}
