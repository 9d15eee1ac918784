package capability

import (
	"math"
	"reflect"
	"testing"
	"unsafe"

	"loamcast/facility/plant"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
	"loamcast/sim/digest/digesttest"
	"loamcast/sim/threshold"
)

// scrambled are years of months of which every number is another one.
func scrambled(years int) []plant.Month {
	x := 0.3
	months := make([]plant.Month, years*calendar.MonthsPerYear)
	var fill func(v reflect.Value)
	fill = func(v reflect.Value) {
		switch v.Kind() {
		case reflect.Float64:
			x = math.Mod(x*7919.17+0.41, 1)
			v.SetFloat(100 * x)
		case reflect.Struct:
			for i := range v.NumField() {
				fill(v.Field(i))
			}
		case reflect.Array:
			for i := range v.Len() {
				fill(v.Index(i))
			}
		}
	}
	for i := range months {
		fill(reflect.ValueOf(&months[i]).Elem())
		if months[i].Holding.DivertedDry > 50 {
			months[i].Holding.DivertedDry, months[i].Release.FailedCakeDry = 0, 0
		}
		months[i].Holding.Contracts = []plant.MonthlyContract{{Number: i % 2, Wet: x}}
	}
	return months
}

// What is kept of years tells what their months tell: what stages need of cake, how near
// the target was, what leaves untreated and when, what is hauled by contract, and what is
// short, all but for the order in which it is added up.
func TestYearsTellWhatTheirMonthsTell(t *testing.T) {
	const years = 3
	months, target := scrambled(years), facilityfile.Target{DivertedLimit: 0.2, DelayLimit: 2}
	same := func(what string, got, want float64) {
		t.Helper()
		if !(math.Abs(got-want) <= 1e-12*math.Abs(want)) {
			t.Errorf("%s: %v by what is kept, %v by the months", what, got, want)
		}
	}
	var sums []*Sums
	var whole []plant.Month
	for year, seen := range SeenIn(months, target, 0) {
		m := months[year*calendar.MonthsPerYear : (year+1)*calendar.MonthsPerYear]
		sums, whole = append(sums, seen.Sums), append(whole, seen.Sum())
		if seen.Missed != target.Missed(m) || seen.Missed && seen.Begun != Begun(m, target) {
			t.Errorf("year %d: missed %v from quarter %d on", year, seen.Missed, seen.Begun)
		}
		same("untreated", seen.share, plant.UntreatedShare(m))
		same("delay", seen.delay, plant.CakeDelay(m))
		for q := range Quarters {
			same("untreated of a quarter", seen.Untreated[q], plant.Sum(m[q*MonthsPerQuarter:(q+1)*MonthsPerQuarter], (*plant.Month).Untreated))
		}
		most := func(of func(*plant.Month) float64) float64 {
			top := 0.0
			for i := range m {
				top = max(top, of(&m[i]))
			}
			return top
		}
		same("in use", seen.InUse, most(func(m *plant.Month) float64 { return m.Vessels.Mean / m.Vessels.Installed }))
		same("held", seen.Held, most(func(m *plant.Month) float64 { return m.Holding.Peak }))
		same("full", seen.Full, most(func(m *plant.Month) float64 { return m.Holding.Fullest }))
		cake := plant.Sum(m, func(m *plant.Month) float64 { return m.Feed.CakeDry() })
		same("production", seen.over(7), cake/plant.Sum(m, func(m *plant.Month) float64 { return m.Days })/7)
	}
	got, want := reflect.ValueOf(plant.NeedsOf(whole)), reflect.ValueOf(plant.NeedsOf(months))
	for i := range got.NumField() {
		same(got.Type().Field(i).Name, got.Field(i).Float(), want.Field(i).Float())
	}
	for what, of := range map[string]func(*plant.Month) float64{
		"days":        func(m *plant.Month) float64 { return m.Days },
		"fed":         func(m *plant.Month) float64 { return m.Feed.Dry },
		"loads":       func(m *plant.Month) float64 { return m.Loads.Filled },
		"residence":   func(m *plant.Month) float64 { return m.Release.Residence },
		"by contract": func(m *plant.Month) float64 { return m.Holding.ContractDry },
		"hauled":      func(m *plant.Month) float64 { return m.Holding.ContractWet },
		"paid": func(m *plant.Month) (usd float64) {
			for _, c := range m.Holding.Contracts {
				usd += c.Wet * float64(3+c.Number)
			}
			return usd
		},
	} {
		same(what, plant.Sum(whole, of), plant.Sum(months, of))
	}
	short, enough, failed := wait{}, wait{}, 0.0
	for i := range months {
		if m := &months[i]; m.Untreated() > 0 || m.Holding.Delayed/m.Feed.Dry > target.DelayLimit {
			short.add(m)
		} else {
			enough.add(m)
		}
		failed += months[i].Release.FailedCakeDry
	}
	var kept [2]wait
	all := 0.0
	for _, s := range sums {
		kept[0].join(&s.short)
		kept[1].join(&s.enough)
		all += s.failed
	}
	same("failed", all, failed)
	for i, w := range []wait{short, enough} {
		same("fed", kept[i].fed, w.fed)
		for cause := range w.days {
			same(plant.Cause(cause).String(), kept[i].days[cause], w.days[cause])
		}
	}
}

// Where the sums of some runs were let go, what rests on sums follows from those of the
// others, and what is known of all from all.
func TestRunsWithoutSums(t *testing.T) {
	target := facilityfile.Target{DivertedLimit: 0.2, DelayLimit: 2}
	months := scrambled(8)
	trials := func(replication int) (run []Trial) {
		for i, seen := range SeenIn(months, target, replication) {
			run = append(run, Trial{80 + 5*float64(i), seen})
		}
		return run
	}
	few, many := &Capability{Runs: [][]Trial{trials(0)}}, &Capability{Runs: [][]Trial{trials(0), trials(Described)}}
	for _, found := range []*Capability{few, many} {
		found.Curve = &threshold.Curve{Mean: math.Log(100), Within: 0.1}
		found.Profile = newProfile(found.Curve, found.Runs)
	}
	if one, both := few.Near(0.05), many.Near(0.05); len(one) == 0 || !reflect.DeepEqual(one, both) || Shortage(one, target) != Shortage(both, target) {
		t.Errorf("%d years near the target of one run, %d of it and one of which no more is known", len(one), len(both))
	}
	wet := func(m *plant.Month) float64 { return m.Holding.ContractWet }
	if one, both := few.Hauling(wet), many.Hauling(wet); !reflect.DeepEqual(one, both) || one.at(100) == 0 {
		t.Errorf("hauls %v of one, %v of both", one, both)
	}
	if one, both := few.noise(), many.noise(); one != both || one == 0 {
		t.Errorf("noise of %v of one, %v of both", one, both)
	}
	if one, both := few.Profile.when, many.Profile.when; one != both {
		t.Errorf("leaves in the parts %v of one, %v of both", one, both)
	}
	if n := len(many.newTimer(&study.Study{File: &facilityfile.File{}}).response); n == 0 || len(many.Runs[1]) != len(many.Runs[0]) {
		t.Errorf("%d points tell how years are strained", n)
	}
}

// Of the runs that tell what a plant carries some kilobytes are kept, and nothing that
// leads to what they were simulated with.
func TestLittleIsKeptOfARun(t *testing.T) {
	f, err := facilityfile.Parse("dunmarrow", examples.Data("dunmarrow"))
	if err != nil {
		t.Fatal(err)
	}
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	c := newClimb(s, study.Case{})
	var kept [2]int
	for i := range kept {
		found, err := c.upTo(t.Context(), (i+1)*batch)
		if err != nil {
			t.Fatal(err)
		}
		kept[i] = digesttest.Reach(found)
	}
	each := float64(kept[1]-kept[0]) / batch
	t.Logf("%.0f bytes of a run of %d years", each, rampYears)
	if each > 800*rampYears || each < 100*rampYears {
		t.Errorf("%.0f bytes are kept of a run", each)
	}
}

// Of a year next to nothing is kept, however many there are: of a year little more than
// half a kilobyte, where its months are 18, and beyond [Described] runs no more than how
// near it came to the target.
func TestLittleIsKeptOfAYear(t *testing.T) {
	const years = 8
	months := scrambled(years)
	all := float64(digesttest.Reach(months)) / years
	for _, c := range []struct {
		replication int
		most        float64 // bytes
	}{{0, 900}, {Described - 1, 900}, {Described, 64}, {1_000_000, 64}} {
		kept := float64(digesttest.Reach(SeenIn(months, facilityfile.Target{}, c.replication))) / years
		t.Logf("replication %d: %.0f bytes of a year of %.0f", c.replication, kept, all)
		if kept > c.most || all < 15e3 || kept < float64(unsafe.Sizeof(Seen{})) {
			t.Errorf("replication %d: %.0f bytes of %.0f are kept of a year, %.0f are enough", c.replication, kept, all, c.most)
		}
	}
}
