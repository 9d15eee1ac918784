package process

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// tippedPad is a plant's pad on which lots begin at what they were tipped with.
func tippedPad() *Model {
	m := DefaultCuringModel()
	m.Criteria = nil
	h := DefaultHandling()
	m.Tipped = &h
	return m
}

// TestHandlingByHand shows what handling leaves, by arithmetic on its definition: a
// third of 45 K above the air and 5 K, never below the air, and a cold or frozen load as
// it is.
func TestHandlingByHand(t *testing.T) {
	h := Handling{Share: 1. / 3, Drop: 5}
	for _, c := range []struct{ t, ambient, want float64 }{
		{50, 5, 30}, {10, 5, 5}, {5, 5, 5}, {-19.7, -25, -19.7}, {-30, -25, -30}, {3, -25, 0}, {0, -25, 0},
	} {
		if got := h.After(c.t, c.ambient); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%g °C in air of %g: %g, want %g", c.t, c.ambient, got, c.want)
		}
	}
}

// TestMoreHandlingIsNeverWarmer shows that a larger loss never makes a warmer pile, that
// handling never cools below the air or warms, and that it is continuous in the air.
func TestMoreHandlingIsNeverWarmer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tipped, ambient := rapid.Float64Range(-30, 75).Draw(t, "tipped"), rapid.Float64Range(-40, 40).Draw(t, "ambient")
		h := Handling{Share: rapid.Float64Range(0, 1).Draw(t, "share"), Drop: rapid.Float64Range(0, 30).Draw(t, "drop")}
		more := Handling{Share: h.Share + (1-h.Share)*rapid.Float64Range(0, 1).Draw(t, "more share"), Drop: h.Drop + rapid.Float64Range(0, 9).Draw(t, "more drop")}
		a, b := h.After(tipped, ambient), more.After(tipped, ambient)
		if b > a+1e-9 || a > tipped+1e-9 || a < min(tipped, ambient)-1e-9 {
			t.Errorf("%g °C after handling, %g after more", a, b)
		}
		if near := h.After(tipped, ambient+1e-3); math.Abs(near-a) > 2e-3 {
			t.Errorf("%g °C, and %g in air a thousandth warmer", a, near)
		}
	})
}

// TestTurningByHand shows that a pile is turned at the hours given, that it is then at
// the temperature which handling leaves, and that the heat account closes (derived).
func TestTurningByHand(t *testing.T) {
	p := course(t, DefaultVesselModel(), standardLoad(), time.May, 10*hoursPerDay).Final().Parcel
	still := course(t, DefaultCuringModel(), p, time.May, 30*hoursPerDay)
	m := DefaultCuringModel()
	m.Turning = Turning{At: []float64{100, 300.25}, Loses: Handling{Share: 0.5}}
	c := course(t, m, p, time.May, 30*hoursPerDay)
	checkBalances(t, m, c)
	lost := 0.0
	for i, s := range c.Samples[1:] {
		before := c.Samples[i]
		if before.Hours == 100 || before.Hours == 300.25 {
			start := m.Turning.Loses.After(before.Temperature, m.Site.Temperature[time.May-1])
			lost += (before.Temperature - start) * m.Heat.Of(before.Parcel.Dry(), before.Parcel.Water)
			if got := 2*s.Mean - s.Temperature; math.Abs(got-start) > 1e-5 {
				t.Errorf("turned at %g h: goes on from %g °C, want %g", before.Hours, got, start)
			}
		}
	}
	if math.Abs(c.Energy.Handling-lost) > 1e-9*lost || lost == 0 || still.Energy.Handling != 0 {
		t.Errorf("lost by turning %g kJ, want %g", c.Energy.Handling, lost)
	}
}

// TestTurnedWhenHot shows that a pile which is turned by its temperature is turned as soon
// as it is hot and has lain still long enough, and never else; that it is cooled by what
// turning loses; that the heat account closes; and that a pile which never gets so hot is
// as if it were not turned (derived).
func TestTurnedWhenHot(t *testing.T) {
	p := course(t, DefaultVesselModel(), standardLoad(), time.May, 6*hoursPerDay).Final().Parcel
	const above, apart = 47, 72.0
	hot := DefaultCuringModel()
	hot.Turning = Turning{Above: above, Apart: apart, Loses: Handling{Share: 0.4}}
	c := course(t, hot, p, time.May, 40*hoursPerDay)
	checkBalances(t, hot, c)
	turned, lay := 0, 0.0
	before := Sample{Temperature: c.Start}
	for _, s := range c.Samples {
		due := before.Temperature >= above && before.Hours >= lay+apart
		start := before.Temperature
		if due {
			start = hot.Turning.Loses.After(start, hot.Site.Temperature[time.May-1])
			turned, lay = turned+1, before.Hours
		}
		if got := 2*s.Mean - s.Temperature; math.Abs(got-start) > 1e-5 {
			t.Fatalf("hour %g at %g °C: goes on from %g, want %g", before.Hours, before.Temperature, got, start)
		}
		before = s
	}
	if turned < 3 || c.Energy.Handling <= 0 {
		t.Errorf("turned %d times, which takes %g kJ", turned, c.Energy.Handling)
	}
	hot.Turning.Above = 79
	cool, still := course(t, hot, p, time.May, 40*hoursPerDay), course(t, DefaultCuringModel(), p, time.May, 40*hoursPerDay)
	if cool.Energy.Handling != 0 || math.Abs(cool.Final().Parcel.Water-still.Final().Parcel.Water) > 1e-6*still.Final().Parcel.Water {
		t.Errorf("turned at 79 °C: %g kg of water, unturned %g", cool.Final().Parcel.Water, still.Final().Parcel.Water)
	}
}

// TestTurningThawsNothing shows that a pile that is frozen in part, at 0 °C, is what it
// would be without being turned, in any air: what handling would take is heat above 0 °C,
// and it brings none.
func TestTurningThawsNothing(t *testing.T) {
	for _, ambient := range []float64{-20, 0, 15} {
		m := DefaultCuringModel()
		m.Heat.Fusion = FusionHeat
		m.Site.Temperature[time.January-1] = ambient
		m.Intake = &Intake{}
		m.Intake.Cake[time.January-1], m.Intake.Chips[time.January-1] = 0.5, -20
		m.Enclosure.Conductance = 0.1
		still := course(t, m, standardLoad(), time.January, 10)
		m.Turning = Turning{At: []float64{2}, Loses: Handling{Share: 0.5, Drop: 3}}
		turned := course(t, m, standardLoad(), time.January, 10)
		if still.Start != 0 || still.Samples[3].Temperature != 0 {
			t.Fatalf("the load is at %g °C, then %g, not half frozen", still.Start, still.Samples[3].Temperature)
		}
		if turned.Energy.Handling != 0 || math.Abs(turned.Energy.Stored-still.Energy.Stored) > 1e-4*math.Abs(still.Energy.Stored) {
			t.Errorf("in air of %g °C turning takes %g kJ; stored are %g, unturned %g", ambient, turned.Energy.Handling, turned.Energy.Stored, still.Energy.Stored)
		}
	}
}

// TestTableKnowsTippedTemperature shows the bound of the table of a pad on which lots
// begin at what they were tipped with, from frozen to hot, still and turned: masses
// within 0.5 %, and the hour at which a period above 40 °C with a mean above 45 °C ends
// within two.
func TestTableKnowsTippedTemperature(t *testing.T) {
	criterion := VectorAttractionReduction()
	turned := tippedPad()
	turned.Turning = DefaultTurning()
	hot := tippedPad()
	hot.Turning = Turning{Above: 45, Apart: DefaultApart, Loses: DefaultHandling()}
	for _, c := range []struct {
		name string
		m    *Model
	}{{"still", tippedPad()}, {"turned by the clock", turned}, {"turned when hot", hot}} {
		t.Run(c.name, func(t *testing.T) {
			const hours = 60 * hoursPerDay
			vessel, r := DefaultVesselModel(), NewResponses(c.m, hours)
			rng := rand.New(rand.NewPCG(31, 32))
			var worst deviation
			off, met := 0.0, 0
			for i := range 60 {
				month := time.Month(1 + rng.IntN(12))
				before := course(t, vessel, plantLoad(rng, month), month, (6+14*rng.Float64())*hoursPerDay)
				out := before.Final()
				p, start := out.Parcel, c.m.Tipped.After(out.Temperature, c.m.Site.Temperature[month-1])
				if i%6 == 0 {
					start = -20 + 80*rng.Float64()
				}
				d := deviationFrom(t, r, p, month, start)
				worst = worst.worst(d)
				whole, err := c.m.CourseFrom(p, month, hours, start)
				if err != nil {
					t.Fatal(err)
				}
				s, err := r.From(p, month, start)
				if err != nil {
					t.Fatal(err)
				}
				history := append(before.History(), whole.History()...)
				want, got := criterion.Evaluate(history), criterion.Judge(slices.Values(before.History()), s.Readings(hours))
				if want.OK && got.OK {
					met++
					off = max(off, math.Abs(want.Hours-got.Hours))
				} else if want.OK != got.OK && !nearlySo(criterion, history, got.OK) {
					t.Errorf("load %d of %v from %.1f °C after %g h: met %v, by the table %v", i, month, start, out.Hours, want, got)
				}
			}
			standard, direct := r.integrated()
			t.Logf("worst %+v, criterion off by %.2g h in %d, %d standard loads, %d integrated on their own", worst, off, met, standard, direct)
			if worst.dry > 0.005 || worst.water > 0.005 || off > 2 || met == 0 {
				t.Errorf("the table strays from integration: %+v, %g h", worst, off)
			}
		})
	}
}

// TestTableOverManyPiles shows how often the table of such a pad keeps these bounds, over
// more loads than a plant makes in years, from those that were in a vessel for six days only
// to cold ones: of 1,000 (-wide 1000) four stray by more, by 0.92 % of the water at most, two
// meet the criterion more than two hours sooner or later than integration has it, one of
// which holds a temperature by a hair, and none is judged otherwise.
func TestTableOverManyPiles(t *testing.T) {
	loads := *wide
	if loads == 0 {
		loads = 300
	}
	const hours = 60 * hoursPerDay
	criterion := VectorAttractionReduction()
	vessel, r := DefaultVesselModel(), NewResponses(tippedPad(), hours)
	rng := rand.New(rand.NewPCG(131, 32))
	var worst deviation
	broken, off, otherwise := 0, 0, 0
	for i := range loads {
		month := time.Month(1 + rng.IntN(12))
		before := course(t, vessel, plantLoad(rng, month), month, (6+14*rng.Float64())*hoursPerDay)
		out := before.Final()
		p, start := out.Parcel, r.m.Tipped.After(out.Temperature, r.m.Site.Temperature[month-1])
		if i%6 == 0 {
			start = -20 + 80*rng.Float64()
		}
		d := deviationFrom(t, r, p, month, start)
		if worst = worst.worst(d); d.dry > 0.005 || d.water > 0.005 {
			broken++
		}
		whole, err := r.m.CourseFrom(p, month, hours, start)
		if err != nil {
			t.Fatal(err)
		}
		s, err := r.From(p, month, start)
		if err != nil {
			t.Fatal(err)
		}
		history := append(before.History(), whole.History()...)
		want, got := criterion.Evaluate(history), criterion.Judge(slices.Values(before.History()), s.Readings(hours))
		switch {
		case want.OK && got.OK && math.Abs(want.Hours-got.Hours) > 2:
			off++
		case want.OK != got.OK && !nearlySo(criterion, history, got.OK):
			otherwise++
		}
	}
	standard, direct := r.integrated()
	t.Logf("%d of %d loads break the bounds of masses, %d that of hours, %d are judged otherwise, worst %+v, %d standard loads, %d integrated on their own",
		broken, loads, off, otherwise, worst, standard, direct)
	if 100*broken > loads || 200*off > loads || 500*otherwise > loads || worst.dry > 0.005 || worst.water > 0.01 {
		t.Error("the table of the pad strays from integration")
	}
}

// TestNoPilePassesByAHair shows that what is asked of a course that a table tells makes none
// pass that integration does not, in many loads on a pad whose air holds just the mean that
// is asked for, where without it some do; and that nearly all pass that do: of 3,000 loads
// 1,952 pass, 56 of which are told not to, none of the others is told to, and 280 would be.
func TestNoPilePassesByAHair(t *testing.T) {
	const hours, loads = 60 * hoursPerDay, 200
	criterion, pad := VectorAttractionReduction(), tippedPad()
	pad.Program[0].Setpoint = criterion.Mean
	vessel, r := DefaultVesselModel(), NewResponses(pad, hours)
	rng := rand.New(rand.NewPCG(45, 46))
	passes, kind, kindly, missing := 0, 0, 0, 0
	for range loads {
		month := time.Month(1 + rng.IntN(12))
		before := course(t, vessel, plantLoad(rng, month), month, (6+8*rng.Float64())*hoursPerDay)
		out := before.Final()
		start := pad.Tipped.After(out.Temperature, pad.Site.Temperature[month-1])
		whole, err := pad.CourseFrom(out.Parcel, month, hours, start)
		if err != nil {
			t.Fatal(err)
		}
		s, err := r.From(out.Parcel, month, start)
		if err != nil {
			t.Fatal(err)
		}
		want := criterion.Evaluate(append(before.History(), whole.History()...)).OK
		told := func(c Criterion) bool { return c.Judge(slices.Values(before.History()), s.Readings(hours)).OK }
		surely := told(criterion.Surely())
		switch {
		case want:
			passes++
			if !surely {
				missing++
			}
		case surely:
			kindly++
		case told(criterion):
			kind++
		}
	}
	t.Logf("%d of %d loads pass, of which %d are told not to; of the others %d are told to, %d but for what is asked of tables", passes, loads, missing, kindly, kind)
	if kindly > 0 || kind == 0 || 20*missing > passes {
		t.Error("piles are judged by a hair")
	}
}

// TestPileIsContinuous shows that a pile changes by little where the temperature at
// which it was tipped, the weather or the insulation change by little.
func TestPileIsContinuous(t *testing.T) {
	p := course(t, DefaultVesselModel(), standardLoad(), time.May, 12*hoursPerDay).Final().Parcel
	rapid.Check(t, func(t *rapid.T) {
		start, ambient := rapid.Float64Range(-20, 65).Draw(t, "start"), rapid.Float64Range(-20, 30).Draw(t, "ambient")
		run := func(more float64) (dry, temperature float64) {
			m := tippedPad()
			m.Turning = DefaultTurning()
			m.Site.Temperature[time.May-1] = ambient + more
			m.Enclosure.Conductance += more
			c, err := m.CourseFrom(p, time.May, 40*hoursPerDay, start+more)
			if err != nil {
				t.Fatal(err)
			}
			return c.Final().Parcel.Dry(), c.Final().Temperature
		}
		dry, temperature := run(0)
		dry2, temperature2 := run(1e-3)
		if math.Abs(dry2-dry) > 1e-3*dry || math.Abs(temperature2-temperature) > 0.2 {
			t.Errorf("dry %g and %g kg, at the end %g and %g °C", dry, dry2, temperature, temperature2)
		}
	})
}
