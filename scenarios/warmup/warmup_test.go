package warmup

import (
	"context"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim"
)

func model(t *testing.T, name string) plant.Model {
	t.Helper()
	f, err := facilityfile.Parse(name, examples.Data(name))
	if err != nil {
		t.Fatal(err)
	}
	return f.Model.WarmedUp(f.Model.WarmUp)
}

// The built-in plants settle within the year that their files give them: chips
// come back for the first time after two months, and after a year the recovered
// ones are what they stay.
func TestBuiltInPlantsSettleInAYear(t *testing.T) {
	for _, name := range examples.Names() {
		m := model(t, name)
		m.WarmUp = 10
		found, err := Detect(context.Background(), m)
		if err != nil {
			t.Fatal(err)
		}
		if found != (Found{Years: 1, Settled: true}) {
			t.Errorf("%s: %+v", name, found)
		}
	}
}

// A plant that cures for two years needs three: what was screened in the first two
// is nothing. It is never told to take more than there can be.
func TestLongCuring(t *testing.T) {
	m := model(t, "dunmarrow")
	m.WarmUp = 10
	m.Drying = plant.Drying{} // in which lots go to and fro between years
	m.Curing.Time, m.Curing.Longest, m.Curing.Capacity = 2*365*sim.Day, 3*365*sim.Day, 1e5
	m.Chips.Capacity, m.Chips.OrderUpTo = 10*m.Chips.Capacity, 10*m.Chips.OrderUpTo
	found, err := Detect(context.Background(), m)
	if err != nil {
		t.Fatal(err)
	}
	if found.Years < 3 || found.Years > 5 || !found.Settled {
		t.Errorf("%+v", found)
	}
	m.WarmUp = 1
	if found, err = Detect(context.Background(), m); err != nil || found.Years != 1 {
		t.Errorf("%+v where only one is possible (%v)", found, err)
	}
}

// A plant whose product nobody takes keeps no level: its store is full after some
// years, and nothing moves from then on. It is said not to settle, and gets the
// longest warm-up that it may have.
func TestUnsettled(t *testing.T) {
	m := model(t, "dunmarrow")
	m.WarmUp = 10
	m.Product.Demand = [12]float64{}
	m.Product.Capacity = 5 * m.Product.Capacity
	found, err := Detect(context.Background(), m)
	if err != nil || found != (Found{Years: 10}) {
		t.Errorf("%+v (%v)", found, err)
	}
}

// A file that leaves the warm-up to the program gets one, with its working hours
// on the same dates, and keeps the answers of a file that says so itself.
func TestApply(t *testing.T) {
	text := string(examples.Data("dunmarrow"))
	const said = "warm_up: 1 year"
	read := func(text string) *facilityfile.File {
		f, err := facilityfile.Parse("plant.yaml", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	want := read(text).Model
	f := read(replaced(t, text, said, "warm_up: detected"))
	found, err := Apply(context.Background(), f)
	if err != nil || found.Years != 1 {
		t.Fatalf("%+v (%v)", found, err)
	}
	if f.Model.Begin() != want.Begin() {
		t.Errorf("begins on %v, not %v", f.Model.Begin(), want.Begin())
	}
	for sec := int64(0); sec < 400*86400; sec += 5000 {
		if f.Model.Mixer.Hours.NextOpen(sec) != want.Mixer.Hours.NextOpen(sec) {
			t.Fatalf("working hours differ at second %d", sec)
		}
	}
	if again, err := Apply(context.Background(), f); err != nil || again != (Found{Years: 1, Settled: true}) {
		t.Errorf("a second time: %+v (%v)", again, err)
	}
}

func replaced(t *testing.T, text, old, new string) string {
	t.Helper()
	if n := strings.Count(text, old); n != 1 {
		t.Fatalf("%q is there %d times", old, n)
	}
	return strings.Replace(text, old, new, 1)
}
