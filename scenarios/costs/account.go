package costs

import (
	"loamcast/facility/plant"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
)

// Account is what one run costs, taken apart so that it can be reckoned again with other
// prices. Amounts are in USD; paid is positive.
type Account struct {
	// Used is by item of [Reference.Items] and year: the quantity that at the reference's
	// price, rise and discount is worth what the run paid. Where nothing is drawn it is
	// the run's own quantity.
	Used [][]float64
	// Built is the present worth of what was paid for all steps, by part and year;
	// Decided and Chosen are of the file's steps and of those of the case that have
	// dates, the same in all runs.
	Built, Decided, Chosen doc.Built[[]float64]
	Dated                  []Dated // those steps
}

// Dated is a step with a date, and the present worth of its parts in the run.
type Dated struct {
	Taken
	Asset money.Asset // as the reference has it
	Worth doc.Built[float64]
}

// Reference is at what prices and rates accounts are kept: those of the file.
type Reference struct {
	Rates money.Rates
	Items []doc.ReckonedItem

	planning   *facilityfile.Planning
	worth      [][]float64 // of 1 by item and year
	amendments []amendmentPrice
}

// NewReference takes the prices of a file, which must be priced, and a discount rate
// instead of the file's if one is given. It is for runs over the whole horizon.
func NewReference(f *facilityfile.File, discount *float64) *Reference {
	e := f.Planning.Economy
	if discount != nil {
		e.Rates.Discount = *discount
	}
	ref := &Reference{Rates: e.Rates, Items: items(f), planning: &f.Planning, amendments: amendmentPrices(f)}
	for i := range ref.Items {
		row := make([]float64, f.Model.Years)
		for y := range row {
			row[y] = ref.Rates.Worth(ref.Rates.Timing.Instant(y), ref.Items[i].Price.Escalation)
		}
		ref.worth = append(ref.worth, row)
	}
	return ref
}

// Account takes the costs of a run apart, of which plan is what [Plan] makes.
func (ref *Reference) Account(r *study.Result, plan *money.Plan) Account {
	return Account{Used: ref.used(r, plan)}.built(ref, r, plan)
}

// used fills in what the run used and sold.
func (ref *Reference) used(r *study.Result, plan *money.Plan) [][]float64 {
	out := make([][]float64, len(ref.Items))
	for i := range out {
		out[i] = make([]float64, len(plan.Years))
	}
	for y, use := range plan.Years {
		list := append(plan.Prices.Items(use), money.Item{Part: money.Running, Price: plan.Rates.General(r.Economy.Overhead), Quantity: 1})
		if len(ref.amendments) > 0 {
			list[amendments].Quantity = 0
		}
		for _, a := range ref.amendments {
			list = append(list, money.Item{Part: money.Chips, Price: plan.Rates.General(a.price(&r.Economy)), Quantity: inYear(r, y, a.volume)})
		}
		for i, it := range list {
			price := ref.Items[i].Price.Amount
			if price == 0 { // then no run pays for it
				out[i][y] = it.Quantity
				continue
			}
			dearer := it.Price.Amount / price
			later := plan.Rates.Worth(plan.Rates.Timing.Instant(y), it.Price.Escalation) / ref.worth[i][y]
			out[i][y] = it.Quantity * dearer * later
		}
		if ref.Items[product].Price.Amount == 0 {
			out[product][y] = inYear(r, y, func(m *plant.Month) float64 { return m.Product.TakenVolume }) // since its quantity is what it brings
		}
	}
	return out
}

// inYear adds a measure of the months of a year up.
func inYear(r *study.Result, year int, of func(*plant.Month) float64) float64 {
	return plant.Sum(r.Record.Months[year*calendar.MonthsPerYear:(year+1)*calendar.MonthsPerYear], of)
}

// built fills in what was paid for steps.
func (a Account) built(ref *Reference, r *study.Result, plan *money.Plan) Account {
	for k := range doc.BuiltParts {
		a.Built[k], a.Decided[k], a.Chosen[k] = make([]float64, len(plan.Years)), make([]float64, len(plan.Years)), make([]float64, len(plan.Years))
	}
	for _, t := range Steps(ref.planning, r) {
		d := Dated{Taken: t, Asset: t.asset(1)}
		asset := t.asset(1 + r.Economy.CapitalOver)
		for _, f := range asset.Flows(len(plan.Years), plan.Rates.Timing) {
			worth := -plan.Rates.PresentWorth([]money.Flow{f})
			k := placeOf(f.Part)
			a.Built[k][f.Year] += worth
			d.Worth[k] += worth
			switch {
			case t.Step.Trigger.Waits():
			case t.Committed:
				a.Decided[k][f.Year] += worth
			default:
				a.Chosen[k][f.Year] += worth
			}
		}
		if !t.Step.Trigger.Waits() {
			a.Dated = append(a.Dated, d)
		}
	}
	return a
}

// placeOf returns the place of a part of what is built.
func placeOf(part money.Part) int {
	for k, p := range doc.BuiltParts {
		if p == part {
			return k
		}
	}
	panic("costs: " + part.String() + " is no part of what is built")
}

// InFile returns the present worth of the parts of a step with a date at the file's costs
// and rates.
func (ref *Reference) InFile(d *Dated) doc.Built[float64] {
	var out doc.Built[float64]
	for _, f := range d.Asset.Flows(len(ref.worth[0]), ref.Rates.Timing) {
		out[placeOf(f.Part)] -= ref.Rates.PresentWorth([]money.Flow{f})
	}
	return out
}

// Paid turns a present worth into what is paid in a year, in stated prices that rise by an
// escalation, if it is paid when running costs are.
func (ref *Reference) Paid(worth float64, year int, escalation float64) float64 {
	return worth / ref.Rates.Worth(ref.Rates.Timing.Instant(year), escalation)
}
