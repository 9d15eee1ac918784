package picture

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/chipplan"
	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/productplan"
	"loamcast/scenarios/units"
)

// The pictures of the monthly plans say in words what they show, in the units
// asked for, and come out the same twice.
func TestMonthlyPlanPictures(t *testing.T) {
	chips := &chipplan.Answer{Facility: "Fennick Valley", Invented: true, Level: fiscal.Level, Years: make([]chipplan.Year, 2), Ordering: chipplan.Ordering{Store: 320}}
	product := &productplan.Answer{Facility: "Fennick Valley", Invented: true, Level: fiscal.Level, Store: 1200}
	for m := range 24 {
		v := 40 + float64(m%12)
		spread := answer.Spread{Mean: v, P10: 0.8 * v, P50: v, P90: 1.2 * v}
		month := fiscal.Month{Year: 2027 + m/12, Month: time.Month(m%12 + 1)}
		chips.Months = append(chips.Months, chipplan.Month{Month: month, Flows: chipplan.Flows{Bought: spread, Recovered: spread, StorePeak: spread, StoreEnd: spread}, BoughtToDate: spread})
		product.Months = append(product.Months, productplan.Month{Month: month, Flows: productplan.Flows{Volume: spread, Taken: spread, Unmet: spread, StorePeak: spread, StoreEnd: spread}})
	}
	for _, c := range []struct {
		draw  func(units.System) []Picture
		sys   units.System
		words string
	}{
		{func(s units.System) []Picture { return ChipPlan(chips, s) }, units.US, "yd³ a month|since the fiscal year began|median|recovered|room|Jan 2028|invented data"},
		{func(s units.System) []Picture { return ChipPlan(chips, s) }, units.SI, "m³ a month|yd³ of fresh"},
		{func(s units.System) []Picture { return ProductPlan(product, s) }, units.US, "yd³ a month|screened, P10–P90|taken|demand not met|room|Jan 2028"},
		{func(s units.System) []Picture { return ProductPlan(product, s) }, units.SI, "m³ of compost in the store"},
	} {
		list, again := c.draw(c.sys), c.draw(c.sys)
		if len(list) != 1 {
			t.Fatalf("%d pictures", len(list))
		}
		svg, err := list[0].SVG()
		if err != nil {
			t.Fatal(err)
		}
		for _, word := range strings.Split(c.words, "|") {
			wanted := !(c.sys == units.SI && strings.HasPrefix(word, "yd³"))
			if bytes.Contains(svg, []byte(word)) != wanted {
				t.Errorf("%s %v: %q in it: %v", list[0].Name, c.sys, word, !wanted)
			}
		}
		if twice, _ := again[0].SVG(); !bytes.Equal(svg, twice) {
			t.Errorf("%s differs when drawn again", list[0].Name)
		}
		if png, err := list[0].PNG(); err != nil || !bytes.HasPrefix(png, []byte("\x89PNG")) {
			t.Errorf("%s: no PNG (%v)", list[0].Name, err)
		}
	}
}
