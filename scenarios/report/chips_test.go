package report

import (
	"bytes"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/chipplan"
	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/units"
	"loamcast/sim/stats"
)

// spreadAround is an invented spread around a value.
func spreadAround(v float64) answer.Spread {
	return answer.Spread{Mean: v, P10: 0.9 * v, P50: 0.99 * v, P90: 1.1 * v}
}

func seen(estimate float64) stats.Interval {
	return stats.Interval{Estimate: estimate, Low: max(0, estimate-0.04), High: min(1, estimate+0.04), Level: 0.95}
}

func sampleChipFlows(v float64) chipplan.Flows {
	return chipplan.Flows{
		Bought: spreadAround(v), Truckloads: spreadAround(v / 69), Used: spreadAround(3 * v), Recovered: spreadAround(2.1 * v), Lost: spreadAround(0.9 * v), Media: spreadAround(v / 50),
		StorePeak: spreadAround(290), StoreEnd: spreadAround(180), HoursShort: spreadAround(v / 1000), Spend: spreadAround(15 * v), StockOut: seen(v / 50000),
	}
}

// sampleChips is a plan with invented figures for some fiscal years from July.
func sampleChips(years int) *chipplan.Answer {
	a := &chipplan.Answer{
		Facility: "Fennick Valley compost plant", Source: "built-in example fennick-valley", Invented: true, Version: "0",
		Seed: 1, Replications: 100, Begins: time.July, Level: fiscal.Level,
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
	for y := range years {
		a.Years = append(a.Years, chipplan.Year{Label: fiscalLabel(y), Flows: sampleChipFlows(700 + 20*float64(y)),
			Budget: 12000, Passing: seen(0.08), AskedBudget: 10000, PassingAsked: seen(0.55)})
		for m := range 12 {
			d := time.Date(2027+y, time.July+time.Month(m), 1, 0, 0, 0, 0, time.UTC)
			a.Months = append(a.Months, chipplan.Month{Month: fiscal.Month{Year: d.Year(), Month: d.Month()}, Flows: sampleChipFlows(40 + 3*float64(m)),
				BoughtToDate: spreadAround(50 * float64(m+1)), SpendToDate: spreadAround(700 * float64(m+1))})
		}
	}
	return a
}

func fiscalLabel(y int) string { return []string{"2027/28", "2028/29", "2029/30", "2030/31"}[y] }

// withoutPrice is a plan of a file that says nothing of money, whose store is
// too small and whose plant stays short.
func withoutPrice() *chipplan.Answer {
	a := sampleChips(1)
	a.Begins, a.Growths, a.Invented = time.January, a.Growths[:1], false
	a.Price = chipplan.Price{}
	a.Years[0].AskedBudget = 0
	o := &a.Ordering
	o.Cost, o.Fits, o.Kept, o.Simulated = chipplan.CostModel{}, false, false, 3
	o.Best.OrderUpTo, o.Best.Plant = 500, seen(0.12)
	return a
}

func text(t *testing.T, render func(*bytes.Buffer) error) string {
	t.Helper()
	var b bytes.Buffer
	if err := render(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// fits checks that a text fits the screen.
func fits(t *testing.T, name, text string) {
	t.Helper()
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	if len(lines) > screenLines {
		t.Errorf("%s: %d lines", name, len(lines))
	}
	for _, line := range lines {
		if n := utf8.RuneCountInString(line); n > screenColumns {
			t.Errorf("%s: %d columns: %q", name, n, line)
		}
	}
}

// The purchase plan reads as reviewed, fits the screen, and begins with what to
// buy; a price that is not known leaves no column of money.
func TestChipsGolden(t *testing.T) {
	flat := sampleChips(4)
	flat.Price.Escalates = false
	flat.Ordering.Cost.Ordering = 150
	for _, sys := range systems {
		for _, c := range []struct {
			name string
			a    *chipplan.Answer
		}{{"chips", sampleChips(2)}, {"chips_years", flat}, {"chips_no_price", withoutPrice()}} {
			got := text(t, func(b *bytes.Buffer) error { return ChipsTerminal(b, c.a, sys) })
			golden(t, c.name+"_"+sys.String()+".txt", []byte(got))
			fits(t, c.name, got)
			if !strings.HasPrefix(got, "Buy ") {
				t.Errorf("%s begins with %.40q", c.name, got)
			}
		}
	}
	if got := text(t, func(b *bytes.Buffer) error { return ChipsTerminal(b, withoutPrice(), units.SI) }); strings.Contains(got, "USD") {
		t.Error("money without a price")
	}
}

// The files, the columns of tables and the fields of JSON are part of the output
// format.
func TestChipsFilesGolden(t *testing.T) {
	for _, sys := range systems {
		golden(t, "chips_files_"+sys.String()+".txt", fileNames(t, func() ([]File, error) { return ChipsFiles(sampleChips(1), sys) }))
		golden(t, "chips_files_no_price_"+sys.String()+".txt", fileNames(t, func() ([]File, error) { return ChipsFiles(withoutPrice(), sys) }))
	}
}

// Chances are written with what replications can tell.
func TestChances(t *testing.T) {
	for _, c := range []struct {
		share float64
		want  string
	}{{0, "0 %"}, {0.003, "0.3 %"}, {0.01, "1 %"}, {0.096, "10 %"}, {0.996, "99.6 %"}, {1, "100 %"}} {
		if got := plainSpaces(shareText(c.share)); got != c.want {
			t.Errorf("%g: %q, want %q", c.share, got, c.want)
		}
	}
	if got := plainSpaces(chance(stats.Interval{High: 0.037})); got != "less than 4 %" {
		t.Errorf("never seen: %q", got)
	}
}

// Months in a row are named by their ends, also over the turn of the year.
func TestMonthsText(t *testing.T) {
	for _, c := range []struct {
		months []time.Month
		want   string
	}{
		{[]time.Month{3}, "Mar"}, {[]time.Month{3, 4}, "Mar and Apr"}, {[]time.Month{11, 12, 1, 2}, "Nov to Feb"},
		{[]time.Month{8, 9, 10, 12, 4}, "Aug to Oct, Dec and Apr"},
	} {
		if got := monthsText(c.months); got != c.want {
			t.Errorf("%v: %q, want %q", c.months, got, c.want)
		}
	}
}
