package process

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// holding returns the default vessel with a program that waits twice, each time for
// long.
func holding() *Model {
	m := DefaultVesselModel()
	m.Program = DefaultHold(m.Criteria)
	m.Program[0].Hours = 4 * hoursPerDay
	m.Program[1].Until = &Ending{Criterion: VectorAttractionReduction(), Longest: 14 * hoursPerDay}
	m.Blower.Turndown = DefaultTurndown
	return m
}

// ends returns the hours at which the segments of a course end.
func ends(c *Course) []float64 {
	var list []float64
	for i, s := range c.Samples[1:] {
		if before := c.Samples[i]; s.Segment != before.Segment {
			list = append(list, before.Hours)
		}
	}
	return list
}

// TestSegmentWaitsForCriterion shows that a segment that waits ends at the moment at
// which its criterion is met, and not before its least nor after its longest time
// (derived: by the criterion's own verdict on the same course), that a load which goes
// by the clock and just misses the criterion meets it so, and that a temperature that is
// held counts from the segment's own beginning.
func TestSegmentWaitsForCriterion(t *testing.T) {
	p := standardLoad()
	m := DefaultVesselModel()
	wait := func(least, longest float64, own bool) []float64 {
		m.Program = DefaultVesselModel().Program
		m.Program[0].Hours = least
		m.Program[0].Until = &Ending{Criterion: PathogenReduction(), Longest: longest, Own: own}
		c := course(t, m, p, time.January, residence)
		if !own && longest == 400 && !c.Met[0].OK {
			t.Errorf("waiting, the load does not meet %s", PathogenReduction().Name)
		}
		if e := ends(c); longest == 400 && least == 1 && e[0] != c.Met[0].Hours {
			t.Errorf("the segment ends at %g h, the criterion is met at %g", e[0], c.Met[0].Hours)
		}
		return ends(c)
	}
	met := wait(1, 400, false)[0]
	if e := wait(met+30, 400, false)[0]; e != met+30 {
		t.Errorf("least time %g h: it ends at %g", met+30, e)
	}
	if e := wait(1, met-10, false)[0]; e != met-10 {
		t.Errorf("longest time %g h: it ends at %g", met-10, e)
	}

	m.Program = DefaultVesselModel().Program
	m.Program[0].Hours = met - 1.5 // row 4: cooled an hour and a half too early
	if c := course(t, m, p, time.January, residence); c.Met[0].OK {
		t.Errorf("cooled at %g h, the load meets it at %g", met-1.5, c.Met[0].Hours)
	}

	// Two days at 45 °C of the second segment's own, of a load that is hotter anyway.
	m.Program[0].Hours = met
	m.Program[1].Hours = 1
	m.Program[1].Until = &Ending{Criterion: Criterion{Name: "held", Temperature: 45, Hours: 48}, Own: true, Longest: 500}
	if e := ends(course(t, m, p, time.January, residence)); math.Abs(e[1]-e[0]-48) > 1e-6 {
		t.Errorf("held for %g h, want 48", e[1]-e[0])
	}
}

// TestRampSparesAir shows row 5: without a ramp the largest flow is all that the blower
// has, whatever that is; with one it is the same for every blower that is large enough,
// and the setpoint is never fallen short of by more than the ramp allows (derived: the
// load is at max(setpoint, from − ramp·time)).
func TestRampSparesAir(t *testing.T) {
	p := standardLoad()
	peak := func(ramp, capacity float64) float64 {
		m := DefaultVesselModel()
		m.Blower.Capacity = capacity
		for i := range m.Program {
			m.Program[i].Ramp = ramp
		}
		c := course(t, m, p, time.July, residence)
		if e := ends(c)[0]; ramp > 0 {
			for _, s := range c.Samples {
				if s.Segment != 1 || s.Hours > e+8/ramp {
					continue
				}
				if want := 60 - ramp*(s.Hours-e); math.Abs(s.Temperature-want) > 0.05 {
					t.Fatalf("%g h into the ramp: %g °C, want %g", s.Hours-e, s.Temperature, want)
				}
			}
		}
		return c.PeakFlow()
	}
	for _, capacity := range []float64{1100, 2200, 3300} {
		if got := peak(0, capacity); math.Abs(got-capacity) > 1e-6*capacity {
			t.Errorf("no ramp: %g m3/h of %g", got, capacity)
		}
	}
	want := peak(DefaultRamp, 1100)
	for _, capacity := range []float64{2200, 3300} {
		if got := peak(DefaultRamp, capacity); math.Abs(got-want) > 0.01*want || got > 700 {
			t.Errorf("ramp: %g m3/h of %g, and %g of 1100", got, capacity, want)
		}
	}
	t.Logf("peak with a ramp of %g K/h: %.0f m3/h", float64(DefaultRamp), want)
}

// TestTurndown shows that a blower which cannot run slower blows on and off at its least
// flow, with the mean, the course and the power of one that can (derived).
func TestTurndown(t *testing.T) {
	m, n := DefaultVesselModel(), DefaultVesselModel()
	n.Blower.Turndown = 0.3
	a, b := course(t, m, standardLoad(), time.May, residence), course(t, n, standardLoad(), time.May, residence)
	least := 0.3 * m.Blower.Capacity
	pulsed := 0
	for i, s := range b.Samples {
		if before := a.Samples[i]; s.Flow != before.Flow || s.Temperature != before.Temperature || s.Blower != before.Blower {
			t.Fatalf("hour %g: the course differs", s.Hours)
		}
		if want := max(s.Flow, least); math.Abs(s.Blowing-want) > 1e-9*want {
			t.Fatalf("hour %g: blows %g m3/h for a mean of %g", s.Hours, s.Blowing, s.Flow)
		}
		if s.Blowing > s.Flow {
			pulsed++
		}
	}
	if pulsed == 0 {
		t.Error("the blower never ran below its least flow")
	}
}

// TestProgramIsContinuous shows that a load in a program that waits changes by little
// where the weather, the insulation or the least time of the segment changes by little.
func TestProgramIsContinuous(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rng := rand.New(rand.NewPCG(21, rapid.Uint64Range(0, 1000).Draw(t, "load")))
		p := plantLoad(rng, time.March)
		ambient := rapid.Float64Range(-15, 30).Draw(t, "ambient")
		at := func(more float64) (dry, end float64) {
			m := holding()
			m.Site.Temperature[time.March-1] = ambient + more
			m.Enclosure.Conductance *= 1 + more/10
			m.Program[0].Hours += more
			c, err := m.Course(p, time.March, residence)
			if err != nil {
				t.Fatal(err)
			}
			return c.Final().Parcel.Dry(), ends(c)[0]
		}
		dry, end := at(0)
		dry2, end2 := at(0.01)
		if math.Abs(dry2-dry) > 1e-3*dry || math.Abs(end2-end) > 1.5 {
			t.Errorf("dry %g and %g kg, first segment to %g and %g h", dry, dry2, end, end2)
		}
	})
}

// TestTableFollowsProgramThatWaits shows the bound of the table where segments end by
// events: 0.5 % in masses, two hours in compliance, and that few loads are integrated
// on their own.
func TestTableFollowsProgramThatWaits(t *testing.T) {
	r := NewResponses(holding(), tableHours)
	rng := rand.New(rand.NewPCG(11, 12))
	var worst deviation
	const loads = 200
	for range loads {
		worst = worst.worst(deviationOf(t, r, randomLoad(rng), time.Month(1+rng.IntN(12))))
	}
	standard, direct := r.integrated()
	t.Logf("worst %+v, %d standard loads, %d of %d integrated on their own", worst, standard, direct, loads)
	if worst.dry > 0.005 || worst.water > 0.005 || worst.hours > 2 || worst.undecided > 0 {
		t.Errorf("the table strays from integration: %+v", worst)
	}
	if direct > loads/20 {
		t.Errorf("%d of %d loads are integrated on their own", direct, loads)
	}
}

// TestTableFollowsEveryKindOfEnding shows the same bound for programs that wait for
// other things: a temperature held in a segment's own time, an equation, a mean, a
// criterion that many loads miss by the longest time, and with nothing judged.
func TestTableFollowsEveryKindOfEnding(t *testing.T) {
	with := func(first, second *Ending, criteria []Criterion) *Model {
		m := DefaultVesselModel()
		m.Program = DefaultHold(nil)
		m.Program[0].Hours, m.Program[0].Until = 2*hoursPerDay, first
		m.Program[1].Hours, m.Program[1].Until = 4*hoursPerDay, second
		m.Criteria = criteria
		return m
	}
	held := func(temperature, hours float64) *Ending {
		return &Ending{Criterion: Criterion{Name: "held", Temperature: temperature, Hours: hours}, Own: true, Longest: 15 * hoursPerDay}
	}
	mean := VectorAttractionReduction()
	mean.Hours = 8 * hoursPerDay
	for _, c := range []struct {
		name   string
		m      *Model
		direct int // of 60
	}{
		{"held twice", with(held(57, 30), held(45, 90), DefaultCriteria()), 3},
		{"equation, then mean", with(&Ending{Criterion: TimeTemperature(), Longest: 10 * hoursPerDay}, &Ending{Criterion: mean, Longest: 10 * hoursPerDay}, DefaultCriteria()), 3},
		{"peak within a hold", with(&Ending{Criterion: significantReduction(), Longest: 14 * hoursPerDay}, nil, DefaultCriteria()), 3},
		{"missed by many", with(&Ending{Criterion: PathogenReduction(), Longest: 5.5 * hoursPerDay}, nil, DefaultCriteria()), 20},
		{"nothing judged", with(held(55, 72), nil, nil), 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			if err := c.m.Validate(); err != nil {
				t.Fatal(err)
			}
			r := NewResponses(c.m, tableHours)
			rng := rand.New(rand.NewPCG(41, 42))
			var worst deviation
			for range 60 {
				worst = worst.worst(deviationOf(t, r, randomLoad(rng), time.Month(1+rng.IntN(12))))
			}
			standard, direct := r.integrated()
			t.Logf("worst %+v, %d standard loads, %d of 60 integrated on their own", worst, standard, direct)
			if worst.dry > 0.005 || worst.water > 0.005 || worst.hours > 2 || worst.undecided > 0 {
				t.Errorf("the table strays from integration: %+v", worst)
			}
			if direct > c.direct {
				t.Errorf("%d of 60 loads are integrated on their own", direct)
			}
		})
	}
}
