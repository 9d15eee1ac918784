package process

import (
	"flag"
	"math/rand/v2"
	"testing"
	"time"

	"loamcast/facility/material"
)

// wide is how many wide random mixes TestTableOverWideMixes tries.
var wide = flag.Int("wide", 0, "wide random mixes to compare with integration; 0 for a few")

// everything is the default vessel with all that a file can switch on: lively rates of a
// load that awakes, ice, intake temperatures, structure and air path, ammonia by microbes,
// and a program that waits and comes down by ramps.
func everything() *Model {
	m := livelyModel()
	m.Bulk.Structure = material.DefaultStructure(material.DefaultDepth)
	m.AirPath = DefaultAirPath()
	m.Chemistry.Microbes = material.DefaultMicrobes()
	m.Program = DefaultHold(m.Criteria)
	m.Blower.Turndown = DefaultTurndown
	m.Criteria = append(m.Criteria, AirThroughout())
	return m
}

// wideLoad draws a mix from wherever a plant of any kind might be: thin and thick cake,
// much and little that degrades, few chips and many, fresh or worn, sawdust or yard
// waste beside them, vessels half full.
func wideLoad(r *rand.Rand) material.Parcel {
	between := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	cake, chips := cakeSpec(), chipSpec()
	cake.Moisture = 1 - between(0.14, 0.30)
	cake.Volatile = between(0.60, 0.85)
	cake.Readily = between(0.30, 0.55)
	cake.Rapidly = between(0, 0.3) * cake.Readily
	cake.Readily -= cake.Rapidly
	chips.Readily, chips.Slowly = between(0, 0.03), between(0.2, 0.55)
	chips.Coarse = between(0.75, 0.98)
	chips = chips.WithMoisture(between(0.25, 0.55))
	p := mix(cake, chips, between(1.5, 4.5), between(9000, 19000))
	if r.IntN(3) == 0 {
		amendment := material.Spec{Name: "amendment", Moisture: between(0.25, 0.5), Volatile: between(0.8, 0.98), Readily: between(0, 0.1), Slowly: between(0.15, 0.3),
			Nitrogen: 0.008, Coarse: between(0, 0.5), BulkDensity: 250}
		p.Add(amendment.OfWet(p.Total() * between(0, 0.12)))
	}
	return p
}

// TestTableOfLoadThatHardlyWakes shows that the table keeps its bounds for a load which
// is poor and so wet that it takes eleven days to get hot, where a little less would
// never do. Of 10,000 wide mixes it was the one that strayed (by 0.67 % of the water)
// before such loads had to wake within 36 h of each other.
func TestTableOfLoadThatHardlyWakes(t *testing.T) {
	p := material.Parcel{
		Water:  8283,
		Fine:   material.Solids{Fixed: 210, Rapidly: 15.4, Readily: 363, Slowly: 458, Refractory: 925, Carbon: 979, Nitrogen: 58.8},
		Coarse: material.Solids{Fixed: 67.5, Readily: 63.5, Slowly: 1175, Refractory: 2070, Carbon: 1838, Nitrogen: 6.75},
	}
	r := NewResponses(everything(), tableHours)
	if c := course(t, r.m, p, time.March, tableHours); !(c.reached(55) > 10) {
		t.Errorf("55 °C on day %.1f: this load is not slow", c.reached(55))
	}
	if d := deviationOf(t, r, p, time.March); d.dry > 0.005 || d.water > 0.005 || d.hours > 2 {
		t.Errorf("%+v", d)
	}
}

// TestTableOverWideMixes shows that the table keeps what it promises, 0.5 % of a mass and
// two hours, over mixes far wider than those of any one plant, with all physics on: not more
// than one in 10,000 strays by more (of 30,000, -wide 30000, one did, by 0.63 % of the water).
// Of a load that meets a criterion or misses it by a hair the table may say the other: two
// of 30,000 did.
func TestTableOverWideMixes(t *testing.T) {
	loads := *wide
	if loads == 0 {
		loads = 300
	}
	r := NewResponses(everything(), tableHours)
	rng := rand.New(rand.NewPCG(51, 52))
	var worst deviation
	broken, undecided := 0, 0
	for i := range loads {
		p, month := wideLoad(rng), time.Month(1+rng.IntN(12))
		d := deviationOf(t, r, p, month)
		if d.dry > 0.005 || d.water > 0.005 || d.hours > 2 {
			broken++
			t.Logf("load %d in %v: %+v", i, month, d)
		}
		if d.undecided > 0 {
			undecided++
			t.Logf("load %d in %v is judged otherwise", i, month)
		}
		worst = worst.worst(d)
	}
	standard, direct := r.integrated()
	t.Logf("%d of %d break the bounds, %d are judged otherwise, worst %+v, %d standard loads, %d integrated on their own", broken, loads, undecided, worst, standard, direct)
	if 10000*broken > loads || 2500*undecided > loads {
		t.Errorf("%d of %d wide random mixes break the bounds, %d are judged otherwise", broken, loads, undecided)
	}
}
