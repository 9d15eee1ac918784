package simulate_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/simulate/internal/sample"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
)

func figureOf(t *testing.T, a *simulate.Answer, name string) document.Figure {
	t.Helper()
	figures := a.Document().Figures
	at := slices.IndexFunc(figures, func(f document.Figure) bool { return f.Name == name })
	if at < 0 {
		t.Fatalf("there is no figure %s", name)
	}
	return figures[at]
}

// The picture of the vessels has a bar for each row of its file, named by what the load
// is in or waits for, and its title is the share of the time of these.
func TestVesselLoads(t *testing.T) {
	a := sample.Answer(2)
	f := figureOf(t, a, "vessel-loads")
	rows := tables(t, a, units.SI)["vessel-loads.csv"][1:]
	bars, on := 0, map[string]float64{}
	for _, lane := range f.Lanes.Lanes {
		for _, bar := range lane.Times {
			on[f.Lanes.Kinds[bar.Kind].Name] += bar.To - bar.From
			bars++
		}
	}
	if bars != len(rows) || len(f.Lanes.Lanes) != 3 || len(f.Lanes.Months) != 3 {
		t.Errorf("%d bars in %d lanes over %d months, %d rows", bars, len(f.Lanes.Lanes), len(f.Lanes.Months), len(rows))
	}
	// The first load of vessel 2: from 2 April on, for 6 h, until work begins for 12 h.
	if got := rows[slices.IndexFunc(rows, func(r []string) bool { return r[0] == "Vessel 2" })+1]; !slices.Equal(got, []string{"Vessel 2", "2027-04-02 06:00", "2027-04-02 18:00", "6", "full and waiting", "off shift", "0.5"}) {
		t.Errorf("the second row of vessel 2 is %q", got)
	}
	// Loads begin 0, 21, 42, 63, 84 days after the first in vessel 1, one and two days later
	// in the others: 12 wait twice for the whole time, 3 but once.
	if got := on["waits until work begins"]; got != 15*0.5 {
		t.Errorf("loads wait for the shift %g days", got)
	}
	if got := on["waits for curing space"]; got != 12*0.75 {
		t.Errorf("loads wait for curing space %g days", got)
	}
	title := f.Title.Plain(units.SI)
	if !strings.HasPrefix(title, "April to June 2027: loads compost") || !strings.HasSuffix(title, "mostly for curing space") {
		t.Errorf("the title is %q", title)
	}
}

// Fills that differ in nothing but colour cannot be told apart in grey: those that have
// no hatch, or the same one, differ in lightness.
func TestVesselLoadsInGrey(t *testing.T) {
	a := sample.Answer(1)
	rendertest.InGrey(t, figureOf(t, a, "vessel-loads").Lanes.Kinds)
	var bars []document.Kind
	for _, s := range figureOf(t, a, "waiting").Panels[0].Series {
		bars = append(bars, document.Kind{Name: s.Name.Plain(units.SI), Ink: s.Ink, Tint: s.Tint, Hatch: s.Hatch})
	}
	rendertest.InGrey(t, bars)
}

// The loads of a run are those of its first replication, in the quarter in which the
// holding is first at its fullest or in the months asked for; which changes nothing else.
func TestQuarter(t *testing.T) {
	f := small(t)
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	chosen, err := simulate.Ask(t.Context(), s, answer.Setup{}, simulate.Options{})
	if err != nil {
		t.Fatal(err)
	}
	start := f.Model.Start
	asked, err := simulate.Ask(t.Context(), s, answer.Setup{}, simulate.Options{Quarter: start.String()[:7]})
	if err != nil {
		t.Fatal(err)
	}
	if o := &asked.Occupancy; o.From != start || !o.Asked || chosen.Occupancy.Asked {
		t.Errorf("from %v were asked for, and %v told", start, o.From)
	}
	if asked.Occupancy.Fullest > chosen.Occupancy.Fullest+1e-9 {
		t.Errorf("the holding is fuller in the months asked for, %g, than at its fullest, %g", asked.Occupancy.Fullest, chosen.Occupancy.Fullest)
	}
	for _, o := range []*simulate.Occupancy{&chosen.Occupancy, &asked.Occupancy} {
		days := map[int]float64{}
		for _, s := range o.Stays {
			days[s.Vessel] += s.To - s.From
		}
		for v := range o.Vessels {
			if want := float64(o.From.DaysUntil(o.Until)); math.Abs(days[v]-want) > 1e-6 {
				t.Errorf("vessel %d is told of for %g of %g days", v, days[v], want)
			}
		}
	}
	asked.Occupancy = chosen.Occupancy
	if got, want := rendertest.JSON(t, asked.Document(), units.US), rendertest.JSON(t, chosen.Document(), units.US); string(got) != string(want) {
		t.Error("asking for other months changes the rest of the answer")
	}
	for text, reason := range map[string]string{"2031": "write its first month", "2031-13": "write its first month", "1990-01": "let three begin from"} {
		_, err := simulate.Ask(t.Context(), s, answer.Setup{}, simulate.Options{Quarter: text})
		var wrong *answer.OptionError
		if !errors.As(err, &wrong) || !strings.Contains(wrong.Reason, reason) {
			t.Errorf("%s: %v", text, err)
		}
	}
}

// The bars of waiting reach as high as all solids waited on each kg that came in.
func TestWaitingStacks(t *testing.T) {
	a := sample.Answer(20)
	series := figureOf(t, a, "waiting").Panels[0].Series
	for y := range a.Years {
		all := 0.0
		for _, w := range a.Waits {
			if w.Cause != "product store" { // a trifle
				all += w.Years[y]
			}
		}
		if want := all / a.Years[y].FeedDry.Mean; math.Abs(series[0].Values[y]-want) > 1e-9*want {
			t.Errorf("%s: the bars reach %g days, want %g", a.Years[y].Label, series[0].Values[y], want)
		}
	}
}
