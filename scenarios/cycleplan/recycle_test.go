package cycleplan_test

import (
	"math"
	"testing"
	"time"

	"loamcast/facility/plant"
	"loamcast/facility/process"
	"loamcast/facility/recycle"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
)

func model(t testing.TB, name string) *plant.Model {
	t.Helper()
	f, err := facilityfile.Parse(name, examples.Data(name))
	if err != nil {
		t.Fatal(err)
	}
	return &f.Model
}

func near(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.10g, want %.10g ± %g", what, got, want, tol)
	}
}

// Shows that the steady load of every example and season is a full vessel in the
// file's proportions, that what comes back is what went in as recovered chips,
// and that the loop as a whole gains and loses nothing but what fresh material,
// product, rejects and decay account for.
func TestSteadyLoadIsSteady(t *testing.T) {
	for _, name := range examples.Names() {
		m := model(t, name)
		for _, month := range []time.Month{time.January, time.April, time.July, time.October} {
			l := recycle.New(m, month)
			s, err := l.Steady(t.Context(), recycle.AsRun(m, l.Month))
			if err != nil {
				t.Errorf("%s %s: %v", name, month, err)
				continue
			}
			what := name + " " + month.String() + ": "
			v := l.Vessel()
			near(t, what+"filling", max(s.Load.Total()/v.Payload, s.Volumes.Load/v.Volume), 1, 1e-9)
			near(t, what+"chips to cake", (s.Volumes.Fresh+s.Volumes.Recovered)/s.Volumes.Cake, m.Recipe.ChipsPerCake, 1e-6)
			near(t, what+"recovered, in and out, kg", s.Parts.Recovered.Total(), s.Split.Recovered.Total(), 1e-5)
			near(t, what+"cake moisture", s.Parts.Cake.Moisture(), 1-m.Feed.CakeSolids[month-1], 1e-12)
			near(t, what+"fresh chip moisture", s.Parts.Fresh.Moisture(), m.Chips.Moisture[month-1], 1e-12)

			j := s.Journey
			lost := j.Vessel.Final().Exchange.Volatile + j.Curing.Final().Exchange.Volatile
			in := s.Parts.Cake.Dry() + s.Parts.Fresh.Dry()
			out := s.Split.Product.Dry() + s.Split.Rejects.Dry() + lost
			near(t, what+"dry solids through the loop, kg", out, in, 1e-5)
		}
	}
}

// Shows the release rules of a run: the stay aimed at when it is enough; longer
// when a criterion of the vessel needs it; the pad when vessel and curing may
// meet it together; and a failed load followed as if released.
func TestTravelObeysTheReleaseRules(t *testing.T) {
	base := *model(t, examples.Demo)
	hold := process.PathogenReduction() // 72 h at 55 °C in the vessel
	vector := process.VectorAttractionReduction()
	never := process.Criterion{Name: "never", Kind: process.Hold, Temperature: 79, Hours: 24}

	with := func(stayDays float64, criteria ...process.Criterion) *recycle.Journey {
		m := base
		active, pile := *base.Active, *base.Pile
		active.Criteria, pile.Criteria = criteria, criteria
		m.Active, m.Pile = &active, &pile
		l := recycle.New(&m, time.July)
		l.Stay = stayDays * 24
		s, err := l.Steady(t.Context(), recycle.AsRun(&m, l.Month))
		if err != nil {
			t.Fatal(err)
		}
		return s.Journey
	}

	j := with(18, hold, vector)
	near(t, "stay when all is met in time, h", j.Stay(), 18*24, 1e-9)
	if !j.Complies() || j.HeldFor != "" {
		t.Errorf("a July load: complies %v, held for %q", j.Complies(), j.HeldFor)
	}

	j = with(3, hold)
	if !j.Complies() || j.HeldFor != hold.Name {
		t.Errorf("3 days: complies %v, held for %q", j.Complies(), j.HeldFor)
	}
	near(t, "stay lengthened to the hour of the criterion, h", j.Stay(), j.Verdicts[0].Hours, 1e-6)
	if j.Stay() <= 72 {
		t.Errorf("3 days in a row at 55 °C were met within %.1f h", j.Stay())
	}

	inVessel := vector
	inVessel.Where = process.InVessel
	if j = with(10, inVessel); j.Verdicts[0].OnPad || j.Stay() < vector.Hours {
		t.Errorf("14 days in the vessel: on pad %v, stay %.1f h", j.Verdicts[0].OnPad, j.Stay())
	}

	// A warm pile goes on counting after ten days in the vessel.
	warm := vector
	warm.Temperature, warm.Mean, warm.Hours = 30, 40, 13*24
	if j = with(10, warm); !j.Verdicts[0].OnPad || j.Stay() != 240 || !j.Complies() {
		t.Errorf("13 days above 30 °C: %+v, stay %.1f h", j.Verdicts[0], j.Stay())
	}

	if j = with(18, never); j.Complies() || j.Stay() != 18*24 {
		t.Errorf("79 °C: complies %v after %.1f h", j.Complies(), j.Stay())
	}
}

// Shows that a lot cures until it is as stable as asked for, at most the longest
// curing time, and no longer than the curing time where it is stable sooner.
func TestCuringWaitsForStability(t *testing.T) {
	m := model(t, examples.Demo)
	cured := func(left float64) *recycle.Journey {
		m.Curing.ReadilyLeft = left
		s, err := recycle.New(m, time.July).Steady(t.Context(), recycle.AsRun(m, time.July))
		if err != nil {
			t.Fatal(err)
		}
		return s.Journey
	}
	free := cured(1)
	if !free.Stable || free.Cured() != m.Curing.Time.Hours() {
		t.Errorf("nothing asked: stable %v after %.1f h", free.Stable, free.Cured())
	}
	after, longest := free.ReadilyLeft(), m.Curing.Longest.Hours()
	if j := cured(0.995 * after); !j.Stable || j.ReadilyLeft() > 0.995*after || j.Cured() <= free.Cured() || j.Cured() >= longest {
		t.Errorf("a little more: stable %v, %.4f left after %.1f h", j.Stable, j.ReadilyLeft(), j.Cured())
	}
	if j := cured(0.01 * after); j.Stable || math.Abs(j.Cured()-longest) > 1e-6 {
		t.Errorf("much more: stable %v after %.1f h", j.Stable, j.Cured())
	}
}

// Shows that the fewest batches fill a vessel: one fewer would overload mixer or
// scale.
func TestBatches(t *testing.T) {
	m := model(t, examples.Demo)
	l := recycle.New(m, time.May)
	s, err := l.Steady(t.Context(), recycle.AsRun(m, l.Month))
	if err != nil {
		t.Fatal(err)
	}
	n, _ := l.Batches(s.Load)
	fits := func(n int) bool {
		return s.Load.Total()/float64(n) <= m.Mixer.Scale*(1+1e-9) && s.Volumes.Load/float64(n) <= m.Mixer.Volume*(1+1e-9)
	}
	if !fits(n) || n > 1 && fits(n-1) {
		t.Errorf("%d batches: fits %v, one fewer %v", n, fits(n), fits(n-1))
	}
}

// Shows that a recipe without chips is refused in words.
func TestSteadyNeedsChips(t *testing.T) {
	if _, err := recycle.New(model(t, examples.Demo), time.May).Steady(t.Context(), recycle.Recipe{}); err == nil {
		t.Error("a load without chips was made")
	}
}

func BenchmarkSteady(b *testing.B) {
	m := model(b, examples.Demo)
	for b.Loop() {
		if _, err := recycle.New(m, time.July).Steady(b.Context(), recycle.AsRun(m, time.July)); err != nil {
			b.Fatal(err)
		}
	}
}
