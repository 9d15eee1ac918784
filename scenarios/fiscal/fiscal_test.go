package fiscal

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
)

// horizon is a file that begins on the first of a month of 2027.
func horizon(month time.Month, years int) *facilityfile.File {
	return &facilityfile.File{Model: plant.Model{Start: calendar.Date{Year: 2027, Month: month, Day: 1}, Years: years}}
}

// Fiscal years are the whole ones within the horizon, under the names that
// people give them, and the years simulated are those that hold them.
func TestFiscalYears(t *testing.T) {
	for _, c := range []struct {
		start      time.Month
		ask        Options
		labels     string
		first, end Month
		simulated  string // first year of the horizon, and how many
	}{
		{time.January, Options{Years: 2}, "2027 2028", Month{2027, 1}, Month{2028, 12}, "0+2"},
		{time.January, Options{Years: 2, Begins: time.July}, "2027/28 2028/29", Month{2027, 7}, Month{2029, 6}, "0+3"},
		{time.January, Options{Years: 1, Begins: time.July, From: 2030}, "2030/31", Month{2030, 7}, Month{2031, 6}, "3+2"},
		{time.January, Options{Years: 1, Begins: time.January, From: 2046}, "2046", Month{2046, 1}, Month{2046, 12}, "19+1"},
		{time.July, Options{Years: 1, Begins: time.July}, "2027/28", Month{2027, 7}, Month{2028, 6}, "0+1"},
		{time.October, Options{Years: 2, Begins: time.January}, "2028 2029", Month{2028, 1}, Month{2029, 12}, "0+3"},
		{time.October, Options{Years: 1, Begins: time.July, From: 2029}, "2029/30", Month{2029, 7}, Month{2030, 6}, "1+2"},
		{time.January, Options{Years: 1, Begins: time.December, From: 2045}, "2045/46", Month{2045, 12}, Month{2046, 11}, "18+2"},
	} {
		c.ask.Replications = 1
		f := horizon(c.start, 20)
		p, err := New(f, c.ask)
		if err != nil {
			t.Errorf("%+v: %v", c.ask, err)
			continue
		}
		run := p.Runs(&study.Study{File: f}, study.Case{})[0]
		got := fmt.Sprintf("%d+%d", run.First, run.Years)
		if strings.Join(p.Labels, " ") != c.labels || p.Months[0] != c.first || p.Months[len(p.Months)-1] != c.end || got != c.simulated {
			t.Errorf("%v %+v: %v from %v to %v, simulated %s", c.start, c.ask, p.Labels, p.Months[0], p.Months[len(p.Months)-1], got)
		}

		// The months of a record of those years are found by their dates.
		rec := &plant.Record{}
		begin := f.Model.Start.AddYears(run.First)
		for i := range run.Years * calendar.MonthsPerYear {
			d := begin.AddMonths(i)
			rec.Months = append(rec.Months, plant.Month{Year: d.Year, Month: d.Month, Product: plant.MonthlyProduct{Volume: float64(d.Year)}}) // to tell the year by
		}
		for i, m := range p.Of(rec) {
			if got := (Month{int(m.Product.Volume), m.Month}); got != p.Months[i] {
				t.Errorf("%+v: month %d is %v", c.ask, i, got)
			}
		}
		if at := p.Years(0) * calendar.MonthsPerYear; math.Abs(at-0.5-float64(p.StartMonth)) > 1e-9 {
			t.Errorf("%+v: the first month is %g months from the start", c.ask, at)
		}
	}
}

// From is the year by which a fiscal year is named: FY2030 of a file whose fiscal years
// begin in July is July 2029 to June 2030, unless they are named by their beginning.
func TestFromIsTheNameOfTheYear(t *testing.T) {
	for _, c := range []struct {
		own         facilityfile.FiscalYear
		begins      time.Month
		from        int
		label       string
		first       Month
		outOfBounds string
	}{
		{facilityfile.FiscalYear{}, 0, 2030, "2030", Month{2030, 1}, "from 2050: whole years of the file's horizon are 2027 to 2046"},
		{facilityfile.FiscalYear{}, time.July, 2030, "2030/31", Month{2030, 7}, "from 2050: whole fiscal years of the file's horizon are 2027/28 to 2045/46"},
		{facilityfile.FiscalYear{Begins: time.July}, 0, 2030, "FY2030", Month{2029, 7}, "from 2050: whole fiscal years of the file's horizon are FY2028 to FY2046"},
		{facilityfile.FiscalYear{Begins: time.July}, time.October, 2030, "FY2030", Month{2029, 10}, "from 2050: whole fiscal years of the file's horizon are FY2028 to FY2046"},
		{facilityfile.FiscalYear{Begins: time.July}, time.January, 2030, "2030", Month{2030, 1}, "from 2050: whole years of the file's horizon are 2027 to 2046"},
		{facilityfile.FiscalYear{Begins: time.July, ByBeginning: true}, 0, 2030, "FY2030", Month{2030, 7}, "from 2050: whole fiscal years of the file's horizon are FY2027 to FY2045"},
	} {
		f := horizon(time.January, 20)
		f.Planning.FiscalYear = c.own
		p, err := New(f, Options{Years: 2, Begins: c.begins, From: c.from, Replications: 1})
		if err != nil {
			t.Errorf("%+v: %v", c, err)
			continue
		}
		if p.Labels[0] != c.label || p.Months[0] != c.first || p.From != c.from {
			t.Errorf("%+v, %v: from %d is %s, which begins with %v", c.own, c.begins, c.from, p.Labels[0], p.Months[0])
		}
		if _, err := New(f, Options{Years: 1, Begins: c.begins, From: 2050, Replications: 1}); err == nil || err.Error() != c.outOfBounds {
			t.Errorf("%+v, %v: %v, want %s", c.own, c.begins, err, c.outOfBounds)
		}
	}
}

// A change that waits for a sign needs all that went before.
func TestTriggersNeedTheWholePast(t *testing.T) {
	f := horizon(time.January, 20)
	f.Model.Changes = []plant.Change{{Name: "sign", Trigger: plant.Trigger{Held: 0.8}}}
	p, err := New(f, Options{Years: 1, Begins: time.July, From: 2030, Replications: 1})
	if err != nil {
		t.Fatal(err)
	}
	if run := p.Runs(&study.Study{File: f}, study.Case{})[0]; run.First != 0 || run.Years != 5 {
		t.Errorf("years %d+%d, want 0+5", run.First, run.Years)
	}
}

// What a file cannot answer is refused with what it can.
func TestRefusals(t *testing.T) {
	f := horizon(time.January, 3)
	f.Planning.Growths = []facilityfile.GrowthScenario{{Name: "slow", Weight: 0.5}, {Name: "fast", Weight: 0.5}}
	for _, c := range []struct {
		ask  Options
		want string
	}{
		{Options{}, "years 0: ask for 1 or more"},
		{Options{Years: 4}, "years 4: from 2027 on, the file's horizon holds 3"},
		{Options{Years: 3, Begins: time.July}, "years 3: from 2027/28 on, the file's horizon holds 2"},
		{Options{Years: 2, From: 2029}, "years 2: from 2029 on, the file's horizon holds 1"},
		{Options{Years: 1, From: 2026}, "from 2026: whole years of the file's horizon are 2027 to 2029"},
		{Options{Years: 1, From: 2030}, "from 2030: whole years"},
		{Options{Years: 1, From: 2030, Begins: time.July}, "from 2030: whole fiscal years of the file's horizon are 2027/28 to 2028/29"},
		{Options{Years: 1, Growth: "none"}, `growth "none": the file's scenarios are slow, fast`},
	} {
		c.ask.Replications = 2
		if _, err := New(f, c.ask); err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%+v: %v, want %q", c.ask, err, c.want)
		}
	}
	if _, err := New(horizon(time.February, 1), Options{Years: 1, Begins: time.January}); err == nil || !strings.Contains(err.Error(), "no whole year that begins in January") {
		t.Errorf("a horizon of no whole fiscal year: %v", err)
	}
	if _, err := New(horizon(time.January, 1), Options{Years: 1, Growth: "fast", Replications: 1}); err == nil || !strings.Contains(err.Error(), "no growth scenarios") {
		t.Errorf("a growth of a file without scenarios: %v", err)
	}
}

// Scenarios get their weights' share of the replications to within one, however
// many there are, and a replication keeps its scenario.
func TestGrowthsAreSharedOut(t *testing.T) {
	f := horizon(time.January, 3)
	f.Planning.Growths = []facilityfile.GrowthScenario{{Name: "slow", Weight: 0.25}, {Name: "expected", Weight: 0.6}, {Name: "fast", Weight: 0.15}}
	long, err := New(f, Options{Years: 1, Replications: 200})
	if err != nil {
		t.Fatal(err)
	}
	counts := make([]float64, 3)
	for rep, g := range long.growth {
		counts[g]++
		for i, s := range f.Planning.Growths {
			if off := counts[i] - s.Weight*float64(rep+1); math.Abs(off) >= 1+1e-9 {
				t.Fatalf("after %d replications %s is off by %g", rep+1, s.Name, off)
			}
		}
	}
	short, err := New(f, Options{Years: 1, Replications: 7})
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(short.growth, long.growth[:7]) {
		t.Errorf("%v and %v", short.growth, long.growth[:7])
	}
	one, err := New(f, Options{Years: 1, Replications: 5, Growth: "Fast"})
	if err != nil {
		t.Fatal(err)
	}
	for _, run := range one.Runs(&study.Study{File: f}, study.Case{}) {
		if run.Growth != 2 {
			t.Errorf("replication %d grows by scenario %d", run.Replication, run.Growth)
		}
	}
	if len(one.Shares) != 1 || one.Shares[0].Replications != 5 {
		t.Errorf("shares %+v", one.Shares)
	}
}

// Years join months by sum, peak or end; chances count replications.
func TestJoins(t *testing.T) {
	runs := make([][]float64, 2)
	for i := range runs {
		for m := range 2 * calendar.MonthsPerYear {
			runs[i] = append(runs[i], float64((i+1)*(m+1)))
		}
	}
	of := func(v *float64) float64 { return *v }
	in := func(time Time[float64], join Join) (out []float64) {
		number := time(of, join)
		for _, run := range runs {
			out = append(out, number(run))
		}
		return out
	}
	for _, c := range []struct {
		join Join
		want []float64
	}{{Sum, []float64{222, 444}}, {Most, []float64{24, 48}}, {End, []float64{24, 48}}} {
		if got := in(InYear[float64](1), c.join); !slices.Equal(got, c.want) {
			t.Errorf("%v, want %v", got, c.want)
		}
	}
	if got := in(InMonth[float64](3), nil); !slices.Equal(got, []float64{4, 8}) {
		t.Errorf("April: %v", got)
	}
	if got := in(ToDate[float64](14), nil); !slices.Equal(got, []float64{13 + 14 + 15, 2 * (13 + 14 + 15)}) {
		t.Errorf("three months of the second year: %v", got)
	}
	if c := Chance([]float64{0, 1, 2, 3}, 1); c.Estimate != 0.5 || !(c.Low > 0.1 && c.High < 0.9) {
		t.Errorf("chance %+v", c)
	}
	if s := answer.SpreadOf([]float64{4, 0, 1, 2, 3}); s.Mean != 2 || s.P50 != 2 || math.Abs(s.P10-0.4) > 1e-12 || math.Abs(s.P90-3.6) > 1e-12 {
		t.Errorf("spread %+v", s)
	}
}
