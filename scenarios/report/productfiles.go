package report

import (
	"io"
	"strconv"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/productplan"
	"loamcast/scenarios/report/picture"
	"loamcast/scenarios/units"
	"loamcast/sim/stats"
)

var productVolumeFields = []field[productplan.Flows]{
	{name: "product", kind: volume, spread: func(f *productplan.Flows) answer.Spread { return f.Volume }},
	{name: "product_wet", kind: mass, spread: func(f *productplan.Flows) answer.Spread { return f.Wet }},
	{name: "product_dry", kind: mass, spread: func(f *productplan.Flows) answer.Spread { return f.Dry }},
	{name: "taken", kind: volume, spread: func(f *productplan.Flows) answer.Spread { return f.Taken }},
	{name: "demand_not_met", kind: volume, spread: func(f *productplan.Flows) answer.Spread { return f.Unmet }},
	{name: "store_peak", kind: volume, spread: func(f *productplan.Flows) answer.Spread { return f.StorePeak }},
	{name: "store_end", kind: volume, spread: func(f *productplan.Flows) answer.Spread { return f.StoreEnd }},
	{name: "store_full_h", kind: count, spread: func(f *productplan.Flows) answer.Spread { return f.HoursFull }},
}

// productFields are the fields of a month or year, money only where there is a
// price.
func productFields(a *productplan.Answer) []field[productplan.Flows] {
	list := append([]field[productplan.Flows]{}, productVolumeFields...)
	list = append(list, chanceFields("store_full_chance", func(f *productplan.Flows) stats.Interval { return f.Full })...)
	list = append(list, chanceFields("demand_not_met_chance", func(f *productplan.Flows) stats.Interval { return f.Short })...)
	if a.Price.Known {
		list = append(list, field[productplan.Flows]{name: "revenue", kind: costUSD, spread: func(f *productplan.Flows) answer.Spread { return f.Revenue }})
	}
	return list
}

func productMonthFields(a *productplan.Answer) []field[productplan.Month] {
	return lift(productFields(a), func(m *productplan.Month) *productplan.Flows { return &m.Flows })
}

func productYearFields(a *productplan.Answer) []field[productplan.Year] {
	return lift(productFields(a), func(y *productplan.Year) *productplan.Flows { return &y.Flows })
}

// ProductJSON writes what product to expect as one JSON object.
func ProductJSON(w io.Writer, a *productplan.Answer, sys units.System) error {
	text := productText{newPage(sys), a}
	years := make([]object, len(a.Years))
	for i := range a.Years {
		y := &a.Years[i]
		years[i] = append(object{{"fiscal_year", y.Label}, {"months_of_glut", monthNumbers(y.Glut)}, {"months_of_shortage", monthNumbers(y.Shortage)}},
			record(y, productYearFields(a), sys)...)
	}
	months := make([]object, len(a.Months))
	for i := range a.Months {
		m := &a.Months[i]
		months[i] = append(object{{"year", m.Year}, {"month", int(m.Month.Month)}}, record(m, productMonthFields(a), sys)...)
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
		{"store" + volume.suffix(sys), number(volume.in(a.Store, sys))},
		{"price", jsonProductPrice(a.Price, sys)},
		{"notable_chance_percent", number(100 * productplan.Notable)},
		{"years", years},
		{"months", months},
		{"cautions", jsonCautions(answer.Cautions())},
	})
}

// monthNumbers lists months as 1 to 12.
func monthNumbers(s productplan.Season) []int {
	out := make([]int, len(s.Months))
	for i, m := range s.Months {
		out[i] = int(m)
	}
	return out
}

// jsonProductPrice is null if no price is known.
func jsonProductPrice(p productplan.Price, sys units.System) any {
	if !p.Known {
		return nil
	}
	prices := make([]number, len(p.Monthly))
	for i, v := range p.Monthly {
		prices[i] = number(pricePer.in(v, sys))
	}
	return object{{"product_by_month" + pricePer.suffix(sys), prices}, {"stated_year", p.Stated},
		{"escalation_percent_per_year", number(100 * p.Escalation)}}
}

// ProductFiles returns everything that a plan of the product leaves in a
// folder.
func ProductFiles(a *productplan.Answer, sys units.System) ([]File, error) {
	monthKey := func(m *productplan.Month) []string {
		return []string{strconv.Itoa(m.Year), strconv.Itoa(int(m.Month.Month))}
	}
	yearKey := func(y *productplan.Year) []string { return []string{y.Label} }
	tables := []table{
		{"product-months.csv", tableOf(a.Months, []string{"year", "month"}, monthKey, productMonthFields(a), sys)},
		{"product-years.csv", tableOf(a.Years, []string{"fiscal_year"}, yearKey, productYearFields(a), sys)},
	}
	files, err := filesOf("product", a.Facility,
		func(w io.Writer) error { return ProductTerminal(w, a, sys) },
		func(w io.Writer) error { return ProductJSON(w, a, sys) }, tables)
	if err != nil {
		return nil, err
	}
	drawn, err := render(picture.ProductPlan(a, sys))
	return append(files, drawn...), err
}
