package facilityfile_test

import (
	"math"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
)

// amended is the demo with amendments in its recipe.
func amended(amendments string) (*facilityfile.File, error) {
	text := strings.Replace(string(examples.Data(examples.Demo)), "mix:\n", "mix:\n  amendments:\n"+amendments, 1)
	return facilityfile.Parse("plant.yaml", []byte(text))
}

const (
	bought  = "    - {material: sawdust, to_cake: 0.2, store: 60 m3, bought: {reorder_at: 20 m3, order_up_to: 50 m3, truckload: 25 m3, lead_time: 6 day, lead_time_variation: 30 %}}\n"
	own     = "    - {material: sawdust, to_cake: 0.2, when_short: do without, store: 60 m3, own_per_day: 3 m3/day, own_price: 2 USD/m3}\n"
	product = "    - {material: product, to_cake: 0.1, kept: 5 m3}\n"
)

// Proves that every key of an amendment reaches the model or its price.
func TestAmendmentsAreRead(t *testing.T) {
	f, err := amended(bought + product)
	if err != nil {
		t.Fatal(err)
	}
	a, p := f.Model.Amendments[0], f.Model.Amendments[1]
	day := plant.Ordering{Reorder: 20, OrderUpTo: 50, Truckload: 25, LeadTime: 6 * 86400, LeadCV: 0.3}
	if a.Buying != day || a.Store != 60 || a.PerCake[11] != 0.2 || a.Without || a.Material.Name != "sawdust" || a.Material.Moisture != 0.35 {
		t.Errorf("bought: %+v", a)
	}
	if p.Source != plant.FromProduct || !p.Without || p.Kept != 5 || p.PerCake[0] != 0.1 {
		t.Errorf("product: %+v", p)
	}
	const perCubicMetre = 16 / (0.9144 * 0.9144 * 0.9144) // 16 USD/yd3
	if prices := f.Planning.Economy.Amendments; len(prices) != 2 || math.Abs(prices[0].Bought-perCubicMetre) > 1e-9 || prices[0].Own != 0 {
		t.Errorf("prices %v, of sawdust %g asked for", prices, perCubicMetre)
	}
	if f, err = amended(own); err != nil {
		t.Fatal(err)
	}
	if a := f.Model.Amendments[0]; !a.Without || a.Own[5] != 3 || a.Buying.Buys() || f.Planning.Economy.Amendments[0].Own != 2 {
		t.Errorf("own: %+v, %v", a, f.Planning.Economy.Amendments)
	}
}

// Proves that what cannot be meant is refused where it stands, and that arithmetic
// warns of own sources that bring too little.
func TestAmendmentsRefusedAndWarnedOf(t *testing.T) {
	for _, c := range []struct{ amendments, want string }{
		{strings.Replace(bought, "sawdust", "straw", 1), `there is no material "straw"`},
		{bought + bought, "is in the recipe already"},
		{strings.Replace(bought, "0.2", "0", 1), "never holds any of it"},
		{strings.Replace(bought, "order_up_to: 50 m3", "order_up_to: 70 m3", 1), "more than the store holds"},
		{strings.Replace(bought, "reorder_at: 20 m3", "reorder_at: 40 m3", 1), "a truckload does not fit"},
		{strings.Replace(bought, "reorder_at: 20 m3, order_up_to: 50 m3, truckload: 25 m3", "reorder_at: 0.1 m3, order_up_to: 0.3 m3, truckload: 0.1 m3", 1), "none could ever be mixed"},
		{strings.Replace(own, "own_per_day: 3 m3/day, ", "", 1), "it comes from nowhere"},
		{strings.Replace(own, "own_price", "kept: 3 m3, own_price", 1), "only product is kept"},
		{strings.Replace(product, "kept", "when_short: wait, kept", 1), "mixing cannot wait for it"},
		{strings.Replace(product, "kept: 5 m3", "store: 5 m3", 1), "product comes from the product store"},
	} {
		if _, err := amended(c.amendments); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: want an error with %q, got %v", c.amendments, c.want, err)
		}
	}
	f, err := amended(strings.Replace(own, "3 m3/day", "0.1 m3/day", 1))
	if err != nil {
		t.Fatal(err)
	}
	found := false
	for _, w := range f.Warnings {
		found = found || strings.Contains(w.String(), "loads will do without")
	}
	if !found {
		t.Errorf("no warning of too little: %v", f.Warnings)
	}
	enough, err := amended(own)
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range enough.Warnings {
		if strings.Contains(w.String(), "amendments") {
			t.Errorf("warned of enough: %v", w)
		}
	}
}
