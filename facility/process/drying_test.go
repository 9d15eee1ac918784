package process

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"loamcast/facility/screening"
)

// Drying read from the table differs from integration by less than 0.5 % of the water
// that was there, at any time of 30 days after the first point that it keeps, with much
// air and with little, for loads as they come out of vessels, some of them screened,
// from freezing to hot. They hold as much that degrades as is left then: in winter what
// dries them is mostly the air.
func TestDryingTableAgainstIntegration(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 15))
	vessel, pile := DefaultVesselModel(), DefaultCuringModel()
	const days = 30
	worst, sum, n := 0.0, 0.0, 0
	for _, air := range []float64{5, 30, 100} {
		for _, enclosed := range []*Model{vessel, pile} {
			m := enclosed.Dries(air)
			table := NewDryingResponses(enclosed, air, days*24)
			for _, start := range []float64{0, 6, 24, 42, 63} {
				for range 6 {
					start := max(0, start+4*r.Float64())
					month := time.Month(1 + r.IntN(12))
					c, err := vessel.Course(plantLoad(r, month), month, float64(24*(12+r.IntN(10))))
					if err != nil {
						t.Fatal(err)
					}
					p := c.Final().Parcel
					if r.IntN(2) == 0 {
						p = screening.Screen(p, screening.DefaultSettings(0.01)).Product
					}
					want, err := m.CourseFrom(p, month, days*24, start)
					if err != nil {
						t.Fatal(err)
					}
					got, err := table.from(p, month, start)
					if err != nil {
						t.Fatal(err)
					}
					for _, s := range want.Samples {
						q := p
						got.Apply(&q, 0, s.Hours)
						if s.Hours < tablePace {
							continue // what is hot is cool within minutes
						}
						off := math.Abs(q.Water-s.Parcel.Water) / p.Water
						worst, sum, n = max(worst, off), sum+off, n+1
						if off > 0.005 {
							t.Errorf("%s, %g m3/t·h from %g °C in %v: %.2f %% of the water off after %.0f h", m.Enclosure.Name, air, start, month, 100*off, s.Hours)
							break
						}
					}
				}
			}
		}
	}
	t.Logf("worst %.2f %%, mean %.3f %%", 100*worst, 100*sum/float64(n))
}

// A load that dries has been alive before: it does not fall asleep once more, whatever a
// fresh load of its vessel does. So it decays as fast as where loads are fully active
// from the start, by the table and by integration.
func TestDryingLoadIsAwake(t *testing.T) {
	fresh, awake := livelyModel(), livelyModel()
	awake.Kinetics.Awakening = Awakening{}
	p := course(t, fresh, mix(lively(cakeSpec()), chipSpec(), 2.5, 17500), time.May, 12*hoursPerDay).Final().Parcel
	const days = 10
	lost := func(m *Model) (integrated, read float64) {
		c, err := m.Dries(30).CourseFrom(p, time.May, days*hoursPerDay, 45)
		if err != nil {
			t.Fatal(err)
		}
		s, err := NewDryingResponses(m, 30, days*hoursPerDay).from(p, time.May, 45)
		if err != nil {
			t.Fatal(err)
		}
		q := p
		return c.Final().Exchange.O2, s.Apply(&q, 0, days*hoursPerDay).O2
	}
	want, wantRead := lost(awake)
	got, gotRead := lost(fresh)
	if got != want || gotRead != wantRead || !(want > 0) || !within(wantRead, want, 0.01) {
		t.Errorf("takes up %g kg of oxygen (%g by the table), fully active %g (%g)", got, gotRead, want, wantRead)
	}
}
