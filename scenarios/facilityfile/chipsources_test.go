package facilityfile

import (
	"reflect"
	"strings"
	"testing"

	"loamcast/sim"
)

const (
	smallDelivered = "  bulk_density: 490 lb/yd3\n  moisture: 38 %\n"
	smallSupply    = "  truckload: 30 yd3\n  lead_time: 8 day\n  lead_time_variation: 35 %\n"
	sawmill        = "    - {name: sawmill, price: 9 USD/yd3, most_per_month: 65 yd3, bulk_density: 490 lb/yd3, moisture: 38 %, truckload: 30 yd3, lead_time: 8 day, lead_time_variation: 35 %}\n"
	chipper        = "    - {name: chipper, price: [18 USD/yd3, 9 USD/yd3, 9 USD/yd3, 9 USD/yd3, 9 USD/yd3, 9 USD/yd3, 9 USD/yd3, 9 USD/yd3, 9 USD/yd3, 9 USD/yd3, 9 USD/yd3, 9 USD/yd3], bulk_density: 420 lb/yd3, moisture: 30 %, truckload: 36 yd3, lead_time: 12 day}\n"
	yardWood       = "    - {name: yard wood, own_per_day: 2 yd3/day, processing_cost: 3 USD/yd3, bulk_density: 450 lb/yd3, moisture: 45 %, fines: 15 %, slowly_degradable: 35 %}\n"
)

// withChips reads the small file with sources of chips in place of its one supplier.
func withChips(t *testing.T, sources string, edits ...string) *File {
	t.Helper()
	return parse(t, append([]string{smallDelivered, "", smallSupply, "  sources:\n" + sources}, edits...)...)
}

// Three sources, by hand: 1 yd3 is 0.764554857984 m3 and 1 lb/yd3 0.593276421 kg/m3. For what
// asks about one supplier the first stands, with the largest truckload and the slowest
// delivery.
func TestChipSources(t *testing.T) {
	const yd3, density = 0.764554857984, 0.45359237 / 0.764554857984
	f := withChips(t, yardWood+sawmill+chipper)
	chips := f.Model.Chips
	wood, first, second := chips.Sources[0], chips.Sources[1], chips.Sources[2]
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"most per month", first.Most, 65 * yd3}, {"truckload", second.Truckload, 36 * yd3}, {"lead time", float64(second.LeadTime), float64(12 * sim.Day)},
		{"spread of the lead time", first.LeadCV, 0.35}, {"density", second.Fresh.BulkDensity, 420 * density}, {"moisture", second.Moisture[5], 0.30},
		{"own wood", wood.Own[7], 2 * yd3}, {"its fines", wood.Fresh.Coarse, 0.85}, {"its decay", wood.Fresh.Slowly, 0.35}, {"its volatile solids", wood.Fresh.Volatile, 0.98},
		{"chips' density", chips.Fresh.BulkDensity, 490 * density}, {"chips' moisture", chips.Moisture[0], 0.38}, {"chips' truckload", chips.Truckload, 36 * yd3},
		{"chips' lead time", float64(chips.LeadTime), float64(12 * sim.Day)}, {"price", f.Mix.ChipsPrice, 9 / yd3},
		{"price of the first", f.Planning.Economy.ChipSources[1][3], 1}, {"price of the second in January", f.Planning.Economy.ChipSources[2][0], 2},
		{"cost of own wood", f.Planning.Economy.ChipSources[0][3], 3.0 / 9},
	} {
		near(t, c.what, c.got, c.want)
	}
	if wood.Buys() || second.LeadCV != 0 || second.Most != 0 || !f.Mix.Priced {
		t.Errorf("%+v", chips.Sources)
	}
}

// One source that is the file's supplier makes the same model, but for its being a source.
func TestOneChipSourceIsTheSupplier(t *testing.T) {
	one := parse(t).Model
	f := withChips(t, strings.Replace(strings.Replace(sawmill, "price: 9 USD/yd3, ", "", 1), "most_per_month: 65 yd3, ", "", 1))
	if f.Mix.Priced {
		t.Error("a source without a price is priced")
	}
	got := f.Model.Chips
	got.Sources = nil
	if !reflect.DeepEqual(got, one.Chips) || f.Model.Bulk != one.Bulk {
		t.Errorf("%+v, want %+v", got, one.Chips)
	}
}

// Uncertain moisture is added to that of every source, of this replication alone; an
// uncertain lead time is refused, for each has its own.
func TestUncertainChipSources(t *testing.T) {
	f := withChips(t, sawmill+chipper)
	in, _ := InputNamed("chips.moisture")
	m := f.Model
	p := f.Parts()
	p.Model = &m
	in.Set(p, 0.05)
	near(t, "first", m.Chips.Sources[0].Moisture[2], 0.43)
	near(t, "second", m.Chips.Sources[1].Moisture[2], 0.35)
	near(t, "the file's", f.Model.Chips.Sources[1].Moisture[2], 0.30)
	text := strings.Replace(strings.Replace(readSmall(t), smallDelivered, "", 1), smallSupply, "  sources:\n"+sawmill+chipper, 1)
	_, err := Parse("small.yaml", []byte(text+"uncertain: [{input: chips.lead_time, uniform: [4 day, 9 day]}]\n"))
	if err == nil || !strings.Contains(err.Error(), "each source of chips has a lead time of its own") {
		t.Error(err)
	}
	// Wood of the plant's own that costs something where what is bought is free.
	free := strings.Replace(strings.Replace(readSmall(t), smallDelivered, "", 1), smallSupply, "  sources:\n"+strings.Replace(sawmill, "9 USD", "0 USD", 1)+yardWood, 1)
	if _, err := Parse("small.yaml", []byte(free)); err == nil || !strings.Contains(err.Error(), "processing_cost: what is bought costs nothing") {
		t.Error(err)
	}
}

// With money every source that is bought needs its price.
func TestChipSourcesNeedPrices(t *testing.T) {
	text := strings.Replace(strings.Replace(readSmall(t), smallDelivered, "", 1), smallSupply,
		"  sources:\n"+sawmill+strings.Replace(chipper, "price: [18 USD/yd3, 9 USD/yd3, 9 USD/yd3, 9 USD/yd3, 9 USD/yd3, 9 USD/yd3, 9 USD/yd3, 9 USD/yd3, 9 USD/yd3, 9 USD/yd3, 9 USD/yd3, 9 USD/yd3], ", "", 1), 1)
	prices := "money: {prices_of: 2027, discount: 5 %/year, labour: 40 USD/h, power: 0.1 USD/kWh, tipping: 90 USD/short ton, sampling: 1000 USD, product: 4 USD/yd3}\n"
	_, err := Parse("small.yaml", []byte(text+prices))
	if err == nil || !strings.Contains(err.Error(), "the money section needs the price of every source") {
		t.Error(err)
	}
}
