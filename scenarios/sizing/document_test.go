package sizing

import (
	"math"
	"strings"
	"testing"
	"time"

	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
)

// sample has invented figures: four stages, of which three are passed, one in a month
// alone and one from the start, and one comes late.
func sample() *Answer {
	nan := math.NaN()
	basis := rendertest.Basis()
	basis.Start, basis.Horizon = calendar.Date{Year: 2027, Month: time.July, Day: 1}, 3
	return &Answer{
		Basis: basis, Vessels: 8, Warnings: 1, Handbook: 1,
		Years: []Year{{Label: "2027/28", Mean: 500, Peak: 600, Highest: time.August}, {Label: "2028/29", Mean: 540, Peak: 650, Highest: time.August}, {Label: "2029/30", Mean: 580, Peak: 700, Highest: time.August}},
		Stages: []Stage{
			{"product demand", []float64{480, 480, 480}, Never, 0},
			{"vessels", []float64{560, 560, 560}, 0, 2},
			{"curing pad", []float64{640, 640, 640}, 1, Never},
			{"screen", []float64{900, 900, 900}, Never, Never},
			{"aerated places", []float64{nan, 800, 800}, Never, Never},
		},
		Seasons: []Season{{Month: time.January, Unmet: []string{"pathogen reduction", "air throughout the load"}}, {Month: time.April, Unsteady: true}},
	}
}

// The check reads as reviewed, fits the screen, and leaves its files, with stages that are
// short and without.
func TestDocumentReads(t *testing.T) {
	enough := sample()
	enough.Handbook = Never
	enough.Stages, enough.Seasons, enough.Warnings, enough.Invented = enough.Stages[3:], nil, 0, false
	rendertest.Reads(t, "check", sample().Document())
	rendertest.Reads(t, "check_enough", enough.Document())
	rendertest.Leaves(t, "check", sample().Document())
}

// Several plants that send cake are told with what each sends, and feedstocks apart from
// cake: 500 kg dry a day, of them 60 of manure. Where there are none, nothing is said.
func TestDocumentTellsWhatArrives(t *testing.T) {
	a := sample()
	a.Feedstocks, a.Years[0].Feedstocks = []string{"manure"}, 60
	a.Sources = []Source{{"north plant", 240, 1200}, {"south plant", 200, 1000}}
	d := a.Document()
	text := strings.Join(strings.Fields(rendertest.Text(t, d, units.SI)), " ")
	for _, words := range []string{"north plant 0.24 t/day dry at 20 % solids; south plant 0.2 t/day", "0.44 t/day of dry solids in the mean are cake and 0.06 what else arrives: manure"} {
		if !strings.Contains(text, words) {
			t.Errorf("%q is not in %s", words, text)
		}
	}
	rendertest.Without(t, "check", sample().Document(), "manure", "north plant", "sources", "feedstocks")
}
