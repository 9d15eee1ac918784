package chipplan

import (
	"math"

	"loamcast/facility/plant"
	"loamcast/scenarios/fiscal"
	"loamcast/sim"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// history is what an inventory of fresh chips has to live with in one
// replication: the use of each day and the lead time of each order.
type history struct {
	use       []float64 // m3, by day
	begins    []int     // day on which each fiscal year begins, and the end; earlier days are not judged
	leads     []float64 // days, of the orders in turn
	truckload float64   // m3
}

// outcome is how a rule did.
type outcome struct {
	short     []bool  // by fiscal year: some day's use was not on hand
	meanStock float64 // m3
	orders    float64 // per year of 365 days
}

// newHistory takes the use of chips from the months of a run that was never
// short. The days of the first fiscal year are gone through once before, so
// that the store's opening level is forgotten.
func newHistory(months []fiscal.Goods, truckload float64) *history {
	h := &history{truckload: truckload}
	add := func(list []fiscal.Goods) {
		for i := range list {
			c, bought := &list[i].Chips, 1.0
			if c.Own > 0 { // of what came by itself as much less is bought, in the month in which it came
				bought = max(0, 1-c.Own/max(c.FreshUsed+c.Biofilter, c.Own))
			}
			for _, use := range c.FreshByDay[:int(list[i].Days)] {
				h.use = append(h.use, use*bought)
			}
		}
	}
	add(months[:calendar.MonthsPerYear])
	for i := 0; i < len(months); i += calendar.MonthsPerYear {
		h.begins = append(h.begins, len(h.use))
		add(months[i : i+calendar.MonthsPerYear])
	}
	h.begins = append(h.begins, len(h.use))
	return h
}

// withLeads returns the same use with lead times drawn from the plant's own
// distribution, by one of the replication's streams for them. Every rule meets the
// same lead times in turn (common random numbers).
func (h *history) withLeads(chips *plant.Chips, key random.Key, stream uint64) *history {
	out := *h
	total := 0.0
	for _, u := range h.use {
		total += u
	}
	r, lead := key.Stream("chip delivery, inventory", stream), chips.Lead()
	most := int(total/h.truckload) + 2 // orders: each has a truckload, and only what was used is ordered
	out.leads = make([]float64, most)
	for i := range out.leads {
		out.leads[i] = lead.Draw(r) / float64(sim.Day)
	}
	return &out
}

// try follows the stock day by day under a rule, as the plant orders: after the
// chips of a day are taken, when those on hand and on order have fallen to the
// reorder point. An order is placed at midday; what comes on a day is used from
// the next day on. Use that is not on hand waits for the next delivery, since
// the cake waits too. coming is room for what is on its way, by day, which must be none;
// so it is again when it is returned.
func (h *history) try(r Rule, coming []float64) outcome {
	out := outcome{short: make([]bool, len(h.begins)-1)}
	stock, onOrder, owed := r.OrderUpTo, 0.0, 0.0
	year, orders, placed := -1, 0, 0
	for day, use := range h.use {
		for day == h.begins[year+1] {
			year++
		}
		stock += coming[day]
		onOrder -= coming[day]
		coming[day] = 0

		owed += use
		taken := min(owed, stock)
		stock -= taken
		owed -= taken
		if year >= 0 {
			out.short[year] = out.short[year] || owed > negligible
			out.meanStock += stock
		}
		position := stock + onOrder
		if position > r.Reorder {
			continue
		}
		trucks := math.Floor((r.OrderUpTo-position)/h.truckload + negligible)
		lead := h.leads[placed]
		placed++
		onOrder += trucks * h.truckload
		if used := day + int(lead+0.5) + 1; used < len(h.use) { // later ones are not seen
			coming[used] += trucks * h.truckload
		}
		if year >= 0 {
			orders++
		}
	}
	days := float64(len(h.use) - h.begins[0])
	out.meanStock /= days
	out.orders = float64(orders) / days * daysPerYear
	return out
}

const (
	negligible  = 1e-9
	daysPerYear = 365
)
