package simulate

import (
	"math"
	"reflect"
	"slices"
	"testing"
	"time"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// tallied is what a part of an answer that begins in 2030 makes of some replications.
func tallied(p *plant.Plant, part func(*tally), all ...Replication) *Answer {
	p.Start = calendar.Date{Year: 2030, Month: time.January, Day: 1}
	t := newTally(answer.Basis{}, p, len(all), answer.ExactRuns)
	part(t)
	for i := range all {
		t.Add(&all[i])
	}
	return t.close()
}

// usual are replications of the plant as it is alone.
func usual(records ...*plant.Record) (all []Replication) {
	for _, rec := range records {
		all = append(all, Replication{Usual: rec})
	}
	return all
}

func twoYears() *plant.Plant { return &plant.Plant{Model: plant.Model{Years: 2}} }

// filled is a record of which every number of a month is another one.
func filled(months int, next func() float64) *plant.Record {
	return recordOf(months, func(_ int, m *plant.Month) {
		days, month, year := m.Days, m.Month, m.Year
		fill(reflect.ValueOf(m).Elem(), next)
		m.Days, m.Month, m.Year = days, month, year
	})
}

// fill sets all numbers of a value.
func fill(v reflect.Value, next func() float64) {
	switch v.Kind() {
	case reflect.Float64:
		v.SetFloat(next())
	case reflect.Struct:
		for i := range v.NumField() {
			fill(v.Field(i), next)
		}
	case reflect.Array:
		for i := range v.Len() {
			fill(v.Index(i), next)
		}
	}
}

// Whatever the arithmetic on months needs of them, it has from what is added up of
// replications one by one: the same stages, the same lack and the same remedy for wet lots
// as from the months of all replications together, to the last bit.
func TestAddedUpOneByOne(t *testing.T) {
	x := 0.3
	next := func() float64 { x = math.Mod(x*7919.17+0.41, 1); return 100 * x }
	p := demo(t, plant.Change{Name: "more", Date: calendar.Date{Year: 2031, Month: time.May, Day: 1}, Vessels: 1})
	p.Years = 2
	records := []*plant.Record{filled(24, next), filled(24, next), filled(24, next)}
	a := tallied(p, func(y *tally) {
		y.capacities()
		y.dryness()
		for i := range 2 {
			y.failing(&y.answer.Years[i].Failing, inYear(i))
		}
	}, usual(records...)...)
	target := facilityfile.Target{}
	for y := range 2 {
		var all []plant.Month
		var years []*capability.Sums
		for _, rec := range records {
			seen := capability.SeenOf(inYear(y)(rec), target)
			all, years = append(all, inYear(y)(rec)...), append(years, seen.Sums)
		}
		lastDay := calendar.Date{Year: 2030 + y, Month: time.December, Day: 31}
		stages := p.Capacities(lastDay, plant.NeedsOf(all))
		if len(stages) != len(a.Capacities[y].Stages) || len(stages) < 5 {
			t.Fatalf("year %d: %d stages, %d of all months", y, len(a.Capacities[y].Stages), len(stages))
		}
		for _, want := range stages {
			if !slices.ContainsFunc(a.Capacities[y].Stages, func(s Stage) bool { return s.Name == want.Stage.String() && s.Sustains == want.CakeDry }) {
				t.Errorf("year %d: %v sustains %v by all months, not in %+v", y, want.Stage, want.CakeDry, a.Capacities[y].Stages)
			}
		}
		var needs plant.Month
		for i := range all {
			addNeeds(&needs, &all[i])
		}
		if got, want := plant.NeedsOf([]plant.Month{needs}), plant.NeedsOf(all); got != want {
			t.Errorf("year %d: what is added up needs %+v, all months %+v", y, got, want)
		}
		if want := capability.Shortage(years, target).Failing; a.Years[y].Failing != want {
			t.Errorf("year %d: loads fail %v, by all months %v", y, a.Years[y].Failing, want)
		}
	}
	for i := range a.Dryness {
		month := time.January + time.Month(i)
		lot, warmth, ok := plant.WetLot(func(yield func(*plant.Month) bool) {
			for _, rec := range records {
				for j := range rec.Months {
					if m := &rec.Months[j]; m.Month == month && !yield(m) {
						return
					}
				}
			}
		})
		want, err := p.RemedyFor(lot, warmth, month)
		if !ok || err != nil || a.Dryness[i].Remedy != want || !want.Needed() {
			t.Errorf("%v: %+v, by all months %+v (%v, %v)", month, a.Dryness[i].Remedy, want, ok, err)
		}
	}
}

// Of more replications than quantiles are exact of, means are those of all, to the last
// bit, and quantiles are numbers of replications whose rank is off by no more than is said;
// of as many, they are what the numbers of all have.
func TestQuantilesOfManyRuns(t *testing.T) {
	const runs, exact = 5000, 200
	x := 0.7
	var all []Replication
	var fed []float64
	for range runs {
		x = math.Mod(x*7919.17+0.41, 1)
		all = append(all, usual(recordOf(12, func(_ int, m *plant.Month) { m.Feed.Dry = x }))...)
		fed = append(fed, plant.Sum(all[len(all)-1].Usual.Months, func(m *plant.Month) float64 { return m.Feed.Dry }))
	}
	told := func(runs int) answer.Spread {
		y := newTally(answer.Basis{}, &plant.Plant{Model: plant.Model{Years: 1}}, runs, exact)
		y.sum(&y.answer.Years[0].FeedDry, inYear(0), func(m *plant.Month) float64 { return m.Feed.Dry })
		for i := range runs {
			y.Add(&all[i])
		}
		return y.close().Years[0].FeedDry
	}
	if got, want := told(exact), answer.SpreadOf(fed[:exact]); got != want {
		t.Errorf("of %d replications: %+v, not %+v", exact, got, want)
	}
	got, want := told(runs), answer.SpreadOf(fed)
	if got.Mean != want.Mean || got == want {
		t.Errorf("of %d replications: %+v, exactly %+v", runs, got, want)
	}
	slices.Sort(fed)
	for q, value := range map[float64]float64{0.1: got.P10, 0.5: got.P50, 0.9: got.P90} {
		rank, found := slices.BinarySearch(fed, value)
		if off := math.Abs(float64(rank) - q*(runs-1)); !found || off > stats.RankError*runs {
			t.Errorf("the quantile %v is %v, off by %v of %d places", q, value, off, runs)
		}
	}
}
