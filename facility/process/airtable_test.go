package process

import (
	"math/rand/v2"
	"testing"
	"time"

	"loamcast/facility/material"
)

// structured is the default vessel with what air reaches accounted for.
func structured() *Model {
	m := DefaultVesselModel()
	m.Bulk.Structure = material.DefaultStructure(material.DefaultDepth)
	m.AirPath = DefaultAirPath()
	m.Criteria = append(m.Criteria, AirThroughout())
	return m
}

// TestTableWithAirPath shows that the table keeps its bounds where free air is that
// between settled particles and air does not reach all of a load: over ratios from
// 1 : 1.8, of which air reaches about half, to 1 : 4, in all months.
func TestTableWithAirPath(t *testing.T) {
	r := NewResponses(structured(), tableHours)
	rng := rand.New(rand.NewPCG(21, 22))
	loads := 120
	if testing.Short() {
		loads = 30
	}
	var worst deviation
	for range loads {
		cake, chips := cakeSpec(), chipSpec()
		cake.Moisture = 1 - (0.18 + 0.07*rng.Float64())
		chips = chips.WithMoisture(0.30 + 0.18*rng.Float64())
		p := mix(cake, chips, 1.8+2.2*rng.Float64(), 13000+5000*rng.Float64())
		worst = worst.worst(deviationOf(t, r, p, time.Month(1+rng.IntN(12))))
	}
	standard, direct := r.integrated()
	t.Logf("worst %+v, %d standard loads, %d integrated on their own", worst, standard, direct)
	if worst.dry > 0.005 || worst.water > 0.005 || worst.hours > 2 {
		t.Errorf("the table strays from integration: %+v", worst)
	}
}
