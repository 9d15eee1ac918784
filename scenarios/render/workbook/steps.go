package workbook

import (
	"math"

	"loamcast/scenarios/document"
	"loamcast/scenarios/plaintext"
	"loamcast/scenarios/units"
)

// Columns of the sheet of steps.
const (
	stepChoice = iota + 1
	stepName
	stepOrdered
	stepLead
	stepInUse
	stepCost
	stepRise
	stepLife
	stepSalvage
	stepUpkeep
	stepRunning
	stepWorth  // the first of four, of the parts
	stepTimes  = stepWorth + len(document.BuiltParts)
	allChoices = "all choices"
)

// stepsTable writes the steps with dates: those of the file, which all choices take, and
// those of each choice.
func (r *reckoned) stepsTable() {
	s := r.steps
	s.widths(26, 26, 12, 11, 12, 13, 13, 8, 16, 14, 12, 15, 15, 15, 15, 13, 13, 13, 13)
	s.across("Yellow cells may be changed: the order, how long until the step is in use, its cost, life (empty: it does not wear), what it brings at the end of its life, upkeep and running. A step is bought again by its like when its life is over within the horizon; at the end of the horizon the rest of its worth counts. One in use before the first day is paid for already. Dates move payments alone.", look{kind: wrapped})
	s.row++
	head := s.row
	money := r.sys.Currency()
	heads := []string{"choice", "step", ">ordered", ">days until\nin use", ">in use", ">cost\n" + money, ">cost rises by\n%/year", ">life\nyears", ">brings at its end\n% of cost", ">upkeep\n% of cost/year", ">running\n" + money + "/year",
		">building\npresent worth", ">worth at the end\npresent worth", ">upkeep\npresent worth", ">running\npresent worth"}
	drawn := r.drawnCosts()
	if drawn {
		heads = append(heads, ">building:\nruns ÷ file", ">worth at end:\nruns ÷ file", ">upkeep:\nruns ÷ file", ">running:\nruns ÷ file")
	}
	s.heads(1, heads...)
	r.workedHeads()
	s.row++
	r.firstStep = s.row
	for i := range r.m.Decided {
		r.step(&r.m.Decided[i], -1, drawn)
	}
	for c := range r.m.Choices {
		for i := range r.m.Choices[c].Steps {
			r.step(&r.m.Choices[c].Steps[i], c, drawn)
		}
	}
	if s.row == head+1 {
		s.across("No step has a date.", look{kind: note})
	}
	s.freeze(stepOrdered, head+1)
}

// drawnCosts reports whether what steps came to in the runs differs from what the file's
// costs come to.
func (r *reckoned) drawnCosts() bool {
	lists := [][]document.ReckonedStep{r.m.Decided}
	for _, c := range r.m.Choices {
		lists = append(lists, c.Steps)
	}
	for _, steps := range lists {
		for _, s := range steps {
			for _, times := range s.Times {
				if times != 1 {
					return true
				}
			}
		}
	}
	return false
}

// step writes one step, of a choice or, below 0, of all.
func (r *reckoned) step(step *document.ReckonedStep, choice int, drawn bool) {
	s, a := r.steps, &step.Asset
	name := allChoices
	if choice >= 0 {
		name = r.m.Choices[choice].Name
	}
	amount := look{format: whole, kind: input}
	rate := look{format: percentFormat, kind: input}
	s.set(stepChoice, name, look{kind: cellWords})
	s.set(stepName, step.Name, look{kind: cellWords})
	s.set(stepOrdered, step.Ordered, look{format: dayFormat, kind: input})
	s.set(stepLead, step.Ordered.DaysUntil(step.InService), look{format: whole, kind: input})
	s.set(stepInUse, formula(at(stepOrdered, s.row)+"+"+at(stepLead, s.row)), look{format: dayFormat})
	s.set(stepCost, a.Cost.Amount, amount)
	s.set(stepRise, formula(r.capital), rate)
	if math.IsInf(a.Life, 1) {
		s.set(stepLife, nil, amount)
	} else {
		s.set(stepLife, a.Life, look{format: "0.##", kind: input})
	}
	s.set(stepSalvage, 100*a.SalvageShare, rate)
	s.set(stepUpkeep, 100*a.Maintenance, rate)
	s.set(stepRunning, a.Running.Amount, amount)
	w := working{r, 2 + s.row - r.firstStep, s.row}
	totals := w.work(step.Name, choice < 0)
	for k, part := range document.BuiltParts {
		f := totals[k]
		if drawn {
			f += "*" + at(stepTimes+k, s.row)
			s.set(stepTimes+k, step.Times[k], look{format: "0.000"})
		}
		s.set(stepWorth+k, formula(f), look{whole, result})
		for c := range r.m.Choices {
			if choice < 0 || c == choice {
				r.worth[part][c] = append(r.worth[part][c], stepsSheet+"!"+at(stepWorth+k, s.row))
			}
		}
	}
	s.row++
}

// unitOf is the unit of an item's quantity.
func (r *reckoned) unitOf(it *document.ReckonedItem) string {
	if it.Unit != "" && it.Unit != "h" && it.Unit != "kWh" {
		return it.Unit + "s"
	}
	if it.Unit != "" {
		return it.Unit
	}
	return it.Amount.Label(r.sys)
}

// converted are quantities in the book's units.
func converted(xs []float64, q document.Quantity, sys units.System) []float64 {
	out := make([]float64, len(xs))
	for i, x := range xs {
		out[i] = q.In(x, sys)
	}
	return out
}

func magnitudes(xs []float64) []float64 {
	out := make([]float64, len(xs))
	for i, x := range xs {
		out[i] = math.Abs(x)
	}
	return out
}

func printable(names []string) []string {
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = plaintext.XML(n)
	}
	return out
}
