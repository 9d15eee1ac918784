package chipplan

import (
	"context"
	"math"
	"reflect"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/money"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
)

// file is the smallest of the built-in facilities, with some of its text
// changed.
func file(t testing.TB, changes ...string) *facilityfile.File {
	t.Helper()
	text := string(examples.Data("dunmarrow"))
	for i := 0; i < len(changes); i += 2 {
		if !strings.Contains(text, changes[i]) {
			t.Fatalf("the example has no %q", changes[i])
		}
		text = strings.Replace(text, changes[i], changes[i+1], 1)
	}
	f, err := facilityfile.Parse("dunmarrow", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// priced gives the file, which begins in April 2027, the economy of these tests:
// 10 USD/m3 in 2027, rising by 3 % a year, and 8 % of discount.
func priced(f *facilityfile.File) *facilityfile.File {
	f.Planning.Priced, f.Mix.Priced = true, true
	f.Planning.Economy.Prices.Chips = money.Price{Amount: 10, Escalation: 0.03}
	f.Planning.Economy.Rates = money.Rates{Stated: 2027, Start: 2027.25, Discount: 0.08}
	return f
}

func plan(t testing.TB, f *facilityfile.File, ask fiscal.Options, o Options) *Answer {
	t.Helper()
	return planWith(t, f, 0, ask, o)
}

// planWith plans with so many workers, 0 for all cores.
func planWith(t testing.TB, f *facilityfile.File, workers int, ask fiscal.Options, o Options) *Answer {
	t.Helper()
	s, err := study.New(f, workers)
	if err != nil {
		t.Fatal(err)
	}
	o.Options = ask
	if o.StockOut == 0 {
		o.StockOut = 0.05
	}
	a, err := Ask(context.Background(), s, answer.Setup{}, o)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func near(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.10g, want %.10g ± %g", what, got, want, tol)
	}
}

// The parts of a plan belong together: months add up to years, truckloads to
// volumes, and volumes times the price of their month to the money, worked out
// here again; peaks and ends are those of the months; the budget is passed as
// often as asked; and one worker finds what two find.
func TestPlanAddsUp(t *testing.T) {
	f := priced(file(t))
	ask := fiscal.Options{Years: 2, Begins: 7, Replications: 6}
	a := planWith(t, f, 2, ask, Options{Budget: 3000})
	if again := planWith(t, f, 1, ask, Options{Budget: 3000}); !reflect.DeepEqual(a, again) {
		t.Error("another plan with one worker")
	}

	sums := []struct {
		name string
		of   func(*Flows) answer.Spread
	}{
		{"bought", func(f *Flows) answer.Spread { return f.Bought }}, {"truckloads", func(f *Flows) answer.Spread { return f.Truckloads }},
		{"used", func(f *Flows) answer.Spread { return f.Used }}, {"recovered", func(f *Flows) answer.Spread { return f.Recovered }},
		{"lost", func(f *Flows) answer.Spread { return f.Lost }}, {"fresh used", func(f *Flows) answer.Spread { return f.FreshUsed }}, {"spend", func(f *Flows) answer.Spread { return f.Spend }},
	}
	const begun = 0.5 // of the first fiscal year, in years since the date of prices
	for y := range a.Years {
		year, months := &a.Years[y], a.Months[12*y:12*y+12]
		for _, s := range sums {
			total := 0.0
			for i := range months {
				total += s.of(&months[i].Flows).Mean
			}
			near(t, year.Label+" "+s.name, s.of(&year.Flows).Mean, total, 1e-9*(1+total))
		}
		near(t, "bought to date", months[11].BoughtToDate.P90, year.Bought.P90, 1e-9)
		near(t, "spent to date", months[11].SpendToDate.P10, year.Spend.P10, 1e-9)
		near(t, "bought in the first month", months[0].BoughtToDate.P50, months[0].Bought.P50, 1e-9)
		near(t, "lost", year.Lost.Mean, year.Used.Mean-year.Recovered.Mean, 0.15*year.Lost.Mean) // but for what is in process
		near(t, "fresh chips used", year.FreshUsed.Mean, year.Bought.Mean, f.Model.Chips.OrderUpTo)
		for i := range months {
			if months[i].Lost.P10 < 0 {
				t.Errorf("%v: %g m3 of chips are lost", months[i].Month, months[i].Lost.P10)
			}
		}
		ordered := 0.0
		for _, o := range year.Orders {
			ordered += o.Share * o.Truckloads.Mean
			if o.Late.Before(o.Median) || o.Median.Before(o.Early) {
				t.Errorf("order %d: %v, %v, %v", o.Number, o.Early, o.Median, o.Late)
			}
		}
		near(t, "truckloads ordered", ordered, year.Truckloads.Mean, 1)
		near(t, "volume of truckloads", year.Bought.Mean, year.Truckloads.Mean*f.Model.Chips.Truckload, 1e-6)
		spend := 0.0
		for i := range months {
			at := begun + float64(y) + (float64(i)+0.5)/12
			spend += 10 * math.Pow(1.03, at) * months[i].Bought.Mean
		}
		near(t, "spend", year.Spend.Mean, spend, 1e-6*spend)
		near(t, "store at the end", year.StoreEnd.P50, months[11].StoreEnd.P50, 0)
		if year.StorePeak.P50 < months[3].StorePeak.P50 {
			t.Errorf("the year's peak %g is below that of a month, %g", year.StorePeak.P50, months[3].StorePeak.P50)
		}
		if year.Bought.Mean == 0 || year.Budget < year.Spend.P90 || year.Budget > 1.03*year.Spend.P90 || year.Passing.Estimate > 0.2 {
			t.Errorf("%s: budget %g for %+v, passed by %+v", year.Label, year.Budget, year.Spend, year.Passing)
		}
	}
	if a.Months[0].Month.Month != 7 || a.Years[0].Label != "2027/28" {
		t.Errorf("begins in %v as %s", a.Months[0].Month, a.Years[0].Label)
	}
}

// The ordering rule that is advised holds less stock than the file's, keeps the
// limit in the plant itself, and costs its mean stock × price × discount.
func TestOrdering(t *testing.T) {
	f := priced(file(t))
	o := plan(t, f, fiscal.Options{Years: 1, Replications: 12}, Options{}).Ordering
	if !o.Fits || !o.Kept || o.Best.Plant.Estimate > o.Limit || o.Best.Inventory.Estimate > o.Limit {
		t.Errorf("%+v", o)
	}
	if o.Best.MeanStock >= o.AsIs.MeanStock {
		t.Errorf("mean stock %g m3, the file's %g", o.Best.MeanStock, o.AsIs.MeanStock)
	}
	near(t, "cost", o.Best.Cost, o.Best.MeanStock*10*0.08, 1e-9)
	dear := plan(t, f, fiscal.Options{Years: 1, Replications: 12}, Options{PerOrder: 500}).Ordering
	if dear.Best.Truckloads(o.Truckload) <= o.Best.Truckloads(o.Truckload) {
		t.Errorf("orders that cost 500 USD have %d truckloads", dear.Best.Truckloads(o.Truckload))
	}
}

// Where orders come late and the store is too small for the use meanwhile, the
// plan says so; by the file's rule plant and inventory model run short alike.
func TestStoreTooSmall(t *testing.T) {
	f := file(t)
	c := &f.Model.Chips
	c.Truckload, c.Capacity, c.Reorder, c.OrderUpTo = 10, 30, 10, 30
	c.LeadTime *= 3
	o := plan(t, f, fiscal.Options{Years: 1, Replications: 6}, Options{}).Ordering
	if o.Fits || o.Best.OrderUpTo <= c.Capacity {
		t.Errorf("best %+v fits a store of %g m3", o.Best, c.Capacity)
	}
	if o.AsIs.Plant.Estimate < 0.5 || o.AsIs.Inventory.Estimate < 0.5 {
		t.Errorf("the file's rule is short in %g of years in the plant, %g in the inventory model", o.AsIs.Plant.Estimate, o.AsIs.Inventory.Estimate)
	}
	if o.Best.Plant.Estimate > 0.2 {
		t.Errorf("the rule advised is short in %g of years", o.Best.Plant.Estimate)
	}
}

// A plant whose orders come at once is never short, and the account of each day
// holds what the months hold.
func TestNeverShort(t *testing.T) {
	f := file(t, "product:", "biofilter: {media: 20 m3, replaced_every: 1 year}\n\nproduct:")
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	p, err := fiscal.New(f, fiscal.Options{Years: 2, Replications: 3})
	if err != nil {
		t.Fatal(err)
	}
	runs := p.Runs(s, study.Case{Alter: neverShort})
	type sums struct{ short, days, fresh, media, balance float64 }
	list, err := study.Each(context.Background(), s, runs, func(r *study.Result) (out sums, err error) {
		months := p.Of(r.Record)
		for i := range months {
			m := &months[i]
			out.short += m.Chips.HoursShort
			out.fresh += m.Chips.FreshUsed
			out.media += m.Chips.Biofilter
			if i > 0 {
				out.balance += math.Abs(m.Chips.StoreEnd - months[i-1].Chips.StoreEnd - m.Chips.Bought + m.Chips.FreshUsed + m.Chips.Biofilter)
			}
		}
		h := newHistory(months, 1)
		for _, u := range h.use[h.begins[0]:] {
			out.days += u
		}
		if n := h.begins[2] - h.begins[0]; n != 365+366 && n != 365+365 {
			t.Errorf("two fiscal years of %d days", n)
		}
		return out, nil
	}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range list {
		if c.short > 0 || c.media == 0 {
			t.Errorf("%+v", c)
		}
		near(t, "use by day", c.days, c.fresh+c.media, 1e-9*c.days)
		// Chips of different moisture settle into a little less than their parts.
		near(t, "store", c.balance, 0, 0.03*c.fresh)
	}
}

// A file without money has its price throughout, and one without a price none.
func TestWithoutMoney(t *testing.T) {
	f := file(t)
	f.Planning.Priced = false
	f.Mix.Priced, f.Mix.ChipsPrice = true, 12
	p := planner{price: priceOf(f)}
	if got := p.spend(&f.Planning.Economy, 50, 7.5); got != 600 || p.price.Escalates {
		t.Errorf("50 m3 at 12 USD/m3 cost %g USD; %+v", got, p.price)
	}
	f.Mix.Priced = false
	if p := priceOf(f); p != (Price{}) {
		t.Errorf("%+v", p)
	}
}

// A year's budget by hand: spends of 1,000 to 10,000 USD in ten replications have
// a P90 of 9,100 USD, which is a figure as it stands, and one of the ten passes
// it; 2,500 USD are passed by eight. Hours short count as a stock-out.
func TestYearByHand(t *testing.T) {
	runs := make([][]facts, 10)
	for i := range runs {
		runs[i] = make([]facts, calendar.MonthsPerYear)
		runs[i][4] = facts{spend: 1000 * float64(i+1), bought: 100, truckloads: 2, used: 80, recovered: 50, lost: 30, peak: 70, end: 20}
		if i < 3 {
			runs[i][6].short = 5
		}
	}
	p := planner{price: Price{Known: true}, o: Options{Budget: 2500}}
	year := func() (y Year) {
		tally := fiscal.NewTally[facts](len(runs))
		p.year(tally, &y, 0, "2030")
		for _, run := range runs {
			tally.Add(run)
		}
		tally.Close()
		return y
	}
	y := year()
	near(t, "P90 of spend", y.Spend.P90, 9100, 1e-9)
	near(t, "budget", y.Budget, 9100, 1e-9)
	near(t, "passed", y.Passing.Estimate, 0.1, 1e-12)
	near(t, "asked", y.PassingAsked.Estimate, 0.8, 1e-12)
	near(t, "stock-out", y.StockOut.Estimate, 0.3, 1e-12)
	near(t, "lost", y.Lost.Mean, 30, 1e-12)
	near(t, "peak", y.StorePeak.P50, 70, 0)
	near(t, "end", y.StoreEnd.P50, 0, 0)
	p.price.Known = false
	if y := year(); y.Budget != 0 {
		t.Errorf("a budget of %g USD without a price", y.Budget)
	}
}

// A budget is rounded up to a figure that people write, by at most two per cent
// or so.
func TestFigure(t *testing.T) {
	for _, c := range []struct{ amount, want float64 }{
		{65340, 66000}, {61000, 61000}, {9979, 10000}, {11880, 12000}, {123456, 124000}, {150100, 152000}, {0, 0}, {99, 99}, {1.5, 1.5}, {8910, 9000},
	} {
		near(t, "figure", figure(c.amount), c.want, 1e-6)
	}
}

// Interrupted, it returns the reason.
func TestInterrupted(t *testing.T) {
	f := file(t)
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Ask(ctx, s, answer.Setup{}, Options{Options: fiscal.Options{Years: 1, Replications: 2}, StockOut: 0.05}); err != context.Canceled {
		t.Errorf("got %v", err)
	}
}

// Altering the rule does not touch the file's model.
func TestAlterLeavesTheFile(t *testing.T) {
	f := file(t)
	before := f.Model.Chips
	m := f.Model
	neverShort(&m)
	if !reflect.DeepEqual(f.Model.Chips, before) {
		t.Error("the file's chips have changed")
	}
	if _, err := plant.New(m); err != nil {
		t.Errorf("not a valid plant: %v", err)
	}
}

// The amendments of a plan add up: months to years, what is bought and comes from own
// sources at the prices of the file to the money (without a rise, which the economy of
// these tests has for chips alone), the end of the year is that of its last month, and
// chips and amendments together to the spend of both. The budget of both is no more than
// those of each, rounded.
func TestAmendmentsOfAPlanAddUp(t *testing.T) {
	f := priced(file(t, "\nmix:\n", `
materials:
  - {name: sawdust, moisture: 35 %, volatile_solids: 98 %, slowly_degradable: 25 %, nitrogen: 0.2 %, bulk_density: 240 kg/m3, cost: 12 USD/m3}
  - {name: yard waste, moisture: 45 %, volatile_solids: 85 %, slowly_degradable: 20 %, nitrogen: 0.8 %, bulk_density: 300 kg/m3, cost: 1 USD/m3}
mix:
  amendments:
    - {material: sawdust, to_cake: 0.2, store: 30 m3, bought: {reorder_at: 10 m3, order_up_to: 30 m3, truckload: 15 m3, lead_time: 9 day}}
    - {material: yard waste, to_cake: 0.2, when_short: do without, store: 10 m3, own_per_day: 1 m3/day, own_price: 3 USD/m3}
`, "\nchips:\n", "\nchips:\n  price: 10 USD/m3\n"))
	a := planWith(t, f, 0, fiscal.Options{Years: 2, Begins: 7, Replications: 4}, Options{})
	x := &a.Amendments
	if len(x.Years) != 4 || len(x.Months) != 48 || len(x.Whole) != 2 {
		t.Fatalf("%d years and %d months of amendments, %d of all", len(x.Years), len(x.Months), len(x.Whole))
	}
	for i := range x.Years {
		year, months := &x.Years[i], x.Months[12*i:12*i+12]
		for _, s := range []struct {
			name string
			of   func(*AmendmentFlows) answer.Spread
		}{
			{"bought", func(f *AmendmentFlows) answer.Spread { return f.Bought }}, {"truckloads", func(f *AmendmentFlows) answer.Spread { return f.Truckloads }},
			{"own", func(f *AmendmentFlows) answer.Spread { return f.Own }}, {"used", func(f *AmendmentFlows) answer.Spread { return f.Used }},
			{"missed", func(f *AmendmentFlows) answer.Spread { return f.Missed }}, {"waited", func(f *AmendmentFlows) answer.Spread { return f.HoursShort }},
			{"spend", func(f *AmendmentFlows) answer.Spread { return f.Spend }},
		} {
			total := 0.0
			for j := range months {
				total += s.of(&months[j].AmendmentFlows).Mean
			}
			near(t, year.Name+" "+year.Label+" "+s.name, s.of(&year.AmendmentFlows).Mean, total, 1e-9*(1+total))
		}
		if months[0].Name != year.Name || year.Used.Mean <= 0 {
			t.Errorf("months of %s in a year of %s, of which %g m3 are mixed", months[0].Name, year.Name, year.Used.Mean)
		}
		near(t, "store at the end", year.StoreEnd.P50, months[11].StoreEnd.P50, 0)
		near(t, "spend", year.Spend.Mean, 12*year.Bought.Mean+3*year.Own.Mean, 1e-6*(1+year.Spend.Mean))
		near(t, "volume of truckloads", year.Bought.Mean, 15*year.Truckloads.Mean, 1e-6)
	}
	for y := range x.Whole {
		whole := &x.Whole[y]
		near(t, "spend on all", whole.Spend.Mean, a.Years[y].Spend.Mean+x.Years[y].Spend.Mean+x.Years[2+y].Spend.Mean, 1e-6*whole.Spend.Mean)
		if each := a.Years[y].Budget + x.Years[y].Budget + x.Years[2+y].Budget; whole.Budget > 1.03*each || whole.Budget < whole.Spend.P90 {
			t.Errorf("a budget of %g for all, %g for each by itself, P90 %g", whole.Budget, each, whole.Spend.P90)
		}
	}
}
