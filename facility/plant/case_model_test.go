package plant

import (
	"context"
	"math"
	"testing"

	"loamcast/facility/material"
	"loamcast/facility/process"
	"loamcast/sim"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// The files case_*_test.go hold twelve small plants whose results are worked out
// on paper, in the comment of each test. Everything is constant, nothing is
// drawn, and only the limit that the case is about binds. All values are
// invented so that the arithmetic is short.
//
// The material on paper:
//
//	cake     20 % solids, 1,000 kg/m3:   1 m3 is 200 kg dry and 800 kg water
//	chips    dry, all coarse, 250 kg/m3
//	mix      1 m3 of cake and 2 m3 of chips: 1,500 kg wet, 700 kg dry. The chips
//	         have 0.6 · 2 = 1.2 m3 of voids, half of the cake's 1 m3 goes into
//	         them, and so the mix takes 2 + 1 − 0.5 = 2.5 m3
//
// Nothing in it decays, dries or drains, so that what comes out of a vessel is
// what went in; the process has its own tests. The screen lets all through, so
// that a lot is as much product.
//
// A vessel of 25 m3 takes 10 m3 of cake and 20 m3 of chips: a load of 2,000 kg
// dry of cake, 15,000 kg wet. A mixer of 5 m3 makes it in five batches, each of
// 400 kg dry of cake with 4 m3 of chips: 3,000 kg wet.
//
// Cake runs in at 100 kg dry/h unless the case says otherwise, which is a batch
// every 4 h and a load every 20 h. A vessel is begun as soon as there is one, and
// the cake of its first batch.
// The run starts at midnight of Friday, 1 January 2027; instants on paper are in
// hours from there. An alarm for cake rings on the next whole second, so an
// instant may be one second later than on paper.
const (
	loadCake, batchCake = 2000.0, 400.0 // kg dry
	batchWet            = 3000.0        // kg
	batchChips          = 4.0           // m3
	loadVolume          = 25.0          // m3
	mixingHours         = 0.5
	residenceHours      = 240.0
)

// paper returns the plant of the cases, in which nothing is short.
func paper() Model {
	m := model()
	always := calendar.Always()
	m.Years, m.WarmUp = 1, 0
	m.Feed.Base = 2400
	m.Cake = material.Spec{Name: "cake", Moisture: 0.8, Volatile: 0.75, Nitrogen: 0.046, BulkDensity: 1000}
	m.Holding = Holding{Capacity: 8000}
	m.Recipe.ChipsPerCake = 2
	m.Mixer = Mixer{Volume: 5, Scale: 10000, BatchTime: 30 * sim.Minute, Hours: always}
	m.Chips = Chips{
		Fresh:    material.Spec{Name: "chips", Volatile: 0.98, Nitrogen: 0.0015, Coarse: 1, BulkDensity: 250},
		Capacity: 9000, Reorder: 5000, OrderUpTo: 9000, Truckload: 100, LeadTime: sim.Day,
	}
	m.Vessels = Vessels{Installed: 200, Volume: loadVolume, Payload: 20000,
		Residence: 10 * sim.Day, Minimum: 5 * sim.Day, Maximum: 15 * sim.Day,
		Turnaround: 24 * sim.Hour, PartFilled: 60 * sim.Day, Hours: always}
	m.Curing = Curing{Capacity: 1e6, Time: 5 * sim.Day, Longest: 10 * sim.Day, ReadilyLeft: 1}
	m.Screening.Settings.Recovery, m.Screening.Settings.Attrition = 0, 0
	m.Screening.Settings.MoistureLimit, m.Screening.Settings.Capacity = 1, loadVolume // a lot an hour
	m.Product = Product{Capacity: 1e6, Demand: repeat12(1e5)}
	m.Bulk = material.Bulk{CoarseDry: 250, CoarseVoids: 0.6, Filling: 0.5, Organics: 1000, Ash: 1000,
		Crumb: material.Crumb{Paste: 0.4, Loose: 0.5}}
	for _, course := range []*process.Model{m.Active, m.Pile} {
		course.Bulk = m.Bulk
		course.Criteria = nil
		course.Enclosure.Holding = 100 // no leachate
		course.Program = []process.Segment{{Name: "stand", Hours: 24, Setpoint: 60}}
		course.Site.Temperature = repeat12(20)
		course.Loading = process.Loading{Fine: 20, Chips: 20}
	}
	return m
}

// caseKey seeds the cases. Where nothing is drawn any key gives the same run.
var caseKey = random.Key{Seed: 1}

// diary is all that moved in a run, in order of time.
type diary []Movement

// follow runs a case, and checks what holds in each: the ledger closes, and all
// waiting is charged to a cause.
func follow(t *testing.T, m Model, key random.Key) (*Record, diary) {
	t.Helper()
	var d diary
	rec, err := plantOf(t, m).RunTraced(context.Background(), key, func(mv Movement) { d = append(d, mv) })
	if err != nil {
		t.Fatal(err)
	}
	if !(rec.Worst <= material.Tolerance) {
		t.Errorf("residual %.3g of throughput at %s", rec.Worst, rec.WorstAt)
	}
	charged := waits(rec, len(rec.Months)).Total()
	if math.Abs(charged-rec.Waited) > 1e-9*rec.Waited {
		t.Errorf("causes sum to %.12g kg·d, %.12g waited", charged, rec.Waited)
	}
	return rec, d
}

// on returns what went along a path.
func (d diary) on(path string) diary {
	var out diary
	for _, mv := range d {
		if mv.Path.Name == path {
			out = append(out, mv)
		}
	}
	return out
}

// before returns what moved before an hour, or at it.
func (d diary) before(hour float64) diary {
	for i, mv := range d {
		if hourOf(mv.At) > hour {
			return d[:i]
		}
	}
	return d
}

// since returns what moved at an hour or after it.
func (d diary) since(hour float64) diary {
	for i, mv := range d {
		if hourOf(mv.At) >= hour {
			return d[i:]
		}
	}
	return nil
}

// dry returns the dry mass that moved, kg.
func (d diary) dry() float64 {
	sum := 0.0
	for _, mv := range d {
		sum += mv.Amount.Fixed + mv.Amount.Volatile
	}
	return sum
}

// wet returns the mass that moved, kg.
func (d diary) wet() float64 {
	sum := 0.0
	for _, mv := range d {
		sum += mv.Amount.Total
	}
	return sum
}

// load returns what moved of one load.
func (d diary) load(number uint64) diary {
	var out diary
	for _, mv := range d {
		if mv.Load == number {
			out = append(out, mv)
		}
	}
	return out
}

// loadsBegun returns the cake of the first batch of each load.
func (d diary) loadsBegun() diary {
	var out diary
	for _, mv := range d.on("cake mixed") {
		if mv.Load > uint64(len(out)) {
			out = append(out, mv)
		}
	}
	return out
}

func hourOf(t sim.Time) float64 { return sim.Duration(t).Hours() }

// at checks the instants of the first movements, in hours from the start, to
// within a second.
func (d diary) at(t *testing.T, what string, want ...float64) {
	t.Helper()
	const second = 1.0 / 3600
	if len(d) < len(want) {
		t.Fatalf("%s: happened %d times, want at least %d", what, len(d), len(want))
	}
	for i, w := range want {
		if got := hourOf(d[i].At); math.Abs(got-w) > second*(1+1e-9) {
			t.Errorf("%s %d: at %.4f h, on paper %.4f h", what, i+1, got, w)
			return // what follows is shifted too
		}
	}
}

// count checks how often something happened.
func (d diary) count(t *testing.T, what string, want int) {
	t.Helper()
	if len(d) != want {
		t.Errorf("%s: %d times, on paper %d", what, len(d), want)
	}
}

// every returns n instants, in hours, from the first on.
func every(first, step float64, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = first + step*float64(i)
	}
	return out
}

// same checks a mass, volume or number to nine digits.
func same(t *testing.T, what string, got, want float64) {
	t.Helper()
	near(t, what, got, want, 1e-9*math.Abs(want))
}

// near checks to a rounding that the case states.
func near(t *testing.T, what string, got, want, rounding float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rounding) {
		t.Errorf("%s: %.10g, on paper %.10g ± %.3g", what, got, want, rounding)
	}
}

// waits sums the waits of the first months.
func waits(rec *Record, months int) Waits {
	var sum Waits
	for _, m := range rec.Months[:months] {
		for c, v := range m.Waits {
			sum[c] += v
		}
	}
	return sum
}

// mostly checks that most of the waiting of the first months is charged to one
// cause.
func mostly(t *testing.T, rec *Record, months int, want Cause) {
	t.Helper()
	w := waits(rec, months)
	t.Logf("%.1f %% of the waiting for %s", 100*w[want]/w.Total(), want)
	if !(w[want] > w.Total()/2) {
		t.Errorf("%.0f of %.0f kg·d waited for %s; by cause %.0f", w[want], w.Total(), want, w)
	}
}

const january = 31 * 24.0 // h
