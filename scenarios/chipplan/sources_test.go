package chipplan

import (
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
)

// sourced is the smallest built-in facility with two suppliers and wood of its own, at 10
// and 20 USD/m3 and 4 to process, of an economy of these tests.
func sourced(t *testing.T) *Answer {
	t.Helper()
	f := file(t)
	c := &f.Model.Chips
	first := plant.ChipSource{Name: "sawmill", Fresh: c.Fresh, Moisture: c.Moisture, Truckload: c.Truckload, LeadTime: c.LeadTime, LeadCV: c.LeadCV, Most: c.Truckload}
	second, own := first, first
	second.Name, second.Most = "chipper", 0
	own.Name, own.Truckload, own.Most = "yard wood", 0, 0
	for i := range own.Own {
		own.Own[i] = 0.3
	}
	c.Sources = []plant.ChipSource{first, second, own}
	c.Combine()
	priced(f)
	f.Planning.Economy.ChipSources = [][12]float64{flat(1), flat(2), flat(0.4)}
	return plan(t, f, fiscal.Options{Years: 2, Replications: 3}, Options{})
}

func flat(v float64) (out [12]float64) {
	for i := range out {
		out[i] = v
	}
	return out
}

// The parts by source add up: what suppliers bring is what is bought, what all cost is
// the spend of chips, months make years, and a m3 costs what its source's price is in
// the month in which it comes. No supplier but the last is asked for more than a truckload a month.
func TestSourcesOfAPlanAddUp(t *testing.T) {
	a := sourced(t)
	if len(a.Sources.Years) != 3*len(a.Years) || len(a.Sources.Months) != 3*len(a.Months) {
		t.Fatalf("%d years, %d months", len(a.Sources.Years), len(a.Sources.Months))
	}
	prices := map[string]float64{"sawmill": 10, "chipper": 20, "yard wood": 4}
	for y := range a.Years {
		bought, spend := 0.0, 0.0
		for s := range 3 {
			source := &a.Sources.Years[s*len(a.Years)+y]
			spend += source.Spend.Mean
			if source.Name != "yard wood" {
				bought += source.Volume.Mean
			}
			if source.Volume.Mean <= 0 || source.Budget < source.Spend.P90 {
				t.Errorf("%+v", source)
			}
			volume := 0.0
			for i := range 12 {
				m := &a.Sources.Months[s*len(a.Months)+y*12+i]
				volume += m.Volume.Mean
				// From the price of 2027, 3 % a year, each month at its middle or end.
				if m.Volume.Mean > 0 {
					rise := m.Spend.Mean / m.Volume.Mean / prices[m.Name]
					if years := float64(y) + float64(i)/12; rise < 1+0.02*years || rise > 1.01+0.035*(years+1) {
						t.Errorf("%s in month %d of year %d: %g times the price", m.Name, i, y, rise)
					}
				}
			}
			near(t, source.Name+" by month", volume, source.Volume.Mean, 1e-9*volume)
		}
		near(t, "bought", bought, a.Years[y].Bought.Mean, 1e-9*bought)
		near(t, "spend", spend, a.Years[y].Spend.Mean, 1e-9*spend)
	}
	for _, m := range a.Sources.Months {
		if m.Name == "sawmill" && m.Truckloads.P90 > 2 { // one that was late and that of the month
			t.Errorf("%v: %g truckloads of the sawmill", m.Month, m.Truckloads.P90)
		}
	}
	text := strings.Join(strings.Fields(rendertest.Text(t, a.Document(), units.SI)), " ")
	for _, words := range []string{"Sources of chips by year", "yard wood", "must be bought or come by itself", "the price of the first supplier, in the mean of the months, is"} {
		if !strings.Contains(text, words) {
			t.Errorf("%q is not told in %s", words, text)
		}
	}
	if one := rendertest.Text(t, plan(t, priced(file(t)), fiscal.Options{Years: 1, Replications: 2}, Options{}).Document(), units.SI); strings.Contains(one, "ource") || strings.Contains(one, "by itself") {
		t.Errorf("sources of one supplier: %s", one)
	}
}

// Orders of several suppliers on one day are one order, by hand: two of the first and one of
// the second on 3 April, and two of the second on 20 May.
func TestOrdersOfSeveralSuppliersByHand(t *testing.T) {
	april, may := calendar.Date{Year: 2027, Month: 4, Day: 3}, calendar.Date{Year: 2027, Month: 5, Day: 20}
	run := []plant.ChipOrder{{Date: april, Truckloads: 2}, {Date: april, Truckloads: 1, Source: 1}, {Date: may, Truckloads: 2, Source: 1}}
	got := ordersOf([][]plant.ChipOrder{run}, calendar.Date{Year: 2027, Month: 4, Day: 1})
	if len(got) != 2 || got[0].Truckloads.P50 != 3 || got[0].Median != april || got[1].Truckloads.P50 != 2 || got[1].Median != may {
		t.Errorf("%+v", got)
	}
}

// What comes by itself need not be bought, by hand: of a use of 4 m3 a day in a month of 30
// days 30 m3 come by themselves, a quarter, so that 3 m3 a day are to be bought.
func TestOwnWoodIsNotBought(t *testing.T) {
	months := make([]fiscal.Goods, calendar.MonthsPerYear)
	for i := range months {
		m := &months[i]
		m.Days, m.Chips.Own, m.Chips.FreshUsed = 30, 30, 120
		for day := range 30 {
			m.Chips.FreshByDay[day] = 4
		}
	}
	for day, use := range newHistory(months, 10).use {
		near(t, "use", use, 3, 1e-12)
		if day > 40 {
			break
		}
	}
	months[0].Chips.Own = 500 // more than is used
	if use := newHistory(months, 10).use[5]; use != 0 {
		t.Errorf("%g m3 to be bought", use)
	}
}
