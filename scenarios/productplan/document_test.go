package productplan_test

import (
	"strings"
	"testing"
	"time"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/productplan"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/units"
)

func sampleFlows(v float64) productplan.Flows {
	around, seen := rendertest.Around, rendertest.Seen
	return productplan.Flows{
		Volume: around(v), Wet: around(570 * v), Dry: around(270 * v), Taken: around(0.9 * v), Unmet: around(0.3 * v),
		StorePeak: around(900), StoreEnd: around(600), HoursFull: around(v / 10), Revenue: around(4 * v), Full: seen(v / 2500), Short: seen(v / 1500),
	}
}

// sample is a plan with invented figures for some fiscal years from July.
func sample(years int) *productplan.Answer {
	a := &productplan.Answer{
		Basis: rendertest.Basis(), Naming: fiscal.Naming{Begins: time.July},
		Growths: []fiscal.Share{{Name: "slow", Weight: 0.25, Replications: 25}, {Name: "as expected", Weight: 0.75, Replications: 75}},
		Store:   1223,
		Price:   productplan.Price{Known: true, Monthly: [12]float64{3: 7, 8: 5}, Stated: 2027, Escalation: 0.025},
	}
	labels := []string{"2027/28", "2028/29", "2029/30", "2030/31"}
	for y := range years {
		year := productplan.Year{Label: labels[y], Flows: sampleFlows(800 + 20*float64(y))}
		year.Glut = productplan.Season{Months: []time.Month{11, 12, 1}, Chance: 0.4}
		year.Shortage = productplan.Season{Months: []time.Month{4}, Chance: 0.7}
		a.Years = append(a.Years, year)
		for m := range 12 {
			d := time.Date(2027+y, time.July+time.Month(m), 1, 0, 0, 0, 0, time.UTC)
			a.Months = append(a.Months, productplan.Month{Month: fiscal.Month{Year: d.Year(), Month: d.Month()}, Flows: sampleFlows(50 + 3*float64(m))})
		}
	}
	return a
}

// plain never has too much or too little, in a file without money.
func plain() *productplan.Answer {
	a := sample(1)
	a.Begins, a.Growths, a.Invented, a.Price = time.January, nil, false, productplan.Price{}
	y := &a.Years[0]
	y.Label = "2027"
	y.Full, y.Short, y.Glut, y.Shortage = rendertest.Seen(0), rendertest.Seen(0), productplan.Season{}, productplan.Season{}
	return a
}

// The plan of the product reads as reviewed, fits the screen, and begins with
// what to expect.
func TestDocumentReads(t *testing.T) {
	rare := sample(4)
	rare.Years[0].Glut.Months = nil
	rare.Years[0].Shortage.Months = []time.Month{7, 8, 9, 10, 11, 12, 1, 2, 3, 4, 5, 6}
	rare.Years[0].Short.Estimate = 1
	rendertest.Reads(t, "product", sample(2).Document())
	rendertest.Reads(t, "product_years", rare.Document())
	rendertest.Reads(t, "product_plain", plain().Document())
	if got := rendertest.Text(t, plain().Document(), units.SI); !strings.HasPrefix(got, "Expect ") {
		t.Errorf("it begins with %.40q", got)
	}
}

// The files, the columns of tables and the members of JSON are part of the
// output format.
func TestDocumentLeaves(t *testing.T) {
	rendertest.Leaves(t, "product", sample(1).Document())
	rendertest.Leaves(t, "product_plain", plain().Document())
}

// The picture says in words what it shows, in the units asked for.
func TestDocumentDraws(t *testing.T) {
	d := sample(2).Document()
	rendertest.Draws(t, d, units.US, []string{"yd3 a month", "screened, P10–P90", "taken", "demand not met", "room", "Jan 2028"}, nil)
	rendertest.Draws(t, d, units.SI, []string{"m3 of compost in the store"}, []string{"yd3"})
}

// named is a plan of a file in euros that has fiscal years of its own, named by the
// year in which they end.
func named() *productplan.Answer {
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
	rendertest.Without(t, "product_named", named().Document(), "USD", "usd", "2027/28", "fiscal year FY")
}
