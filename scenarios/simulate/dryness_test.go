package simulate_test

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"loamcast/facility/plant"
	"loamcast/scenarios/units"
)

// The table of dryness has a row for each month of the year, with the lots that came to
// the screen in it, the share of them that was too wet and their mean moisture, as the
// months of the record have them; days of drying stand where lots are too wet and could be
// dried, its air where they are too wet, and neither elsewhere. Months without lots have
// no moisture.
func TestDrynessByMonth(t *testing.T) {
	if wet, _ := drynessByMonth(t, "46 %"); wet == 0 {
		t.Error("no lot is too wet above 46 %")
	}
	if _, dry := drynessByMonth(t, "60 %"); dry == 0 {
		t.Error("lots are too wet above 60 % in every month")
	}
}

// drynessByMonth checks the table by a limit of the screen, and returns in how many months
// lots are too wet and in how many not.
func drynessByMonth(t *testing.T, limit string) (wet, dry int) {
	t.Helper()
	a, rec, _ := one(t, edited(t, readSmall(t), "moisture_limit: 46 %", "moisture_limit: "+limit))
	rows := tables(t, a, units.SI)["dryness.csv"]
	if len(a.Dryness) != 12 || len(rows) != 13 {
		t.Fatalf("%d months, %d rows", len(a.Dryness), len(rows))
	}
	cell := func(row []string, name string) float64 {
		i := slices.IndexFunc(rows[0], func(head string) bool { return strings.HasPrefix(head, name) })
		if i < 0 {
			t.Fatalf("no column %s in %v", name, rows[0])
		}
		if row[i] == "" {
			return math.NaN()
		}
		v, err := strconv.ParseFloat(row[i], 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	for i := range a.Dryness {
		d, row := &a.Dryness[i], rows[i+1]
		in := func(of func(*plant.Month) float64) (sum float64) {
			for j := range rec.Months {
				if rec.Months[j].Month == d.Month {
					sum += of(&rec.Months[j])
				}
			}
			return sum
		}
		lots := in(func(m *plant.Month) float64 { return m.Screen.Lots })
		if d.Month != time.Month(i+1) || d.Lots != lots || cell(row, "lots_screened") != lots {
			t.Errorf("row %d is of %v with %g lots, %g in the file, %g in the record", i, d.Month, d.Lots, cell(row, "lots_screened"), lots)
		}
		if lots == 0 {
			continue
		}
		tooWet := in(func(m *plant.Month) float64 { return m.Drying.TooWet })
		if moisture := in(func(m *plant.Month) float64 { return m.Screen.Moisture }) / lots; math.Abs(d.Moisture.Mean-moisture) > 1e-12 || math.Abs(d.TooWet.Mean-tooWet/lots) > 1e-12 {
			t.Errorf("%v: %+v, in the record a moisture of %g and %g of %g lots too wet", d.Month, *d, moisture, tooWet, lots)
		}
		days, air := cell(row, "days_of_drying"), cell(row, "drying_air")
		if needed := tooWet > 0; math.IsNaN(air) == needed || !needed && !math.IsNaN(days) || needed && d.Remedy.OK != (days > 0) {
			t.Errorf("%v: %g lots too wet, %g days with %g of air, %+v", d.Month, tooWet, days, air, d.Remedy)
		}
		if tooWet > 0 {
			wet++
		} else {
			dry++
		}
	}
	return wet, dry
}
