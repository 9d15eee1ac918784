package plant

import (
	"cmp"
	"context"
	"math"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"loamcast/sim"
	"loamcast/sim/random"
)

// In random facilities a load fits the vessel that it is made for. What its first batch
// is, times the batches planned, is no more than volume and payload of the vessel's class
// allow, and as much as one of the two allows where the holding does not limit it. Later
// batches are planned by then, whatever chips are then on hand; and a batch for which
// fresh chips give out has more of others than was planned.
func TestLoadsFitTheirClass(t *testing.T) {
	maker := newFacilityMaker(t)
	var checked, byVolume, byPayload, other int
	rapid.Check(t, func(rt *rapid.T) {
		p := maker.plant(rt)
		if len(p.Vessels.Classes) == 0 {
			return // other tests have those
		}
		key := random.Key{Seed: rapid.Uint64().Draw(rt, "seed")}
		k := sim.NewKernel(p.Begin(), 0)
		defer k.Close()
		s := newState(p, k, 0, key)
		s.paths = s.books.paths()
		gaveOut := map[uint64]bool{} // by load
		s.trace = func(mv Movement) {
			l := s.loading
			if mv.Path.Name == "chips mixed" {
				gaveOut[mv.Load] = gaveOut[mv.Load] || s.chips.fresh.volume <= 0
			}
			if mv.Path.Name != "mix loaded" || l.batches > 0 || gaveOut[mv.Load] && l.plan.recoveredShare < 1 {
				return
			}
			class := s.vessels[l.vessel].class
			v := p.AsClass(class).Vessels
			times := float64(l.plan.batches)
			volume := times * p.Bulk.VolumeOf(s.mixers.holding(mv.Amount)) / v.Volume
			payload := times * mv.Amount.Total / v.Payload
			const close = 1e-6
			if full := max(volume, payload); full > 1+close {
				rt.Fatalf("a load of class %d takes %g of the volume and %g of the payload", class, volume, payload)
			} else if whole := min(l.cakeDry, s.batchCake(&l.plan)) >= l.plan.cakeDry*(1-close); full < 1-close && whole && len(p.Amendments) == 0 {
				rt.Fatalf("a load of class %d takes no more than %g of the volume and %g of the payload", class, volume, payload)
			}
			checked++
			if class > 0 {
				other++
			}
			if volume > 1-close {
				byVolume++
			} else if payload > 1-close {
				byPayload++
			}
		}
		k.AtPriority(0, sim.Early, "day", s.midnight)
		if err := k.Run(context.Background(), sim.Time(k.Clock().SecondOf(p.Start.AddYears(p.Years)))); err != nil {
			rt.Fatal(err)
		}
	})
	t.Logf("%d loads, %d full by volume and %d by payload; %d in vessels of another class than the first", checked, byVolume, byPayload, other)
	if byVolume == 0 || byPayload == 0 || other == 0 {
		t.Error("some kind of load was never made")
	}
}

// Two classes that are the same are one, to the last bit: the same record, but for what
// it says of classes, whatever of the two the vessels installed and those added are.
func TestSameClassesAreOne(t *testing.T) {
	maker := newFacilityMaker(t)
	compared := 0
	rapid.Check(t, func(t *rapid.T) {
		p := maker.plant(t)
		if rapid.IntRange(0, 3).Draw(t, "of four facilities one") > 0 {
			return // each takes two runs
		}
		one := p.Model
		one.Vessels.Classes, one.Vessels.Extra = nil, 0
		one.Changes, one.Outages = nil, nil // one vessel of a class is not one of either
		two := one
		two.Vessels.Classes = []VesselClass{{Name: "a"}, {Name: "b"}}
		two.Vessels.Classes[0].Installed = rapid.IntRange(0, one.Vessels.Installed).Draw(t, "of the first class")
		two.Vessels.Classes[1].Installed = one.Vessels.Installed - two.Vessels.Classes[0].Installed
		if o := p.Opening; o != nil { // in vessels by their number, as of one class they are
			in, of := *o, *o
			in.Vessels, of.Vessels = slices.Clone(o.Vessels), slices.Clone(o.Vessels)
			for i := range o.Vessels {
				in.Vessels[i].Class, of.Vessels[i].Class = 0, 0
			}
			for _, i := range oldestFirst(o.Vessels)[min(two.Vessels.Classes[0].Installed, len(o.Vessels)):] {
				of.Vessels[i].Class = 1
			}
			one.Opening, two.Opening = &in, &of
		}
		for _, c := range p.Changes {
			c.Class = 0
			one.Changes = append(one.Changes, c)
			c.Class = rapid.IntRange(0, 1).Draw(t, "class added")
			two.Changes = append(two.Changes, c)
		}
		key := random.Key{Seed: rapid.Uint64().Draw(t, "seed")}
		run := func(m Model) *Record {
			q, err := p.With(m)
			if err != nil {
				t.Fatal(err)
			}
			rec, err := q.Run(context.Background(), key)
			if err != nil {
				t.Fatal(err)
			}
			return rec
		}
		a, b := run(one), run(two)
		for i := range b.Months {
			loads, installed := 0.0, 0.0
			for _, c := range b.Months[i].Classes {
				loads += c.Loads
				installed += c.Installed
			}
			if m := &b.Months[i]; loads != m.Loads.Filled || installed != m.Vessels.Installed {
				t.Fatalf("month %d: %g loads and %g vessels in the classes, %g and %g in all", i, loads, installed, m.Loads.Filled, m.Vessels.Installed)
			}
			b.Months[i].Classes = nil
		}
		if !reflect.DeepEqual(a, b) {
			t.Fatalf("two classes that are the same make another record: fingerprints %x and %x", a.Fingerprint, b.Fingerprint)
		}
		compared++
	})
	t.Logf("%d facilities", compared)
}

// A class of its own course has a table of its own, and shares that of the same course
// with another plant.
func TestClassesShareTables(t *testing.T) {
	m := model()
	weak := *m.Active
	weak.Blower.Capacity /= 2
	m.Vessels.Installed = 8
	m.Vessels.Classes = []VesselClass{{Name: "a", Installed: 4}, {Name: "b", Installed: 3, Active: &weak}, {Name: "c", Installed: 1, Volume: 50}}
	p := plantOf(t, m)
	if p.kinds[0].courses != p.kinds[2].courses || p.kinds[0].courses == p.kinds[1].courses {
		t.Error("tables are not shared by those of the same course, and by no others")
	}
	m.Vessels.Classes = nil
	m.Active = &weak
	q, err := p.With(m)
	if err != nil {
		t.Fatal(err)
	}
	if q.kinds[0].courses != p.kinds[1].courses {
		t.Error("another plant with the course of a class fills a table of its own")
	}
}

// The arithmetic of the handbook and of capacity for two classes, by that of each alone:
// what they sustain together is the sum, the static estimate says so in vessels as they
// are installed, and vessels of one class are worth those of the other in proportion.
func TestClassesByArithmetic(t *testing.T) {
	m := model()
	turnaround := 60 * sim.Hour
	m.Vessels.Installed = 6
	m.Vessels.Classes = []VesselClass{
		{Name: "large", Installed: 2, Volume: 46, Payload: math.Inf(1)},
		{Name: "small", Installed: 4, Residence: 20 * sim.Day, Turnaround: &turnaround},
	}
	p := plantOf(t, m)
	needs := Needs{Payload: 7, Volume: 0.012}
	vessels := func(p *Plant) float64 {
		for _, c := range p.Capacities(m.Start, needs) {
			if c.Stage == AtVessels {
				return c.CakeDry
			}
		}
		t.Fatal("nothing is said of vessels")
		return 0
	}
	sum, rates := 0.0, [2]float64{}
	for class := range rates {
		alone := plantOf(t, m.AsClass(class))
		sustains := vessels(alone)
		if got := p.CapacityByClass(m.Start, needs)[class]; math.Abs(got/sustains-1) > 1e-12 {
			t.Errorf("class %d sustains %g, alone %g", class, got, sustains)
		}
		sum += sustains
		static := alone.StaticNeed(0)
		rates[class] = static.LoadCakeDry / static.Stay
	}
	if got := vessels(p); math.Abs(got/sum-1) > 1e-12 {
		t.Errorf("both sustain %g, the sum is %g", got, sum)
	}
	all := 2*rates[0] + 4*rates[1]
	// Its mean stay is in whole seconds.
	if got, want := p.StaticNeed(0).Average, 6*m.Feed.Base/all; math.Abs(got/want-1) > 1e-6 {
		t.Errorf("the handbook asks for %g vessels as they are installed, want %g", got, want)
	}
	if got, want := m.Worth([]int{3, 1}), 6*(3*rates[0]+rates[1])/all; math.Abs(got/want-1) > 1e-12 {
		t.Errorf("three large vessels and a small one are worth %g, want %g", got, want)
	}
}

// oldestFirst are the places of loads of the first day in the order in which they are put
// into vessels.
func oldestFirst(loads []Begun) []int {
	places := make([]int, len(loads))
	for i := range places {
		places[i] = i
	}
	slices.SortStableFunc(places, func(a, b int) int { return cmp.Compare(loads[b].Age, loads[a].Age) })
	return places
}
