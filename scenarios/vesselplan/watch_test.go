package vesselplan

import (
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
)

// How closely TestOrdersInWholeRuns looks: as in
//
//	go test ./scenarios/vesselplan -run OrdersInWholeRuns/demo -v -orders.runs 400 -orders.seeds 3
var (
	orderRuns  = flag.Int("orders.runs", 60, "whole runs of each order in TestOrdersInWholeRuns")
	orderSeeds = flag.Int("orders.seeds", 1, "seeds of TestOrdersInWholeRuns, from 1 on")
)

// What the answer says of its two orders holds in whole runs. The vessels of the answer
// are ordered as soon as its sign is seen, in runs from the start to the horizon under
// all growth scenarios; and, in others, by the end of the quarter that it says. Of
// these runs no more miss the target before the vessels are in use, in the worst year,
// than the target leaves, within the error of so many: ordered on the sign under each
// growth by itself, for that is what it promises, and ordered by the quarter over all of
// them by weight.
//
// The plants are the demo, and two of a sheet of paper to which noise, a season, doubt
// and growths have been added. With -v it tells what was found.
func TestOrdersInWholeRuns(t *testing.T) {
	if testing.Short() {
		t.Skip("runs in the round without -short; takes long under the race detector")
	}
	for _, c := range []struct {
		name string
		file *facilityfile.File
	}{
		{"demo", parsed(t, string(examples.Data(examples.Demo)))},
		{"season", watched(t, seasonal)},
		{"long lead", watched(t, slow)},
	} {
		t.Run(c.name, func(t *testing.T) {
			for seed := range *orderSeeds {
				f := *c.file
				f.Seed = uint64(seed) + 1
				ordersInWholeRuns(t, &f)
			}
		})
	}
}

func ordersInWholeRuns(t *testing.T, f *facilityfile.File) {
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	a, err := Ask(t.Context(), s, answer.Setup{}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if a.Sign == nil || a.Latest() < 0 || a.Batch.Vessels == 0 {
		t.Fatalf("seed %d: there is no order to try", f.Seed)
	}
	latest := a.Orders[a.Latest()]
	onSign := placed(t, s, a, plant.Change{Trigger: plant.Trigger{Production: a.Sign.Production}})
	dated := placed(t, s, a, plant.Change{Date: latest.Quarter.AddMonths(monthsPerQuarter)})
	t.Logf("seed %d: %d vessels above %.4g kg/day: %v; by the end of %v: %v", f.Seed, a.Batch.Vessels, a.Sign.Production, onSign, latest.Quarter, dated)
	t.Logf("the answer says %.3f, by growth %.3f; and %.3f, %.3f", a.Sign.Late, a.Sign.ByGrowth, latest.Late.Estimate, latest.ByGrowth)
	for i, late := range onSign {
		if late.beyond(a.Target.MissShare) {
			t.Errorf("seed %d: ordered on the sign, growth %d: %v", f.Seed, i, late)
		}
	}
	if late := dated[len(dated)-1]; late.beyond(a.Target.MissShare) {
		t.Errorf("seed %d: ordered by the quarter: %v", f.Seed, late)
	}
}

// What is seen beside a sign is that of the fullest month of a year, whichever it is, in
// the middle one of the years: of 0.5, 0.9 and 0.7, 0.7.
func TestFullestMonth(t *testing.T) {
	year := func(month int, full float64) capability.Trial {
		months := make([]plant.Month, calendar.MonthsPerYear)
		months[month].Holding.Fullest = full
		return capability.Trial{Seen: capability.SeenOf(months, facilityfile.Target{})}
	}
	years := []capability.Trial{year(0, 0.5), year(4, 0.9), year(11, 0.7)}
	if got := middle(years, func(y *capability.Sums) float64 { return y.Full }); got != 0.7 {
		t.Errorf("%g", got)
	}
}

// late is how many of some runs were late in the worst year, and in any year.
type late struct{ of, worst, any int }

func (l late) String() string { return fmt.Sprintf("%d (in any year %d) of %d", l.worst, l.any, l.of) }

// beyond reports whether so many are next to impossible where a share may be.
func (l late) beyond(share float64) bool {
	const hardly = 0.005
	return l.worst > 0 && 1-distuv.Binomial{N: float64(l.of), P: share}.CDF(float64(l.worst-1)) < hardly
}

// placed simulates an order of an answer in whole runs, the growth scenarios by their
// weights, and tells how many are late under each, and in the end under all.
func placed(t *testing.T, s *study.Study, a *Answer, how plant.Change) []late {
	t.Helper()
	how.Name, how.Vessels, how.Places, how.Lead = "the order", a.Batch.Vessels, a.Batch.Vessels, a.Lead
	years := a.Horizon
	if how.Date.Valid() { // what comes later does not matter
		years = min(years, quartersBefore(a, how.Date)/quarters+1)
	}
	var runs []study.Run
	for i, growth := range s.File.Planning.ShareOut(*orderRuns) {
		c := study.Case{Growth: growth, Steps: []facilityfile.Step{{Change: how}}, Years: years}
		runs = append(runs, study.Run{Case: &c, Replication: i})
	}
	// Of each run the years that have begun to be missed by the time that the vessels
	// are in use.
	missed, err := study.Each(t.Context(), s, runs, func(r *study.Result) (list []int, err error) {
		before := a.Horizon * quarters
		if len(r.Record.Triggered) > 0 {
			before = quartersBefore(a, r.Record.Triggered[0].Decided)
		} else if how.Date.Valid() {
			before = quartersBefore(a, how.Date)
		}
		for year := range years {
			months := r.Record.Months[year*calendar.MonthsPerYear:][:calendar.MonthsPerYear]
			if a.Target.Missed(months) && year*quarters+capability.Begun(months, a.Target) < before {
				list = append(list, year)
			}
		}
		return list, nil
	}, nil)
	if err != nil {
		t.Fatal(err)
	}
	out := make([]late, len(a.Growths)+1)
	for at := range out {
		byYear := make([]int, years)
		for i, list := range missed {
			if at < len(a.Growths) && runs[i].Growth != at {
				continue
			}
			out[at].of++
			out[at].any += min(1, len(list))
			for _, year := range list {
				byYear[year]++
			}
		}
		out[at].worst = slices.Max(byYear)
	}
	return out
}

// quartersBefore counts the quarters of the horizon that have begun before vessels are
// in use that are ordered on a day.
func quartersBefore(a *Answer, day calendar.Date) int {
	return capability.QuartersBefore(a.Start, a.Horizon, a.Lead.After(day))
}

// watched is the plant for a sheet of paper with some lines of its file altered, and
// more at its end.
func watched(t *testing.T, edit func(string) string) *facilityfile.File {
	t.Helper()
	data, err := os.ReadFile("testdata/hand.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return parsed(t, edit(string(data)))
}

func parsed(t *testing.T, text string) *facilityfile.File {
	t.Helper()
	f, err := facilityfile.Parse("watched", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// seasonal has a season and noise that lasts, and a target that leaves a tenth of the
// runs.
func seasonal(text string) string {
	return strings.NewReplacer(
		"horizon: 12 year", "horizon: 15 year",
		"runs: 80 %", "runs: 90 %",
		"dry_per_day: 620 kg/day ", "dry_per_day: 480 kg/day ",
		"capacity_dry: 2.5 t", "capacity_dry: 7 t",
		"  cake_solids: 20 %", `  cake_solids: 20 %
  by_month: [0.8, 0.8, 0.9, 0.9, 1, 1.1, 1.3, 1.3, 1.2, 1, 0.9, 0.8]
  day_to_day: {variation: 30 %, correlation: 0.8}`,
	).Replace(text) + `
growth_scenarios:
  - {name: level, weight: 30 %, growth: {logistic: {ceiling: 1.25, rate: 6 %/year}}}
  - {name: even, weight: 40 %, growth: {linear: 2.5 %/year}}
  - {name: hurried, weight: 30 %, growth: {compound: 5 %/year}}
uncertain:
  - {input: solids.growth, normal: {mean: 0 %/year, sd: 0.5 %/year}}
  - {input: vessels.turnaround, triangular: [40 h, 48 h, 72 h]}
`
}

// slow has no warm-up, and vessels that take two years, in which production may grow
// by a sixth.
func slow(text string) string {
	return strings.NewReplacer(
		"warm_up: 1 year\n", "",
		"runs: 80 %", "runs: 95 %",
		"lead_time: 400 day", "lead_time: 24 month",
		"dry_per_day: 620 kg/day ", "dry_per_day: 500 kg/day ",
		"capacity_dry: 2.5 t", "capacity_dry: 8 t",
		"  cake_solids: 20 %", `  cake_solids: 20 %
  day_to_day: {variation: 20 %, correlation: 0.6}`,
	).Replace(text) + `
growth_scenarios:
  - {name: even, weight: 50 %, growth: {compound: 3 %/year}}
  - {name: bent, weight: 50 %, growth: {by_year: [1, 1.01, 1.03, 1.08, 1.16, 1.25, 1.35, 1.46, 1.58, 1.7, 1.8, 1.9, 2]}}
uncertain:
  - {input: solids.growth, normal: {mean: 0 %/year, sd: 0.3 %/year}}
  - {input: solids.cake_solids, triangular: [-1 %, 0 %, 1 %]}
`
}
