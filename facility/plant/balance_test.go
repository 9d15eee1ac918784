package plant

import (
	"context"
	"math"
	"testing"

	"pgregory.net/rapid"

	"loamcast/facility/material"
	"loamcast/sim"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// The ledger closes to 1e-9 of throughput for every component, store and year
// in random valid facilities. The ledger itself fails a run that breaks the
// bound; the test also looks at the residual, and that the plant did work.
func TestLedgerClosesInRandomFacilities(t *testing.T) {
	worked := 0
	m := model()
	m.Vessels.Maximum, m.Curing.Longest = 21*sim.Day, 45*sim.Day // short courses are soon worked out
	base := plantOf(t, m)
	shift := dayShift(t, &base.Model) // begins with the warm-up, early enough for all
	rapid.Check(t, func(t *rapid.T) {
		m := randomModel(t, base.Model, shift)
		p, err := base.With(m)
		if err != nil {
			t.Fatalf("a valid model was refused: %v", err)
		}
		rec, err := p.Run(context.Background(), random.Key{Seed: rapid.Uint64().Draw(t, "seed")})
		if err != nil {
			t.Fatal(err)
		}
		if !(rec.Worst <= material.Tolerance) {
			t.Fatalf("residual %.3g at %s", rec.Worst, rec.WorstAt)
		}
		var charged Waits
		for _, month := range rec.Months {
			for c, v := range month.Waits {
				charged[c] += v
			}
		}
		if m.WarmUp == 0 && math.Abs(charged.Total()-rec.Waited) > 1e-6/24+1e-12*rec.Waited {
			t.Fatalf("causes sum to %g kg·d, %g waited", charged.Total(), rec.Waited)
		}
		for _, y := range rec.Years {
			for i, in := range y.Balance.In.Each() {
				if in <= 0 {
					t.Fatalf("no %s came in", material.ComponentNames[i])
				}
			}
		}
		if total(rec, func(m *Month) float64 { return m.ProductDry }) > 0 {
			worked++
		}
	})
	if worked == 0 {
		t.Error("no facility made any product")
	}
}

// randomModel draws a valid facility: any size, any shortage.
func randomModel(t *rapid.T, m Model, shift *calendar.Work) Model {
	// What moves the course of a load takes few values, so that facilities
	// share the courses in their tables; all else is free.
	one := func(name string, of ...float64) float64 { return rapid.SampledFrom(of).Draw(t, name) }
	f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	m.Years, m.WarmUp = 1, rapid.IntRange(0, 1).Draw(t, "warm-up")
	m.Feed.Base = f("base", 150, 3000)
	m.Feed.Growth = Compound{Rate: f("growth", -0.05, 0.1)}
	for i := range m.Feed.Month {
		m.Feed.Month[i] = f("month", 0.5, 1.5)
	}
	m.Feed.Noise = random.AR1Lognormal{CV: f("noise", 0, 0.5), Correlation: f("correlation", 0, 0.9)}
	m.Feed.CakeSolids = repeat12(one("cake solids", 0.17, 0.21, 0.26))
	m.Feed.SolidsCV = one("solids noise", 0, 0.03)
	m.Holding.Capacity = f("holding", 500, 10000)
	m.Holding.StartWith = f("start with", 0, 1)
	m.Recipe.ChipsPerCake = one("ratio", 1.8, 2.5, 3.2)
	m.Mixer.Scale = f("scale", 1000, 10000)
	m.Mixer.Volume = f("mixer", 2, 15)
	m.Mixer.BatchTime = sim.Duration(rapid.IntRange(300, 7200).Draw(t, "batch time"))
	m.Vessels.Installed = rapid.IntRange(0, 30).Draw(t, "vessels")
	m.Vessels.Volume = one("vessel volume", 12, 31, 50)
	m.Vessels.Payload = one("payload", 9000, 18144)
	m.Vessels.Early = rapid.Bool().Draw(t, "early release")
	m.Vessels.Turnaround = sim.Duration(rapid.IntRange(0, 5*86400).Draw(t, "turnaround"))
	m.Curing.Capacity = f("pad", 60, 2000)
	m.Curing.Time = sim.Duration(rapid.IntRange(86400, 45*86400).Draw(t, "curing"))
	m.Vessels.PartFilled = sim.Duration(one("part-filled wait", 12, 60)) * sim.Day
	m.Screening.Settings.Capacity = f("screen", 2, 60)
	m.Product.Capacity = f("product store", 60, 2000)
	m.Product.Demand = repeat12(f("demand", 0, 60))
	m.Chips.LeadTime = sim.Duration(rapid.IntRange(0, 60*86400).Draw(t, "lead time"))
	m.Chips.LeadCV = f("lead spread", 0, 1)
	crew := func(name string) Crew {
		c := Crew{Count: rapid.IntRange(0, 2).Draw(t, name)}
		if c.Count > 0 && rapid.Bool().Draw(t, name+" break down") {
			c.Failure = failure(t, name)
		}
		return c
	}
	m.Yard = Yard{
		Trucks: crew("trucks"), Loaders: crew("loaders"), Operators: crew("operators"),
		Move:          sim.Duration(rapid.IntRange(0, 7200).Draw(t, "move")),
		Places:        rapid.IntRange(0, 20).Draw(t, "places"),
		LoadingPlaces: rapid.IntRange(0, 3).Draw(t, "loading places"),
	}
	m.Screening.First = rapid.Bool().Draw(t, "screen first")
	if rapid.Bool().Draw(t, "dewatering on demand") {
		m.Dewatering = Dewatering{Rate: f("dewatering", 20, 2000), Hours: m.Mixer.Hours}
	}
	if rapid.Bool().Draw(t, "feedstock") {
		manure := m.Cake
		manure.Name, manure.Moisture = "manure", 0.72
		m.Feedstocks = []Feedstock{{Material: manure, PerDay: repeat12(f("feedstock amount", 0, 300)),
			Weekday: [7]float64{0, 1, 1, 1, 1, 1, 0}, CV: f("feedstock noise", 0, 0.5)}}
	}
	if rapid.Bool().Draw(t, "pulse") {
		m.Feed.Pulses = []Pulse{{From: calendar.Date{Year: 2027, Month: 5, Day: 10}, Days: 20, PerDay: f("pulse amount", 0, 2000)}}
	}
	if rapid.Bool().Draw(t, "media") {
		m.Media = Media{Every: sim.Duration(rapid.IntRange(10, 300).Draw(t, "media every")) * sim.Day, Volume: f("media volume", 1, 250)}
	}
	if rapid.Bool().Draw(t, "changes") {
		m.Changes = []Change{
			{Name: "more", Date: calendar.Date{Year: 2027, Month: 3, Day: 4}, Lead: 11 * sim.Day, Vessels: 2, Places: 1, Trucks: 1,
				Operators: 1, Loaders: 1, Pad: 50, Holding: 300, ProductStore: 40, ScreenCapacity: 33, CakeSolids: 0.02},
			{Name: "when held", Trigger: Trigger{Held: f("trigger", 0.1, 1), For: 3 * sim.Day}, Lead: 30 * sim.Day, Vessels: 3, Hours: shift},
		}
	}
	if rapid.Bool().Draw(t, "machines break down") {
		m.Mixer.Failure, m.Screening.Failure = failure(t, "mixer"), failure(t, "screen")
	}
	if rapid.Bool().Draw(t, "vessels are serviced") {
		m.Vessels.Service = Maintenance{
			Every: sim.Duration(rapid.IntRange(20, 400).Draw(t, "service every")) * sim.Day,
			Takes: sim.Duration(rapid.IntRange(1, 30).Draw(t, "service takes")) * sim.Day,
		}
	}
	if rapid.Bool().Draw(t, "day shift") {
		m.Mixer.Hours, m.Vessels.Hours, m.Screening.Hours = shift, shift, shift
	}
	return m
}

func failure(t *rapid.T, name string) Failure {
	return Failure{
		Every:  sim.Duration(rapid.IntRange(3600, 60*86400).Draw(t, name+" fails every")),
		Repair: sim.Duration(rapid.IntRange(60, 5*86400).Draw(t, name+" repair")),
	}
}
