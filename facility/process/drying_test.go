package process

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"loamcast/facility/screening"
)

// Drying read from the table differs from integration by less than 0.5 % of the water
// that was there, at any time of 30 days, with much air and with little, for loads as
// they come out of vessels, some of them screened. They hold as much that degrades as
// is left then: in winter what dries them is mostly the air.
func TestDryingTableAgainstIntegration(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 15))
	vessel, pile := DefaultVesselModel(), DefaultCuringModel()
	const days = 30
	worst, sum, n := 0.0, 0.0, 0
	for _, air := range []float64{5, 30, 100} {
		for _, start := range []float64{6, 24, 42} {
			for _, enclosed := range []*Model{vessel, pile} {
				m := enclosed.Dries(air, start)
				table := NewDryingResponses(enclosed, air, start, days*24)
				for range 6 {
					month := time.Month(1 + r.IntN(12))
					c, err := vessel.Course(plantLoad(r, month), month, float64(24*(12+r.IntN(10))))
					if err != nil {
						t.Fatal(err)
					}
					p := c.Final().Parcel
					if r.IntN(2) == 0 {
						p = screening.Screen(p, screening.DefaultSettings(0.01)).Product
					}
					want, err := m.Course(p, month, days*24)
					if err != nil {
						t.Fatal(err)
					}
					got, err := table.Of(p, month)
					if err != nil {
						t.Fatal(err)
					}
					for _, s := range want.Samples {
						q := p
						got.Apply(&q, 0, s.Hours)
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
