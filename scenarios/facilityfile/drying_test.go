package facilityfile

import (
	"math"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/sim"
)

// A file says what becomes of wet lots, and how they are dried; what it leaves out
// takes its default, and what has no use is an error at its place.
func TestReadDrying(t *testing.T) {
	text := readPlanning(t)
	with := func(screen, aeration string) string {
		out := strings.Replace(text, "\nscreen:\n", "\nscreen:\n"+screen, 1)
		if screen != "" && out == text {
			t.Fatal("the file has no screen")
		}
		return out + aeration
	}
	const vessel = "\naeration:\n  drying: {air: 60 m3/t·h%s}\n"
	for _, c := range []struct {
		name, screen, aeration string
		want                   plant.Drying
		fails                  string
	}{
		{name: "nothing"},
		{name: "anyway", screen: "  wet_lots: screen anyway\n"},
		{name: "hold", screen: "  wet_lots: hold\n", want: plant.Drying{Gate: plant.HoldWet, Moisture: 0.5, Longest: 30 * sim.Day}},
		{name: "dry first", screen: "  wet_lots: dry first\n  dry_enough: 47 %\n  longest_wait: 12 day\n  drying_air: 40 m3/t·h\n",
			want: plant.Drying{Gate: plant.DryFirst, Moisture: 0.47, Longest: 12 * sim.Day, Air: 40}},
		{name: "chosen", screen: "  wet_lots: dry first\n  dry_enough: 48 %\n", want: plant.ChosenDrying()},
		{name: "vessel", aeration: strings.Replace(vessel, "%s", "", 1),
			want: plant.Drying{Vessel: plant.VesselDrying{Air: 60, Moisture: 0.5, Longest: 4 * sim.Day}}},
		{name: "vessel and pad", screen: "  wet_lots: hold\n  dry_enough: 45 %\n", aeration: strings.Replace(vessel, "%s", ", longest: 3 day", 1),
			want: plant.Drying{Gate: plant.HoldWet, Moisture: 0.45, Longest: 30 * sim.Day,
				Vessel: plant.VesselDrying{Air: 60, Moisture: 0.45, Longest: 3 * sim.Day}}},
		{name: "air that dries nothing", screen: "  wet_lots: hold\n  drying_air: 40 m3/t·h\n", fails: "screen.drying_air: no lot is dried"},
		{name: "a wait for nothing", screen: "  longest_wait: 4 day\n", fails: "screen.longest_wait: lots are screened as they are"},
		{name: "no air", aeration: "\naeration:\n  drying: {longest: 4 day}\n", fails: "air"},
	} {
		f, err := Parse("plant.yaml", []byte(with(c.screen, c.aeration)))
		if c.fails != "" {
			if err == nil || !strings.Contains(err.Error(), c.fails) {
				t.Errorf("%s: %v, want %q", c.name, err, c.fails)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		got := f.Model.Drying
		for _, x := range []*float64{&got.Air, &got.Moisture, &got.Vessel.Air, &got.Vessel.Moisture} {
			*x = math.Round(*x*1e9) / 1e9
		}
		if got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}
