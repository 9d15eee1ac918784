package report

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/productplan"
)

func sampleProductFlows(v float64) productplan.Flows {
	return productplan.Flows{
		Volume: spreadAround(v), Wet: spreadAround(570 * v), Dry: spreadAround(270 * v), Taken: spreadAround(0.9 * v), Unmet: spreadAround(0.3 * v),
		StorePeak: spreadAround(900), StoreEnd: spreadAround(600), HoursFull: spreadAround(v / 10), Revenue: spreadAround(4 * v), Full: seen(v / 2500), Short: seen(v / 1500),
	}
}

// sampleProduct is a plan with invented figures for some fiscal years from July.
func sampleProduct(years int) *productplan.Answer {
	a := &productplan.Answer{
		Facility: "Fennick Valley compost plant", Source: "built-in example fennick-valley", Invented: true, Version: "0",
		Seed: 1, Replications: 100, Begins: time.July, Level: fiscal.Level,
		Growths: []fiscal.Share{{Name: "slow", Weight: 0.25, Replications: 25}, {Name: "as expected", Weight: 0.75, Replications: 75}},
		Store:   1223,
		Price:   productplan.Price{Known: true, Monthly: [12]float64{3: 7, 8: 5}, Stated: 2027, Escalation: 0.025},
	}
	for y := range years {
		year := productplan.Year{Label: fiscalLabel(y), Flows: sampleProductFlows(800 + 20*float64(y))}
		year.Glut = productplan.Season{Months: []time.Month{11, 12, 1}, Chance: 0.4}
		year.Shortage = productplan.Season{Months: []time.Month{4}, Chance: 0.7}
		a.Years = append(a.Years, year)
		for m := range 12 {
			d := time.Date(2027+y, time.July+time.Month(m), 1, 0, 0, 0, 0, time.UTC)
			a.Months = append(a.Months, productplan.Month{Month: fiscal.Month{Year: d.Year(), Month: d.Month()}, Flows: sampleProductFlows(50 + 3*float64(m))})
		}
	}
	return a
}

// plainProduct never has too much or too little, in a file without money.
func plainProduct() *productplan.Answer {
	a := sampleProduct(1)
	a.Begins, a.Growths, a.Invented, a.Price = time.January, nil, false, productplan.Price{}
	y := &a.Years[0]
	y.Full, y.Short, y.Glut, y.Shortage = seen(0), seen(0), productplan.Season{}, productplan.Season{}
	return a
}

// The plan of the product reads as reviewed, fits the screen, and begins with
// what to expect.
func TestProductGolden(t *testing.T) {
	rare := sampleProduct(4)
	rare.Years[0].Glut.Months = nil
	rare.Years[0].Shortage.Months = []time.Month{7, 8, 9, 10, 11, 12, 1, 2, 3, 4, 5, 6}
	rare.Years[0].Short.Estimate = 1
	for _, sys := range systems {
		for _, c := range []struct {
			name string
			a    *productplan.Answer
		}{{"product", sampleProduct(2)}, {"product_years", rare}, {"product_plain", plainProduct()}} {
			got := text(t, func(b *bytes.Buffer) error { return ProductTerminal(b, c.a, sys) })
			golden(t, c.name+"_"+sys.String()+".txt", []byte(got))
			fits(t, c.name, got)
			if !strings.HasPrefix(got, "Expect ") {
				t.Errorf("%s begins with %.40q", c.name, got)
			}
		}
	}
}

func TestProductFilesGolden(t *testing.T) {
	for _, sys := range systems {
		golden(t, "product_files_"+sys.String()+".txt", fileNames(t, func() ([]File, error) { return ProductFiles(sampleProduct(1), sys) }))
		golden(t, "product_files_plain_"+sys.String()+".txt", fileNames(t, func() ([]File, error) { return ProductFiles(plainProduct(), sys) }))
	}
}
