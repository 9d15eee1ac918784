package productplan

import (
	"context"
	"math"
	"reflect"
	"slices"
	"testing"
	"time"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/money"
	"loamcast/scenarios/study"
)

// file is the smallest of the built-in facilities; it begins in April 2027.
func file(t testing.TB) *facilityfile.File {
	t.Helper()
	f, err := facilityfile.Parse("dunmarrow", examples.Data("dunmarrow"))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func plan(t testing.TB, f *facilityfile.File, ask fiscal.Options, workers int) *Answer {
	t.Helper()
	s, err := study.New(f, workers)
	if err != nil {
		t.Fatal(err)
	}
	a, err := Ask(context.Background(), s, answer.Setup{}, ask)
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

// Months add up to years; what is screened is taken or stays in the store;
// revenue is the volume taken times the price of its month, worked out here
// again; and one worker finds what two find.
func TestPlanAddsUp(t *testing.T) {
	f := file(t)
	f.Planning.Priced = true
	e := &f.Planning.Economy
	e.ProductPrice = [12]float64{time.April - 1: 7, time.September - 1: 4}
	e.Prices.Product = money.Price{Escalation: 0.02}
	e.Rates = money.Rates{Stated: 2027, Start: 2027.25}
	ask := fiscal.Options{Years: 2, Begins: time.July, Replications: 4}
	a := plan(t, f, ask, 2)
	if again := plan(t, f, ask, 1); !reflect.DeepEqual(a, again) {
		t.Error("another plan with one worker")
	}
	for y := range a.Years {
		year, months := &a.Years[y], a.Months[12*y:12*y+12]
		revenue := 0.0
		for i := range months {
			price := e.ProductPrice[months[i].Month.Month-1]
			revenue += price * math.Pow(1.02, 0.5+float64(y)+(float64(i)+0.5)/12) * months[i].Taken.Mean
		}
		near(t, "revenue", year.Revenue.Mean, revenue, 1e-6*(1+revenue))
		for name, of := range map[string]func(*Flows) answer.Spread{
			"volume": func(f *Flows) answer.Spread { return f.Volume }, "wet": func(f *Flows) answer.Spread { return f.Wet },
			"dry": func(f *Flows) answer.Spread { return f.Dry }, "taken": func(f *Flows) answer.Spread { return f.Taken },
			"unmet": func(f *Flows) answer.Spread { return f.Unmet }, "hours full": func(f *Flows) answer.Spread { return f.HoursFull },
		} {
			total := 0.0
			for i := range months {
				total += of(&months[i].Flows).Mean
			}
			near(t, year.Label+" "+name, of(&year.Flows).Mean, total, 1e-9*(1+total))
		}
	}
	// Product that settles together takes a little less room than its lots.
	first, second := &a.Years[0], &a.Years[1]
	kept := second.StoreEnd.Mean - first.StoreEnd.Mean
	near(t, "the store's account", kept, second.Volume.Mean-second.Taken.Mean, 0.02*second.Volume.Mean)
	if first.Volume.Mean == 0 || first.Dry.Mean >= first.Wet.Mean || first.Revenue.Mean == 0 || a.Months[0].Month.Month != time.July {
		t.Errorf("%+v from %v", first, a.Months[0].Month)
	}
}

// A store without demand fills up and blocks the screen, and says in which
// months; a demand without end leaves all of it unmet but the product.
func TestGlutAndShortage(t *testing.T) {
	glut := file(t)
	glut.Model.Product.Demand = [12]float64{}
	glut.Model.Product.Capacity = 200
	y := plan(t, glut, fiscal.Options{Years: 1, Replications: 2}, 0).Years[0]
	if y.Full.Estimate != 1 || y.HoursFull.Mean < 1000 || len(y.Glut.Months) == 0 || y.Short.Estimate != 0 || y.StorePeak.P90 > 200 {
		t.Errorf("without demand: %+v", y)
	}
	short := file(t)
	for i := range short.Model.Product.Demand {
		short.Model.Product.Demand[i] = 1000
	}
	y = plan(t, short, fiscal.Options{Years: 1, Replications: 2}, 0).Years[0]
	if y.Full.Estimate != 0 || len(y.Shortage.Months) != 12 || y.Shortage.Chance != 1 {
		t.Errorf("with demand without end: %+v", y)
	}
	near(t, "unmet", y.Unmet.Mean+y.Taken.Mean, 366*1000, 1000) // 2028 is a leap year
}

// A month is named when the chance is notable, and the season has the greatest.
func TestSeason(t *testing.T) {
	months := make([]Month, 12)
	chances := []float64{0, 0.09, 0.1, 0.5, 0.2}
	for i := range months {
		months[i].Month.Month = time.Month(i + 1)
		if i < len(chances) {
			months[i].Full.Estimate = chances[i]
		}
	}
	s := season(months, func(m *Month) float64 { return m.Full.Estimate })
	if !slices.Equal(s.Months, []time.Month{3, 4, 5}) || s.Chance != 0.5 {
		t.Errorf("%+v", s)
	}
}
