package plant

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"loamcast/sim"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// supplied returns the paper plant with a small store of chips and suppliers, each of
// which brings 100 m3 a day after the order. It mixes 4 m3 every four hours from the fourth on, 186
// times in January and 168 in February, and nothing comes back from the screen.
func supplied(most ...float64) Model {
	m := paper()
	m.Chips.Capacity, m.Chips.Reorder, m.Chips.OrderUpTo = 600, 500, 600
	for i, limit := range most {
		m.Chips.Sources = append(m.Chips.Sources, ChipSource{Name: string(rune('A' + i)), Fresh: m.Chips.Fresh, Moisture: m.Chips.Moisture,
			Truckload: 100, LeadTime: sim.Day, Most: limit})
	}
	m.Chips.Combine()
	return m
}

// Two suppliers, by hand. Position falls from 600 to 500 m3 with every 25th batch: an
// order of one truckload every 100 h, the seventh in hour 700 of January's 744 and the
// fourteenth in hour 1400 of the 1416 until March. The first supplier has 350 m3 a
// month: three truckloads, and the second brings the other four, in each of the months.
func TestCaseTwoSuppliers(t *testing.T) {
	rec := mustRun(t, supplied(350, 0), random.Key{Seed: 1})
	var order strings.Builder
	for _, o := range rec.ChipOrders[:14] {
		if o.Truckloads != 1 {
			t.Errorf("an order of %g truckloads on %v", o.Truckloads, o.Date)
		}
		order.WriteByte(byte('A' + o.Source))
	}
	if got := order.String(); got != "AAABBBBAAABBBB" {
		t.Errorf("orders went to %s", got)
	}
	if first, eighth := rec.ChipOrders[0].Date, rec.ChipOrders[7].Date; first != (calendar.Date{Year: 2027, Month: 1, Day: 5}) || eighth != (calendar.Date{Year: 2027, Month: 2, Day: 3}) {
		t.Errorf("the first order on %v, the eighth on %v", first, eighth)
	}
	jan := &rec.Months[0].Chips
	same(t, "the first brings", jan.Sources[0].Volume, 300)
	same(t, "the second brings", jan.Sources[1].Volume, 400)
	same(t, "bought", jan.Bought, 700)
	same(t, "dry", jan.Sources[0].Dry+jan.Sources[1].Dry, jan.BoughtDry)
	same(t, "truckloads of the second", jan.Sources[1].Truckloads, 4)

	// With room for three truckloads an order is parted: two of the first, which has no
	// more in a month, and one of the second; then three of the second.
	m := supplied(200, 0)
	m.Chips.Reorder = 300
	rec = mustRun(t, m, random.Key{Seed: 1})
	for i, want := range []ChipOrder{{Truckloads: 2}, {Truckloads: 1, Source: 1}, {Truckloads: 3, Source: 1}} {
		if got := rec.ChipOrders[i]; got.Truckloads != want.Truckloads || got.Source != want.Source {
			t.Errorf("order %d: %+v, want %+v", i+1, got, want)
		}
	}
}

// One supplier with a truckload a month, by hand. 600 and 100 m3 make 175 batches, the
// last in hour 700; from hour 704 on mixing waits for chips, 40 h of January, and until
// the order of 1 February comes on the 2nd.
func TestCaseSuppliersExhausted(t *testing.T) {
	rec := mustRun(t, supplied(100), random.Key{Seed: 1})
	near(t, "hours short in January", rec.Months[0].Chips.HoursShort, 40, 0.1)
	same(t, "batches of January", rec.Months[0].Mixing.Batches, 175)
	if rec.Months[0].Waits[NoChips] <= 0 {
		t.Error("no cake is said to wait for chips")
	}
	feb := rec.ChipOrders[1].Date
	if feb != (calendar.Date{Year: 2027, Month: 2, Day: 1}) {
		t.Errorf("the second order on %v", feb)
	}
	// What suppliers bring in a month is what deliveries sustain: 1200 m3 a year.
	p := plantOf(t, supplied(100))
	per, ok := p.Chips.mostPerMonth()
	if !ok || math.Abs(per-1200/calendar.DaysPerYear) > 1e-9 {
		t.Errorf("%g m3 a day, %v", per, ok)
	}
	needs := Needs{Chips: 0.01} // m3 a kg
	for _, c := range p.Capacities(rec.ChipOrders[0].Date, needs) {
		if c.Stage == AtDeliveries {
			near(t, "deliveries sustain", c.CakeDry, 1200/calendar.DaysPerYear/0.01, 1e-6)
		}
	}
}

// Wood of the plant's own, 10 m3 a day, by hand: on the first day the store is full and
// it is turned away; of the other 30 days it comes in. So much less is bought: position
// falls by 100 m3 in some 100/14 days, four times in January.
func TestCaseOwnWood(t *testing.T) {
	m := supplied(0)
	m.Chips.Sources = append(m.Chips.Sources, ChipSource{Name: "own", Fresh: m.Chips.Fresh, Moisture: m.Chips.Moisture, Own: repeat12(10)})
	rec := mustRun(t, m, random.Key{Seed: 1})
	jan := &rec.Months[0].Chips
	same(t, "own", jan.Own, 300)
	same(t, "turned away", jan.Sources[1].Turned, 10)
	same(t, "of the source", jan.Sources[1].Volume, 300)
	same(t, "orders in January", jan.Truckloads, 4)
	same(t, "own capacity", m.Chips.own(), 10)
}

// A single source is the one supplier of a model without sources.
func TestOneSupplierIsTheSupplier(t *testing.T) {
	one := supplied()
	one.Chips.LeadCV = 0.4
	several := one
	several.Chips.Sources = []ChipSource{{Name: "A", Fresh: one.Chips.Fresh, Moisture: one.Chips.Moisture, Truckload: one.Chips.Truckload,
		LeadTime: one.Chips.LeadTime, LeadCV: one.Chips.LeadCV}}
	several.Chips.Combine()
	want, got := mustRun(t, one, random.Key{Seed: 3}), mustRun(t, several, random.Key{Seed: 3})
	for i := range want.Months {
		a, b := want.Months[i], got.Months[i]
		same(t, "bought", b.Chips.Bought, a.Chips.Bought)
		same(t, "hours short", b.Chips.HoursShort, a.Chips.HoursShort)
		same(t, "product", b.Product.Volume, a.Product.Volume)
	}
}

// No supplier is asked for more than its most in a month, and one is passed over only
// if a truckload of it is more than may come.
func TestSuppliersInTheirOrder(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		d := draw{rt}
		m := supplied()
		m.Feed.Base = 800 // a third of the batches, to be quick
		m.Chips.Capacity, m.Chips.OrderUpTo = 900, 900
		m.Chips.Reorder = d.between("reorder", 0, 700)
		m.Chips.Sources = d.chipSources(&m, 200/1.6)
		m.Chips.Combine()
		rec := mustRun(t, m, random.Key{Seed: 2})
		type month struct {
			year int
			of   any
		}
		ordered := map[month][]float64{}
		for _, o := range rec.ChipOrders {
			key := month{o.Date.Year, o.Date.Month}
			if ordered[key] == nil {
				ordered[key] = make([]float64, len(m.Chips.Sources))
			}
			s := &m.Chips.Sources[o.Source]
			ordered[key][o.Source] += o.Truckloads * s.Truckload
			if s.Most > 0 && ordered[key][o.Source] > s.Most*(1+1e-9) {
				rt.Errorf("%s: %g m3 in %v, at most %g", s.Name, ordered[key][o.Source], key, s.Most)
			}
			for i := range o.Source {
				before := &m.Chips.Sources[i]
				left := before.Most - ordered[key][i]
				if before.Buys() && before.room(&m) <= s.room(&m) && (before.Most == 0 || left >= before.Truckload*(1+1e-9)) {
					rt.Errorf("%s was passed over on %v with %g m3 left", before.Name, o.Date, left)
				}
			}
		}
	})
}

// Sources that cannot be are refused, with their names.
func TestChipSourcesAreValidated(t *testing.T) {
	for what, spoil := range map[string]func(*Chips){
		"most of B in a month":  func(c *Chips) { c.Sources[1].Most = 50 },
		"room for a truckload":  func(c *Chips) { c.Sources[1].Truckload = 150 },
		"comes of B":            func(c *Chips) { c.Sources[1].Truckload = 0 },
		"comes by itself or is": func(c *Chips) { c.Sources[1].Own[3] = 5 },
		"moisture of B":         func(c *Chips) { c.Sources[1].Moisture[3] = 0.9 },
		"none is bought":        func(c *Chips) { c.Sources = []ChipSource{{Name: "own", Fresh: c.Fresh, Own: repeat12(1)}} },
	} {
		m := supplied(350, 0)
		spoil(&m.Chips)
		if err := m.Validate(); err == nil || !strings.Contains(err.Error(), what) {
			t.Errorf("%s: %v", what, err)
		}
	}
}

// room is what a truckload takes of the store, m3: chips of other moisture and density
// take other room than they were delivered in.
func (s *ChipSource) room(m *Model) float64 {
	return s.Truckload * m.Bulk.Volume(s.Fresh.WithMoisture(mean(s.Moisture[:])).OfWet(s.Fresh.BulkDensity))
}
