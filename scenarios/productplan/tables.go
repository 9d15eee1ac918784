package productplan

import (
	"time"

	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/fiscal"
	"loamcast/sim/stats"
)

// flows is what the screen shows of months and years.
func (a *Answer) flows() doc.Table {
	const screened, mass, store, chance, revenue = "screened, {unit}", "{units}", "store, {unit}", "chance, %", "revenue, {unit}"
	in := func(q doc.Quantity, group string, heads []string, of func(*Flows) float64) doc.Col[fiscal.Row[Flows]] {
		return doc.Num(group, heads, q, 0, fiscal.InRow(of))
	}
	share := func(head string, of func(*Flows) stats.Interval) doc.Col[fiscal.Row[Flows]] {
		return doc.Txt(chance, []string{head, ""}, doc.Count, func(r *fiscal.Row[Flows]) any { return doc.BareShare(of(r.Flows).Estimate) })
	}
	cols := []doc.Col[fiscal.Row[Flows]]{
		fiscal.RowNames[Flows](),
		in(doc.Volume, screened, []string{"mean", ""}, func(f *Flows) float64 { return f.Volume.Mean }),
		in(doc.Volume, screened, []string{"P10", ""}, func(f *Flows) float64 { return f.Volume.P10 }),
		in(doc.Volume, screened, []string{"P50", ""}, func(f *Flows) float64 { return f.Volume.P50 }),
		in(doc.Volume, screened, []string{"P90", ""}, func(f *Flows) float64 { return f.Volume.P90 }),
		in(doc.Mass, mass, []string{"wet", ""}, func(f *Flows) float64 { return f.Wet.Mean }),
		in(doc.Mass, mass, []string{"dry", ""}, func(f *Flows) float64 { return f.Dry.Mean }),
		in(doc.Volume, "", []string{"taken", "{unit}"}, func(f *Flows) float64 { return f.Taken.Mean }),
		in(doc.Volume, "", []string{"unmet", "{unit}"}, func(f *Flows) float64 { return f.Unmet.Mean }),
		in(doc.Volume, store, []string{"end", "P50"}, func(f *Flows) float64 { return f.StoreEnd.P50 }),
		in(doc.Volume, store, []string{"peak", "P90"}, func(f *Flows) float64 { return f.StorePeak.P90 }),
		share("full", func(f *Flows) stats.Interval { return f.Full }),
		share("unmet", func(f *Flows) stats.Interval { return f.Short }),
	}
	if a.Price.Known {
		cols = append(cols,
			in(doc.Money, revenue, []string{"P10", ""}, func(f *Flows) float64 { return f.Revenue.P10 }),
			in(doc.Money, revenue, []string{"P50", ""}, func(f *Flows) float64 { return f.Revenue.P50 }),
			in(doc.Money, revenue, []string{"P90", ""}, func(f *Flows) float64 { return f.Revenue.P90 }))
	}
	title := doc.Say("By month and %s; masses, taken and unmet are means; unmet is demand without product", a.Word())
	if a.Price.Known {
		title = title.Then("; money of the day")
	}
	rows := fiscal.Rows(len(a.Years), a.Months, a.Years,
		func(m *Month) (string, *Flows) { return m.Month.String(), &m.Flows },
		func(y *Year) (string, *Flows) { return y.Label, &y.Flows })
	return doc.TableOf(doc.Table{In: doc.Screen, Title: title}, rows, cols...)
}

// columns are those of a month or year in files, money only where there is a
// price.
func (a *Answer) columns() []doc.Col[Flows] {
	cols := []doc.Col[Flows]{
		doc.Spr("product", doc.Volume, func(f *Flows) answer.Spread { return f.Volume }).Means("screened compost made, loose"),
		doc.Spr("product_wet", doc.Mass, func(f *Flows) answer.Spread { return f.Wet }).Means("screened compost made, as weighed", doc.Wet),
		doc.Spr("product_dry", doc.Mass, func(f *Flows) answer.Spread { return f.Dry }).Means("solids of the screened compost made", doc.Dry),
		doc.Spr("taken", doc.Volume, func(f *Flows) answer.Spread { return f.Taken }).Means("compost that left the plant, loose"),
		doc.Spr("demand_not_met", doc.Volume, func(f *Flows) answer.Spread { return f.Unmet }).Means("compost that was wanted when there was none, loose"),
		doc.Spr("store_peak", doc.Volume, func(f *Flows) answer.Spread { return f.StorePeak }).Means("most compost in store at one time, loose"),
		doc.Spr("store_end", doc.Volume, func(f *Flows) answer.Spread { return f.StoreEnd }).Means("compost in store at the end of the time, loose"),
		doc.Spr("store_full_h", doc.Count, func(f *Flows) answer.Spread { return f.HoursFull }).Means("hours in which a lot could not be screened because the store was full"),
		doc.Est("store_full_chance", doc.Share, func(f *Flows) stats.Interval { return f.Full }).Means("chance that the store is full at some time"),
		doc.Est("demand_not_met_chance", doc.Share, func(f *Flows) stats.Interval { return f.Short }).Means("chance that some demand is not met"),
	}
	if a.Price.Known {
		cols = append(cols, doc.Spr("revenue", doc.Money, func(f *Flows) answer.Spread { return f.Revenue }).Means("what compost brings, money of the day"))
	}
	return cols
}

// months is the table of months in files.
func (a *Answer) months() doc.Table {
	cols := []doc.Col[Month]{
		doc.ByMonth(func(m *Month) (int, time.Month) { return m.Year, m.Month.Month }),
	}
	cols = append(cols, doc.Lift(func(m *Month) *Flows { return &m.Flows }, a.columns()...)...)
	return doc.TableOf(doc.Table{In: doc.Files, Name: "months", File: "product-months"}, a.Months, cols...)
}

// years is the table of fiscal years in files.
func (a *Answer) years() doc.Table {
	cols := []doc.Col[Year]{
		doc.Key("fiscal_year", func(y *Year) any { return y.Label }).Means("year of the budget"),
		doc.Any("months_of_glut", func(y *Year) any { return y.Glut.numbers() }).Means("months of the year in which the store tends to be full"),
		doc.Any("months_of_shortage", func(y *Year) any { return y.Shortage.numbers() }).Means("months of the year in which demand tends not to be met"),
	}
	cols = append(cols, doc.Lift(func(y *Year) *Flows { return &y.Flows }, a.columns()...)...)
	return doc.TableOf(doc.Table{In: doc.Files, Name: "years", File: "product-years"}, a.Years, cols...)
}

// numbers lists the months as 1 to 12.
func (s Season) numbers() []int {
	out := make([]int, len(s.Months))
	for i, m := range s.Months {
		out[i] = int(m)
	}
	return out
}
