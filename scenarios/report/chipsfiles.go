package report

import (
	"io"
	"strconv"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/chipplan"
	"loamcast/scenarios/report/picture"
	"loamcast/scenarios/units"
	"loamcast/sim/stats"
)

var chipsVolumeFields = []field[chipplan.Flows]{
	{name: "chips_bought", kind: volume, spread: func(f *chipplan.Flows) answer.Spread { return f.Bought }},
	{name: "truckloads", kind: count, spread: func(f *chipplan.Flows) answer.Spread { return f.Truckloads }},
	{name: "chips_mixed", kind: volume, spread: func(f *chipplan.Flows) answer.Spread { return f.Used }},
	{name: "chips_recovered", kind: volume, spread: func(f *chipplan.Flows) answer.Spread { return f.Recovered }},
	{name: "chips_lost", kind: volume, spread: func(f *chipplan.Flows) answer.Spread { return f.Lost }},
	{name: "biofilter_media", kind: volume, spread: func(f *chipplan.Flows) answer.Spread { return f.Media }},
	{name: "store_peak", kind: volume, spread: func(f *chipplan.Flows) answer.Spread { return f.StorePeak }},
	{name: "store_end", kind: volume, spread: func(f *chipplan.Flows) answer.Spread { return f.StoreEnd }},
	{name: "short_of_chips_h", kind: count, spread: func(f *chipplan.Flows) answer.Spread { return f.HoursShort }},
}

// chipsFields are the fields of a month or year, money only where there is a
// price.
func chipsFields(a *chipplan.Answer) []field[chipplan.Flows] {
	list := append([]field[chipplan.Flows]{}, chipsVolumeFields...)
	list = append(list, chanceFields("stock_out_chance", func(f *chipplan.Flows) stats.Interval { return f.StockOut })...)
	if a.Price.Known {
		list = append(list, field[chipplan.Flows]{name: "spend", kind: costUSD, spread: func(f *chipplan.Flows) answer.Spread { return f.Spend }})
	}
	return list
}

func chipsMonthFields(a *chipplan.Answer) []field[chipplan.Month] {
	list := lift(chipsFields(a), func(m *chipplan.Month) *chipplan.Flows { return &m.Flows })
	list = append(list, field[chipplan.Month]{name: "chips_bought_to_date", kind: volume, spread: func(m *chipplan.Month) answer.Spread { return m.BoughtToDate }})
	if a.Price.Known {
		list = append(list, field[chipplan.Month]{name: "spend_to_date", kind: costUSD, spread: func(m *chipplan.Month) answer.Spread { return m.SpendToDate }})
	}
	return list
}

func chipsYearFields(a *chipplan.Answer) []field[chipplan.Year] {
	list := lift(chipsFields(a), func(y *chipplan.Year) *chipplan.Flows { return &y.Flows })
	if !a.Price.Known {
		return list
	}
	list = append(list, field[chipplan.Year]{name: "budget", kind: costUSD, value: func(y *chipplan.Year) float64 { return y.Budget }})
	list = append(list, chanceFields("budget_passed_chance", func(y *chipplan.Year) stats.Interval { return y.Passing })...)
	if a.Years[0].AskedBudget > 0 {
		list = append(list, field[chipplan.Year]{name: "budget_asked", kind: costUSD, value: func(y *chipplan.Year) float64 { return y.AskedBudget }})
		list = append(list, chanceFields("budget_asked_passed_chance", func(y *chipplan.Year) stats.Interval { return y.PassingAsked })...)
	}
	return list
}

var trialFields = []field[chipplan.Trial]{
	{name: "reorder_at", kind: volume, value: func(t *chipplan.Trial) float64 { return t.Reorder }},
	{name: "order_up_to", kind: volume, value: func(t *chipplan.Trial) float64 { return t.OrderUpTo }},
	{name: "mean_stock", kind: volume, value: func(t *chipplan.Trial) float64 { return t.MeanStock }},
	{name: "orders_per_year", kind: count, value: func(t *chipplan.Trial) float64 { return t.OrdersPerYear }},
}

// ChipsJSON writes the purchase plan as one JSON object.
func ChipsJSON(w io.Writer, a *chipplan.Answer, sys units.System) error {
	text := chipsText{newPage(sys), a}
	years := make([]object, len(a.Years))
	for i := range a.Years {
		years[i] = append(object{{"fiscal_year", a.Years[i].Label}}, record(&a.Years[i], chipsYearFields(a), sys)...)
	}
	months := make([]object, len(a.Months))
	for i := range a.Months {
		m := &a.Months[i]
		months[i] = append(object{{"year", m.Year}, {"month", int(m.Month.Month)}}, record(m, chipsMonthFields(a), sys)...)
	}
	return writeJSON(w, []member{
		{"facility", a.Facility},
		{"source", a.Source},
		{"invented", a.Invented},
		{"version", a.Version},
		{"seed", a.Seed},
		{"replications", a.Replications},
		{"units", sys.String()},
		{"level", jsonLevel(a.Level)},
		{"headline", plainSpaces(text.headline())},
		{"fiscal_year_begins_month", int(a.Begins)},
		{"growth", jsonGrowths(a.Growths)},
		{"price", jsonChipsPrice(a.Price, sys)},
		{"years", years},
		{"months", months},
		{"ordering", jsonOrdering(&a.Ordering, sys)},
		{"cautions", jsonCautions(answer.Cautions())},
	})
}

// jsonChipsPrice is null if no price is known.
func jsonChipsPrice(p chipplan.Price, sys units.System) any {
	if !p.Known {
		return nil
	}
	o := object{{"chips" + pricePer.suffix(sys), number(pricePer.in(p.Amount, sys))}}
	if p.Escalates {
		o = append(o, member{"stated_year", p.Stated}, member{"escalation_percent_per_year", number(100 * p.Escalation)})
	}
	return o
}

func jsonOrdering(o *chipplan.Ordering, sys units.System) object {
	trial := func(t *chipplan.Trial) object {
		out := record(t, trialFields, sys)
		if o.Cost.InMoney {
			out = append(out, member{"cost_per_year_usd", number(t.Cost)})
		}
		return append(out,
			member{"stock_out_chance_inventory_model", jsonInterval(t.Inventory)},
			member{"stock_out_chance_plant", jsonInterval(t.Plant)})
	}
	out := object{
		{"store" + volume.suffix(sys), number(volume.in(o.Store, sys))},
		{"truckload" + volume.suffix(sys), number(volume.in(o.Truckload, sys))},
		{"lead_time_day", number(o.LeadTime)},
		{"lead_time_variation_percent", number(100 * o.LeadCV)},
		{"limit_percent", number(100 * o.Limit)},
		{"rules_compared", o.Tried},
		{"rules_simulated", o.Simulated},
		{"fits_the_store", o.Fits},
		{"limit_kept", o.Kept},
		{"as_it_is", trial(&o.AsIs)},
		{"best", trial(&o.Best)},
	}
	if o.Cost.InMoney {
		out = append(out, member{"stock_cost_per_year" + pricePer.suffix(sys), number(pricePer.in(o.Cost.Capital, sys))},
			member{"cost_per_order_usd", number(o.Cost.Ordering)})
	}
	return out
}

// ChipsFiles returns everything that a purchase plan leaves in a folder.
func ChipsFiles(a *chipplan.Answer, sys units.System) ([]File, error) {
	monthKey := func(m *chipplan.Month) []string {
		return []string{strconv.Itoa(m.Year), strconv.Itoa(int(m.Month.Month))}
	}
	yearKey := func(y *chipplan.Year) []string { return []string{y.Label} }
	tables := []table{
		{"chips-months.csv", tableOf(a.Months, []string{"year", "month"}, monthKey, chipsMonthFields(a), sys)},
		{"chips-years.csv", tableOf(a.Years, []string{"fiscal_year"}, yearKey, chipsYearFields(a), sys)},
	}
	files, err := filesOf("chips", a.Facility,
		func(w io.Writer) error { return ChipsTerminal(w, a, sys) },
		func(w io.Writer) error { return ChipsJSON(w, a, sys) }, tables)
	if err != nil {
		return nil, err
	}
	drawn, err := render(picture.ChipPlan(a, sys))
	return append(files, drawn...), err
}
