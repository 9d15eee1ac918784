package costs

import (
	"slices"
	"time"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
)

// uses returns what a run used and sold in each year.
//
//   - Labour: the scheduled hours of the operators where the file counts them,
//     for they are paid whether there is work or not; otherwise the hours of work
//     that needs one.
//   - Power: blowers, mixer and screen.
//   - Fuel: loader hours, and moves of vessels by the time that one takes, each at
//     the fuel of an hour.
//   - Tipping: everything hauled off the site, wet: cake diverted, loads that
//     failed, and rejects of the screen.
//   - Contract: cake hauled by contract, each kilogram at the price of the contract under
//     which it went.
//   - Amendments: what is bought of them and what own sources bring, at their prices.
//   - Missing: the dry solids that leave untreated beyond what the target allows.
//   - Sampling: the events that the year's dry feed asks for.
//   - Dry: the cake and feedstocks brought in, treated or not, so that plans of
//     the same feed share their cost over the same mass.
func uses(target facilityfile.Target, r *study.Result) []money.Use {
	hauled := hauledPaths(r.Record)
	out := make([]money.Use, len(r.Record.Years))
	for y := range out {
		u := &out[y]
		months := r.Record.Months[y*calendar.MonthsPerYear : (y+1)*calendar.MonthsPerYear]
		for i := range months {
			addMonth(u, &months[i], r.Plant, &r.Economy)
		}
		u.Missing = target.Beyond(months)
		for _, path := range hauled {
			u.Tipping += r.Record.Years[y].Balance.Flows[path].Total
		}
		u.Sampling = float64(money.MonitoringEvents(u.Dry))
	}
	return out
}

// addMonth adds what one month used and sold, but for what is known by the year.
func addMonth(u *money.Use, m *plant.Month, p *plant.Plant, e *facilityfile.Economy) {
	if p.Yard.Operators.Count > 0 {
		u.Labour += m.Use[plant.Operators].Scheduled
	} else {
		u.Labour += m.Work.OperatorHours
	}
	u.Power += m.Work.BlowerEnergy + m.Work.MachineEnergy
	u.Fuel += m.Work.LoaderHours*e.LoaderFuel + m.Vessels.Moves*p.Yard.Move.Hours()*e.TruckFuel
	u.Chips += Chips(&m.Chips, m.Month, e)
	u.Amendments += Amendments(m, e)
	u.Contract += Contracts(m, e)
	u.Product += m.Product.TakenVolume * e.ProductPrice[m.Month-1]
	u.Dry += m.Feed.Dry
}

// Chips returns what came of fresh chips in a month as m3 at the price of chips: where
// they come from several sources, those of each count by its price.
func Chips(c *plant.MonthlyChips, month time.Month, e *facilityfile.Economy) float64 {
	if c.Sources == nil {
		return c.Bought
	}
	sum := 0.0
	for i := range c.Sources {
		sum += c.Sources[i].Volume * e.ChipSources[i][month-1]
	}
	return sum
}

// ChipsUsed returns what was used of them in some months, in the same way: at the mean
// price of what came in these months.
func ChipsUsed(months []plant.Month, e *facilityfile.Economy) float64 {
	used, came, priced := 0.0, 0.0, 0.0
	for i := range months {
		c := &months[i].Chips
		used += c.FreshUsed + c.Biofilter
		came += c.Bought + c.Own
		priced += Chips(c, months[i].Month, e)
	}
	if came == 0 || months[0].Chips.Sources == nil {
		return used
	}
	return used * priced / came
}

// hauledOff are the flows of what is hauled off the site at the tipping fee.
var hauledOff = []plant.Flow{plant.CakeDiverted, plant.LoadFailed, plant.Rejects}

// hauledPaths returns the places of those flows in a record.
func hauledPaths(rec *plant.Record) []int {
	var out []int
	for i, path := range rec.Paths {
		if slices.Contains(hauledOff, path.Flow) {
			out = append(out, i)
		}
	}
	return out
}
