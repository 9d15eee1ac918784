package plant

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"loamcast/facility/moistair"
	"loamcast/facility/process"
	"loamcast/facility/release"
	"loamcast/sim"
	"loamcast/sim/random"
)

// A lot that dries by the air alone. The lots of the cases on paper hold 7,000 kg dry
// and 8,000 kg of water, 53.3 %; at 50 % they hold 7,000 kg. So little decays that
// its heat does not count, a half of a percent,
// and no heat comes through the surface of the pile. So a lot of 20 °C comes to the
// temperature T at which the heat that the air gives is that of evaporation,
//
//	c·(20 − T) = r·(W(T) − Wi)     c of humid air, W saturated at T, Wi of the air
//
// and air of G kg/h takes away G·(W − Wi) of water an hour. On the way there, with
// the time constant C/(G·(c + r·W′)), the lot gives off its own heat C·(20 − T) less
// what the warmer lot takes less from the air: C·(20 − T)·r·W′/(c + r·W′). The days to
// 50 % follow (derived; moist air from package moistair, which has its own tests). The
// screen takes the lot when it is dry, so the days from the tip floor are those and
// five of curing.
func TestCaseLotDriesByTheAir(t *testing.T) {
	const air, humidity, warmth, dryMass, toLose = 100.0, 0.5, 20.0, 7000.0, 1000.0
	m := paper()
	m.Cake.Slowly = 0.05
	m.Drying = Drying{Gate: DryFirst, Moisture: 0.5, Longest: 60 * sim.Day, Air: air}
	m.Pile.Enclosure.AreaPerVolume = 0
	m.Pile.Site.Humidity = repeat12(humidity)

	pressure := moistair.StandardPressure(m.Pile.Site.Altitude)
	inlet := moistair.RatioOfVapour(humidity*moistair.SaturationPressure(warmth), pressure)
	saturated := func(t float64) float64 { return moistair.RatioOfVapour(moistair.SaturationPressure(t), pressure) }
	c := moistair.DryAirHeat + inlet*moistair.VapourHeat
	low, high := 0.0, warmth
	for range 60 {
		if mid := (low + high) / 2; c*(warmth-mid) > moistair.Vaporisation(mid)*(saturated(mid)-inlet) {
			low = mid
		} else {
			high = mid
		}
	}
	r, slope := moistair.Vaporisation(low), (saturated(low+0.1)-saturated(low-0.1))/0.2
	flow := air * dryMass / 1000 / moistair.SpecificVolume(warmth, inlet, pressure)
	stored := m.Pile.Heat.Of(dryMass, 7500) * (warmth - low) * r * slope / (c + r*slope)
	days := (toLose*r - stored) / (flow * c * (warmth - low)) / 24

	rec, d := follow(t, m, caseKey)
	tipped, screened := d.on("compost unloaded"), d.on("cured mix screened")
	for i, lot := range screened[:5] {
		took := lot.At.Sub(tipped[i].At).Days() - 5
		t.Logf("load %d: dry after %.2f days, on paper %.2f, at %.4f", lot.Load, took, days, lot.Moisture)
		if lot.Load != tipped[i].Load || math.Abs(took/days-1) > 0.02 || math.Abs(lot.Moisture-0.5) > 1e-5 {
			t.Errorf("load %d is dry after %.2f days, on paper after %.2f; moisture %.6f", lot.Load, took, days, lot.Moisture)
		}
	}
	if waited := total(rec, func(m *Month) float64 { return m.Waits[TooWet] }); !(waited > 0) {
		t.Error("no solids waited until they were dry")
	}
	if power := total(rec, func(m *Month) float64 { return m.Work.BlowerEnergy }); !(power > 0) {
		t.Error("the air used no power")
	}
}

// A lot is never wetter after drying to a lower moisture, nor dry sooner; what is dry
// enough takes no time, and no more than the longest time is taken.
func TestDrierGateNeverWetter(t *testing.T) {
	m := model()
	m.Drying = Drying{Gate: DryFirst, Moisture: 0.5, Longest: 40 * sim.Day, Air: 60}
	s := newState(plantOf(t, m), sim.NewKernel(m.Begin(), 0), 0, random.Key{Seed: 1})
	rapid.Check(t, func(t *rapid.T) {
		q := m.Cake.OfWet(rapid.Float64Range(3000, 9000).Draw(t, "cake")).Plus(m.Chips.Fresh.OfWet(6000))
		part := rapid.SampledFrom([]float64{0.02, 0.1, 0.4}).Draw(t, "readily degradable left")
		q.Fine.Refractory += (1 - part) * q.Fine.Readily
		q.Fine.Readily *= part
		q.Water = q.Dry() * rapid.Float64Range(0.9, 1.5).Draw(t, "water per dry")
		warmth := rapid.SampledFrom([]float64{3, 21, 45}).Draw(t, "temperature")
		a, b := rapid.Float64Range(0.40, 0.60).Draw(t, "enough"), rapid.Float64Range(0.40, 0.60).Draw(t, "enough too")
		dried := func(enough float64) (moisture float64, takes sim.Duration) {
			legs, takes := s.dries(&load{}, (*Plant).onPad, q, warmth, 0, enough, m.Drying.Longest)
			after := q
			for i := range legs {
				legs[i].course.Apply(&after, 0, legs[i].until.Sub(legs[i].from).Hours())
			}
			return after.Moisture(), takes
		}
		low, longer := dried(min(a, b))
		high, sooner := dried(max(a, b))
		if low > high+1e-9 || longer < sooner || longer > m.Drying.Longest {
			t.Fatalf("to %g: %g after %v; to %g: %g after %v", min(a, b), low, longer, max(a, b), high, sooner)
		}
		switch dry := release.IsDry(q.Moisture(), max(a, b)); {
		case dry != (sooner == 0):
			t.Fatalf("a lot of %g takes %v to %g", q.Moisture(), sooner, max(a, b))
		case sooner < m.Drying.Longest && !release.IsDry(high, max(a, b)):
			t.Fatalf("to %g: %g after %v", max(a, b), high, sooner)
		}
	})
}

// A drier gate gives a drier product, at more power and with more of the pad, and the
// screen gives more chips back; drying in the vessel lengthens the stay.
func TestGatesOfAPlant(t *testing.T) {
	base := model()
	base.Feed.Base, base.Curing.Capacity = 400, 3000
	base.Active.Site.Temperature = repeat12(20)
	base.Pile.Site.Temperature = repeat12(20)
	type outcome struct{ product, power, room, recovered, stay float64 }
	run := func(d Drying) outcome {
		m := base
		m.Drying = d
		rec := mustRun(t, m, random.Key{Seed: 2})
		if !allChargedOfWarm(rec) {
			t.Errorf("%+v: a cause was charged less than nothing", d)
		}
		sum := func(of func(*Month) float64) float64 { return total(rec, of) }
		return outcome{
			product:   1 - sum(func(m *Month) float64 { return m.Product.Dry })/sum(func(m *Month) float64 { return m.Product.Wet }),
			power:     sum(func(m *Month) float64 { return m.Work.BlowerEnergy }),
			room:      sum(func(m *Month) float64 { return m.Curing.Room }),
			recovered: sum(func(m *Month) float64 { return m.Screen.CoarseRecovered }) / sum(func(m *Month) float64 { return m.Screen.CoarseFed }),
			stay:      sum(func(m *Month) float64 { return m.Release.Residence }) / sum(func(m *Month) float64 { return m.Release.Loads }),
		}
	}
	last := run(Drying{})
	for _, enough := range []float64{0.50, 0.48, 0.46} {
		d := ChosenDrying()
		d.Moisture = enough
		now := run(d)
		t.Logf("to %g: %+v", enough, now)
		if !(now.product < last.product && now.power > last.power && now.room > last.room && now.recovered >= last.recovered-1e-9) {
			t.Errorf("to %g: %+v after %+v", enough, now, last)
		}
		last = now
	}
	alone := *base.Active
	alone.Criteria = alone.Criteria[:1]
	base.Active = &alone
	without := run(Drying{})
	with := run(Drying{Vessel: VesselDrying{Air: 60, Moisture: 0.40, Longest: 4 * sim.Day}})
	if math.Abs(with.stay-without.stay-4) > 0.01 || !(with.product < without.product) {
		t.Errorf("dried in the vessel: %+v after %+v", with, without)
	}
}

// allChargedOfWarm reports whether no cause of a run with a warm-up is negative: its
// months leave out what waited before.
func allChargedOfWarm(rec *Record) bool {
	for _, v := range waits(rec, len(rec.Months)) {
		if !(v >= 0) {
			return false
		}
	}
	return true
}

// What drying needs of pad and vessels counts in their capacity, by hand: 900 m3 of
// pad over 0.5 m3 × days for each kg; and a load that is dried for 3 days more takes
// its vessel for as much longer.
func TestCapacityOfDrying(t *testing.T) {
	needs := handNeeds
	needs.Drying, needs.InVessel = 0.5, 3
	p := plantOf(t, handModel(t))
	if got := capacityOf(t, p, p.Start, needs, AtDrying); math.Abs(got-1800) > 1e-9 {
		t.Errorf("drying sustains %g kg/day, by hand 1,800", got)
	}
	longer := handModel(t)
	longer.Vessels.Residence += 3 * sim.Day
	longer.Vessels.Maximum += 3 * sim.Day
	if got, want := capacityOf(t, p, p.Start, needs, AtVessels), capacityOf(t, plantOf(t, longer), p.Start, handNeeds, AtVessels); math.Abs(got/want-1) > 1e-9 {
		t.Errorf("vessels sustain %g kg/day, %g with a residence as long", got, want)
	}
}

// Drying is refused where something of it is missing, and nothing is asked of a plant
// without it.
func TestDryingIsValidated(t *testing.T) {
	for _, c := range []struct {
		d  Drying
		ok bool
	}{
		{Drying{}, true}, {ChosenDrying(), true},
		{Drying{Gate: HoldWet, Moisture: 0.5, Longest: sim.Day}, true},
		{Drying{Gate: HoldWet, Longest: sim.Day}, false},
		{Drying{Gate: HoldWet, Moisture: 0.5}, false},
		{Drying{Gate: DryFirst, Moisture: 0.5, Longest: sim.Day}, false},
		{Drying{Vessel: VesselDrying{Air: 60, Longest: sim.Day}}, false},
		{Drying{Vessel: VesselDrying{Moisture: 0.5, Longest: sim.Day}}, false},
		{Drying{Vessel: VesselDrying{Air: 60, Moisture: 0.5, Longest: sim.Day}}, true},
	} {
		m := model()
		m.Drying = c.d
		if _, err := New(m); (err == nil) != c.ok {
			t.Errorf("%+v: %v", c.d, err)
		}
	}
}

// The remedy of a wet lot dries it to the screen's limit: dried for as long on a course
// of its own it is there. A lot with nothing to lose in the cold is said not to get
// there.
func TestRemedy(t *testing.T) {
	m := model()
	lot := m.Cake.OfWet(6000).Plus(m.Chips.Fresh.OfWet(6000))
	lot.Fine.Refractory += 0.9 * lot.Fine.Readily
	lot.Fine.Readily *= 0.1
	lot.Water = lot.Dry() * 0.54 / 0.46
	r, err := m.RemedyFor(lot, 30, time.July)
	if err != nil {
		t.Fatal(err)
	}
	c, err := m.Pile.Dries(r.Air).CourseFrom(lot, time.July, r.Days*24, 30)
	if err != nil {
		t.Fatal(err)
	}
	end := c.Final().Parcel
	if !r.OK || !r.Needed() || r.Air != process.DryingAir || math.Abs(end.Moisture()-m.Screening.Settings.MoistureLimit) > 1e-4 {
		t.Errorf("%+v: dried so long it is at %g", r, end.Moisture())
	}
	if r, err := m.RemedyFor(lot, 2, time.January); err != nil || r.OK || r.Days != 60 || !(r.Reached > 0.5 && r.Reached < 0.54) {
		t.Errorf("in January: %+v, %v", r, err)
	}
}
