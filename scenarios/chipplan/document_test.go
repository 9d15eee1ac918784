package chipplan_test

import (
	"strings"
	"testing"
	"time"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/chipplan"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
)

func sampleFlows(v float64) chipplan.Flows {
	around := rendertest.Around
	return chipplan.Flows{
		Bought: around(v), Truckloads: around(v / 69), Used: around(3 * v), FreshUsed: around(1.02 * v), Recovered: around(2.1 * v), Lost: around(0.9 * v), Media: around(v / 50),
		StorePeak: around(290), StoreEnd: around(180), HoursShort: around(v / 1000), Spend: around(15 * v), StockOut: rendertest.Seen(v / 50000),
	}
}

// sample is a plan with invented figures for some fiscal years from July.
func sample(years int) *chipplan.Answer {
	seen := rendertest.Seen
	a := &chipplan.Answer{
		Basis: rendertest.Basis(), Naming: fiscal.Naming{Begins: time.July},
		Growths: []fiscal.Share{{Name: "slow", Weight: 0.25, Replications: 25}, {Name: "as expected", Weight: 0.75, Replications: 75}},
		Price:   chipplan.Price{Known: true, Amount: 14.4, Escalates: true, Stated: 2027, Escalation: 0.03},
		Ordering: chipplan.Ordering{
			Store: 321, Truckload: 68.8, LeadTime: 6, LeadCV: 0.35, Limit: 0.05, Tried: 88, Simulated: 1, Fits: true, Kept: true,
			Cost: chipplan.CostModel{InMoney: true, Capital: 0.72},
			AsIs: chipplan.Trial{Rule: chipplan.Rule{Reorder: 99.4, OrderUpTo: 305.8}, MeanStock: 187, OrdersPerYear: 3.3, Cost: 135,
				Inventory: seen(0), Plant: seen(0)},
			Best: chipplan.Trial{Rule: chipplan.Rule{Reorder: 61.9, OrderUpTo: 130.7}, MeanStock: 83, OrdersPerYear: 10.1, Cost: 60,
				Inventory: seen(0.023), Plant: seen(0.01)},
		},
	}
	labels := []string{"2027/28", "2028/29", "2029/30", "2030/31"}
	for y := range years {
		day := func(month time.Month, day int) calendar.Date {
			return calendar.Date{Year: 2027 + y, Month: month, Day: day}
		}
		orders := []chipplan.Order{
			{Number: 1, Early: day(7, 20), Median: day(8, 14), Late: day(9, 3), Truckloads: rendertest.Around(3), Share: 1},
			{Number: 2, Early: day(10, 2), Median: day(11, 9), Late: day(12, 30), Truckloads: rendertest.Around(2), Share: 0.7},
		}
		a.Years = append(a.Years, chipplan.Year{Label: labels[y], Flows: sampleFlows(700 + 20*float64(y)), Orders: orders,
			Budget: 12000, Passing: seen(0.08), AskedBudget: 10000, PassingAsked: seen(0.55)})
		for m := range 12 {
			d := time.Date(2027+y, time.July+time.Month(m), 1, 0, 0, 0, 0, time.UTC)
			a.Months = append(a.Months, chipplan.Month{Month: fiscal.Month{Year: d.Year(), Month: d.Month()}, Flows: sampleFlows(40 + 3*float64(m)),
				BoughtToDate: rendertest.Around(50 * float64(m+1)), SpendToDate: rendertest.Around(700 * float64(m+1))})
		}
	}
	return a
}

// withoutPrice is a plan of a file that says nothing of money, whose store is
// too small and whose plant stays short.
func withoutPrice() *chipplan.Answer {
	a := sample(1)
	a.Begins, a.Growths, a.Invented = time.January, a.Growths[:1], false
	a.Years[0].Label = "2027"
	a.Price = chipplan.Price{}
	a.Years[0].AskedBudget = 0
	o := &a.Ordering
	o.Cost, o.Fits, o.Kept, o.Simulated = chipplan.CostModel{}, false, false, 3
	o.Best.OrderUpTo, o.Best.Plant = 500, rendertest.Seen(0.12)
	return a
}

// The purchase plan reads as reviewed, fits the screen, and begins with what to
// buy; a price that is not known leaves no column of money.
func TestDocumentReads(t *testing.T) {
	flat := sample(4)
	flat.Price.Escalates = false
	flat.Ordering.Cost.Ordering = 150
	rendertest.Reads(t, "chips", sample(2).Document())
	rendertest.Reads(t, "chips_years", flat.Document())
	rendertest.Reads(t, "chips_no_price", withoutPrice().Document())
	if got := rendertest.Text(t, withoutPrice().Document(), units.SI); strings.Contains(got, "USD") || !strings.HasPrefix(got, "Buy ") {
		t.Errorf("money without a price, or no answer at the beginning: %s", got)
	}
}

// Of more replications than rules are compared on, the plan says by how many; of as many it
// need not.
func TestManyReplicationsAreSaid(t *testing.T) {
	a := sample(1)
	for runs, want := range map[int]bool{answer.ExactRuns: false, answer.ExactRuns + 1: true} {
		a.Replications = runs
		screen := strings.Join(strings.Fields(rendertest.Text(t, a.Document(), units.US)), " ")
		for _, words := range []string{"at most 5 % of years, by the first 2000 replications", "Of more than 2000 replications quantiles are those of a summary"} {
			if strings.Contains(strings.ReplaceAll(screen, "\u00a0", " "), words) != want {
				t.Errorf("of %d replications %q is said or not: %v\n%s", runs, words, !want, screen)
			}
		}
	}
}

// The files, the columns of tables and the members of JSON are part of the
// output format.
func TestDocumentLeaves(t *testing.T) {
	rendertest.Leaves(t, "chips", sample(1).Document())
	rendertest.Leaves(t, "chips_no_price", withoutPrice().Document())
}

// The picture says in words what it shows, in the units asked for.
func TestDocumentDraws(t *testing.T) {
	d := sample(2).Document()
	rendertest.Draws(t, d, units.US, []string{"yd3 a month", "since the fiscal year began", "median", "recovered", "room", "Jan 2028", "invented data"}, nil)
	rendertest.Draws(t, d, units.SI, []string{"m3 a month"}, []string{"yd3"})
}

// withAmendments is a plan whose recipe has sawdust that is bought, and product.
func withAmendments() *chipplan.Answer {
	a := sample(2)
	around, seen := rendertest.Around, rendertest.Seen
	flows := func(v, price float64) chipplan.AmendmentFlows {
		return chipplan.AmendmentFlows{Bought: around(v), Truckloads: around(v / 25), Own: around(v / 3), Used: around(1.3 * v), Missed: around(v / 40),
			StorePeak: around(55), StoreEnd: around(31), HoursShort: around(v / 90), Spend: around(price * v)}
	}
	for i, name := range []string{"sawdust", "product"} {
		price := 18 * float64(1-i)
		for _, m := range a.Months {
			a.Amendments.Months = append(a.Amendments.Months, chipplan.AmendmentMonth{Name: name, Month: m.Month, AmendmentFlows: flows(12, price)})
		}
		for _, y := range a.Years {
			a.Amendments.Years = append(a.Amendments.Years, chipplan.AmendmentYear{Name: name, Label: y.Label, AmendmentFlows: flows(144, price),
				Budget: 3000 * float64(1-i), Passing: seen(0.09)})
		}
	}
	for _, y := range a.Years {
		a.Amendments.Whole = append(a.Amendments.Whole, chipplan.WholeBudget{Label: y.Label, Spend: around(13000), Budget: 14500, Passing: seen(0.1)})
	}
	return a
}

// The amendments of the recipe read as reviewed beside the chips, and their files,
// columns and members are part of the output format; without the price of chips there is
// no budget of all.
func TestAmendmentsRead(t *testing.T) {
	rendertest.Reads(t, "chips_amendments", withAmendments().Document())
	rendertest.Leaves(t, "chips_amendments", withAmendments().Document())
	unpriced := withAmendments()
	unpriced.Amendments.Whole = nil
	for _, c := range []struct {
		a    *chipplan.Answer
		want bool
	}{{withAmendments(), true}, {unpriced, false}} {
		if got := strings.Contains(rendertest.Text(t, c.a.Document(), units.SI), "With chips"); got != c.want {
			t.Errorf("a budget of chips and amendments: %v, want %v", got, c.want)
		}
	}
}

// named is a plan of a file in euros that has fiscal years of its own, named by the
// year in which they end.
func named() *chipplan.Answer {
	a := sample(2)
	a.Currency, a.Fiscal = "EUR", facilityfile.FiscalYear{Begins: time.July}
	a.Own = a.Fiscal
	for y := range a.Years {
		a.Years[y].Label = a.Naming.Name(2027 + y)
	}
	return a
}

// The answer is in the file's currency and calls years as the file does, on the
// screen and in the names of files' columns and members.
func TestFilesOwnMoneyAndYears(t *testing.T) {
	rendertest.Without(t, "chips_named", named().Document(), "USD", "usd", "2027/28", "fiscal year FY")
}
