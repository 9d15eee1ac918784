package facilityfile

import (
	"math"
	"strings"
	"testing"

	"loamcast/facility/mix"
	"loamcast/scenarios/examples"
)

// demoWith returns the demo with texts replaced, in pairs.
func demoWith(t *testing.T, pairs ...string) string {
	t.Helper()
	text := string(examples.Data(examples.Demo))
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(text, pairs[i]) {
			t.Fatalf("the demo has no %q", pairs[i])
		}
		text = strings.Replace(text, pairs[i], pairs[i+1], 1)
	}
	return text
}

// Shows that targets, price and amendment arrive in SI units, that what a window
// leaves out is not asked for, and that what the file leaves out takes its
// default.
func TestMixDesign(t *testing.T) {
	f, err := Parse("demo", []byte(demoWith(t)))
	if err != nil {
		t.Fatal(err)
	}
	d := f.Mix
	want := mix.Targets{Solids: mix.Window{Low: 0.35}, CarbonToNitrogen: mix.Window{Low: 20, High: 40},
		FreeAirSpace: 0.23, BulkDensity: d.Targets.BulkDensity, ChipsToCake: mix.Window{Low: 2, High: 4}}
	if d.Targets != want {
		t.Errorf("targets %+v", d.Targets)
	}
	const yd3, lb = 0.764554857984, 0.45359237
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"bulk density, kg/m3", d.Targets.BulkDensity, 1200 * lb / yd3},
		{"price of chips, USD/m3", d.ChipsPrice, 11 / yd3},
		{"sawdust, USD/kg", d.Amendments[0].Cost, 16.0 / (400 * lb)},
		{"sawdust for a load, kg", d.Amendments[0].Available, 3 * 400 * lb},
		{"sawdust moisture", d.Amendments[0].Composition.Moisture(), 0.35},
	} {
		if math.Abs(c.got-c.want) > 1e-9*c.want {
			t.Errorf("%s: got %.9g, want %.9g", c.what, c.got, c.want)
		}
	}

	f, err = Parse("demo", []byte(demoWith(t, "    carbon_to_nitrogen: {at_least: 20, at_most: 40}\n", "",
		"cost: 16 USD/yd3", "cost: 80 USD/short ton", "    available_per_load: 3 yd3\n", "")))
	if err != nil {
		t.Fatal(err)
	}
	if f.Mix.Targets.CarbonToNitrogen != DefaultMixTargets().CarbonToNitrogen {
		t.Errorf("C:N left out: %+v", f.Mix.Targets.CarbonToNitrogen)
	}
	if a := f.Mix.Amendments[0]; math.Abs(a.Cost-80/(2000*lb)) > 1e-12 || !math.IsInf(a.Available, 1) {
		t.Errorf("sawdust per mass: %g USD/kg, %g kg", a.Cost, a.Available)
	}
}

// Shows that mistakes are placed and say what would be right.
func TestMixDesignMistakes(t *testing.T) {
	for _, c := range []struct{ name, old, text, want string }{
		{"window upside down", "{at_least: 20, at_most: 40}", "{at_least: 20, at_most: 15}", "mix.targets.carbon_to_nitrogen.at_most: less than at_least"},
		{"no price of chips", "  price: 11 USD/yd3\n", "", "chips have a price"},
		{"no cost", "    cost: 16 USD/yd3\n", "", `needs the key "cost"`},
		{"cost without money", "cost: 16 USD/yd3", "cost: 16 yd3", "materials[1].cost"},
		{"negative cost", "cost: 16 USD/yd3", "cost: -16 USD/short ton", "materials[1].cost"},
		{"name taken", "- name: sawdust", "- name: cake", `there is already a material "cake"`},
		{"unknown key", "    available_per_load:", "    availble_per_load:", "did you mean available_per_load?"},
		{"nitrogen below formula", "nitrogen: 0.2 %\n", "readily_degradable: 30 %\n    nitrogen: 0.2 %\n", "nitrogen"},
	} {
		_, err := Parse("demo", []byte(demoWith(t, c.old, c.text)))
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "demo:") {
			t.Errorf("%s: want %q, got %v", c.name, c.want, err)
		}
	}
}
