package chipplan

import (
	"fmt"
	"time"

	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/fiscal"
	"loamcast/sim/stats"
)

// flows is what the screen shows of months and years.
func (a *Answer) flows() doc.Table {
	const used, bought, store, short, spend = "fresh, used, {unit}", "bought, {unit}", "store, {unit}", "short of chips", "spend, {unit}"
	volume := func(group string, heads []string, of func(*Flows) float64) doc.Col[fiscal.Row[Flows]] {
		return doc.Num(group, heads, doc.Volume, 0, fiscal.InRow(of))
	}
	cols := []doc.Col[fiscal.Row[Flows]]{
		fiscal.RowNames[Flows](),
		volume(used, []string{"mean", ""}, func(f *Flows) float64 { return f.FreshUsed.Mean }),
		volume(used, []string{"P10", ""}, func(f *Flows) float64 { return f.FreshUsed.P10 }),
		volume(used, []string{"P90", ""}, func(f *Flows) float64 { return f.FreshUsed.P90 }),
		volume(bought, []string{"mean", ""}, func(f *Flows) float64 { return f.Bought.Mean }),
		volume(bought, []string{"P90", ""}, func(f *Flows) float64 { return f.Bought.P90 }),
		doc.Num("", []string{"truck-", "loads"}, doc.Count, 1, fiscal.InRow(func(f *Flows) float64 { return f.Truckloads.Mean })),
		volume("", []string{"recov-", "ered"}, func(f *Flows) float64 { return f.Recovered.Mean }),
		volume("", []string{"", "lost"}, func(f *Flows) float64 { return f.Lost.Mean }),
		volume(store, []string{"end", "P50"}, func(f *Flows) float64 { return f.StoreEnd.P50 }),
		volume(store, []string{"peak", "P90"}, func(f *Flows) float64 { return f.StorePeak.P90 }),
		doc.Num(short, []string{"mean", "h"}, doc.Count, 1, fiscal.InRow(func(f *Flows) float64 { return f.HoursShort.Mean })),
		doc.Txt(short, []string{"chance", "%"}, doc.Count, func(r *fiscal.Row[Flows]) any { return doc.BareShare(r.Flows.StockOut.Estimate) }),
	}
	if a.Price.Known {
		money := func(head string, of func(*Flows) float64) doc.Col[fiscal.Row[Flows]] {
			return doc.Num(spend, []string{head, ""}, doc.Money, 0, fiscal.InRow(of))
		}
		cols = append(cols,
			money("mean", func(f *Flows) float64 { return f.Spend.Mean }),
			money("P90", func(f *Flows) float64 { return f.Spend.P90 }))
	}
	money := ""
	if a.Price.Known {
		money = ", money of the day"
	}
	title := doc.Say("By month and %s%s; what is used must be bought%s, truckloads come in lumps", a.Word(), money, a.Sources.orOwn())
	rows := fiscal.Rows(len(a.Years), a.Months, a.Years,
		func(m *Month) (string, *Flows) { return m.Month.String(), &m.Flows },
		func(y *Year) (string, *Flows) { return y.Label, &y.Flows })
	table := doc.TableOf(doc.Table{In: doc.Screen, Title: title}, rows, cols...)
	if len(a.Amendments.Years) > 0 { // for which the months make room, if they must
		table.More = "; %d months in chips-months.csv (--out)"
		for i := range rows {
			if rows[i].Month {
				table.Rows[i].Rank = 1
			}
		}
	}
	return table
}

// columns are those of a month or year in files, money only where there is a
// price.
func (a *Answer) columns() []doc.Col[Flows] {
	cols := []doc.Col[Flows]{
		doc.Spr("chips_bought", doc.Volume, func(f *Flows) answer.Spread { return f.Bought }).Means("fresh chips delivered, loose"),
		doc.Spr("truckloads", doc.Count, func(f *Flows) answer.Spread { return f.Truckloads }).Means("truckloads delivered"),
		doc.Spr("chips_mixed", doc.Volume, func(f *Flows) answer.Spread { return f.Used }).Means("chips that went into the mixer, fresh and recovered, loose"),
		doc.Spr("chips_fresh_mixed", doc.Volume, func(f *Flows) answer.Spread { return f.FreshUsed }).Means("fresh chips that went into the mixer, which is what must be bought in the long run, loose"),
		doc.Spr("chips_recovered", doc.Volume, func(f *Flows) answer.Spread { return f.Recovered }).Means("chips that the screen gave back, loose"),
		doc.Spr("chips_lost", doc.Volume, func(f *Flows) answer.Spread { return f.Lost }).Means("chips that left with product, rejects, failed loads or by decay, loose"),
		doc.Spr("biofilter_media", doc.Volume, func(f *Flows) answer.Spread { return f.Media }).Means("chips that went into the bed of the biofilter, loose"),
		doc.Spr("store_peak", doc.Volume, func(f *Flows) answer.Spread { return f.StorePeak }).Means("most fresh chips in store at one time, loose"),
		doc.Spr("store_end", doc.Volume, func(f *Flows) answer.Spread { return f.StoreEnd }).Means("fresh chips in store at the end of the time, loose"),
		doc.Spr("short_of_chips_h", doc.Count, func(f *Flows) answer.Spread { return f.HoursShort }).Means("hours for which mixing waited for chips"),
		doc.Est("stock_out_chance", doc.Share, func(f *Flows) stats.Interval { return f.StockOut }).Means("chance that mixing waits for chips at some time"),
	}
	if a.Price.Known {
		cols = append(cols, doc.Spr("spend", doc.Money, func(f *Flows) answer.Spread { return f.Spend }).Means("what is paid for chips, money of the day"))
	}
	return cols
}

// months is the table of months in files.
func (a *Answer) months() doc.Table {
	cols := []doc.Col[Month]{
		doc.ByMonth(func(m *Month) (int, time.Month) { return m.Year, m.Month.Month }),
	}
	cols = append(cols, doc.Lift(func(m *Month) *Flows { return &m.Flows }, a.columns()...)...)
	cols = append(cols, doc.Spr("chips_bought_to_date", doc.Volume, func(m *Month) answer.Spread { return m.BoughtToDate }).Means("fresh chips delivered since the fiscal year began, loose"))
	if a.Price.Known {
		cols = append(cols, doc.Spr("spend_to_date", doc.Money, func(m *Month) answer.Spread { return m.SpendToDate }).Means("what is paid for chips since the fiscal year began, money of the day"))
	}
	return doc.TableOf(doc.Table{In: doc.Files, Name: "months", File: "chips-months"}, a.Months, cols...)
}

// years is the table of fiscal years in files.
func (a *Answer) years() doc.Table {
	cols := []doc.Col[Year]{doc.Key("fiscal_year", func(y *Year) any { return y.Label }).Means("year of the budget")}
	cols = append(cols, doc.Lift(func(y *Year) *Flows { return &y.Flows }, a.columns()...)...)
	if a.Price.Known {
		cols = append(cols, doc.Val("budget", doc.Money, func(y *Year) float64 { return y.Budget }).Means("budget that the asked part of the runs keeps, money of the day"),
			doc.Est("budget_passed_chance", doc.Share, func(y *Year) stats.Interval { return y.Passing }).Means("chance that the budget is passed"))
		if a.Years[0].AskedBudget > 0 {
			cols = append(cols, doc.Val("budget_asked", doc.Money, func(y *Year) float64 { return y.AskedBudget }).Means("budget that was asked about, money of the day"),
				doc.Est("budget_asked_passed_chance", doc.Share, func(y *Year) stats.Interval { return y.PassingAsked }).Means("chance that the budget asked about is passed"))
		}
	}
	return doc.TableOf(doc.Table{In: doc.Files, Name: "years", File: "chips-years"}, a.Years, cols...)
}

// trialRow is a rule with its name.
type trialRow struct {
	name string
	*Trial
}

// rules sets the best rule beside the file's.
func (a *Answer) rules() doc.Table {
	o := &a.Ordering
	volume := func(heads []string, of func(*trialRow) float64) doc.Col[trialRow] {
		return doc.Num("", heads, doc.Volume, 0, of)
	}
	cols := []doc.Col[trialRow]{
		doc.Left([]string{"Rule", ""}, func(r *trialRow) any { return r.name }),
		volume([]string{"order at", "{unit}"}, func(r *trialRow) float64 { return r.Reorder }),
		volume([]string{"up to", "{unit}"}, func(r *trialRow) float64 { return r.OrderUpTo }),
		volume([]string{"mean stock", "{unit}"}, func(r *trialRow) float64 { return r.MeanStock }),
		doc.Num("", []string{"orders", "a year"}, doc.Count, 1, func(r *trialRow) float64 { return r.OrdersPerYear }),
	}
	if o.Cost.InMoney {
		cols = append(cols, doc.Num(fmt.Sprintf("{currency} of %d", a.Price.Stated), []string{"cost", "a year"}, doc.Money, 0, func(r *trialRow) float64 { return r.Cost }))
	}
	const group = "chance of a stock-out in a year"
	cols = append(cols,
		doc.Txt(group, []string{"inventory model", "(95 % interval)"}, doc.Count, func(r *trialRow) any { return plain(doc.ChanceInterval(r.Inventory)) }),
		doc.Txt(group, []string{"the plant itself", "(95 % interval)"}, doc.Count, func(r *trialRow) any { return plain(doc.ChanceInterval(r.Plant)) }))
	return doc.TableOf(doc.Table{In: doc.Screen}, []trialRow{{"the file's", &o.AsIs}, {"best", &o.Best}}, cols...)
}

// ordering is the search for the best rule in files.
func (a *Answer) ordering() doc.Record {
	o := &a.Ordering
	cols := []doc.Col[Trial]{
		doc.Val("reorder_at", doc.Volume, func(t *Trial) float64 { return t.Reorder }),
		doc.Val("order_up_to", doc.Volume, func(t *Trial) float64 { return t.OrderUpTo }),
		doc.Val("mean_stock", doc.Volume, func(t *Trial) float64 { return t.MeanStock }),
		doc.Val("orders_per_year", doc.Count, func(t *Trial) float64 { return t.OrdersPerYear }),
	}
	if o.Cost.InMoney {
		cols = append(cols, doc.Val("cost", doc.MoneyAYear, func(t *Trial) float64 { return t.Cost }))
	}
	cols = append(cols,
		doc.Est("stock_out_chance_inventory_model", doc.Share, func(t *Trial) stats.Interval { return t.Inventory }),
		doc.Est("stock_out_chance_plant", doc.Share, func(t *Trial) stats.Interval { return t.Plant }))
	r := doc.Record{
		{Name: "store", Quantity: doc.Volume, Value: o.Store},
		{Name: "truckload", Quantity: doc.Volume, Value: o.Truckload},
		{Name: "lead_time", Quantity: doc.Days, Value: o.LeadTime},
		{Name: "lead_time_variation", Quantity: doc.Share, Value: o.LeadCV},
		{Name: "limit", Quantity: doc.Share, Value: o.Limit},
		{Name: "rules_compared", Value: o.Tried},
		{Name: "rules_simulated", Value: o.Simulated},
		{Name: "fits_the_store", Value: o.Fits},
		{Name: "limit_kept", Value: o.Kept},
		{Name: "as_it_is", Value: doc.RecordOf(&o.AsIs, cols...)},
		{Name: "best", Value: doc.RecordOf(&o.Best, cols...)},
	}
	if o.Cost.InMoney {
		r = append(r, doc.Field{Name: "stock_cost_per_year", Quantity: doc.MoneyPerVol, Value: o.Cost.Capital},
			doc.Field{Name: "cost_per_order", Quantity: doc.Money, Value: o.Cost.Ordering})
	}
	return r
}
