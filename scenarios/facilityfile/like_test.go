package facilityfile

import (
	"strings"
	"testing"

	"loamcast/scenarios/units"
)

// A number without its unit is answered in the units in which a key is mostly written,
// not in those of everything that has its dimension.
func TestUnitsProposed(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{"growth: {compound: 2.2 %/year}", "growth: {population: {people: 9800, compound: 2 %/year, per_person: 0.051}}",
			"write a mass per time with its unit, e.g. 0.051 lb/day or 0.051 kg/day"},
		{"dry_per_day: 0.50 t/day", "dry_per_year: 180", "write a mass per time with its unit, e.g. 180 short ton/year or 180 t/year"},
		{"opening: 0.375 in", "opening: 0.375", "write a length with its unit, e.g. 0.375 in or 0.375 mm"},
		{"residence: 18 day", "residence: 18", "write a duration with its unit, e.g. 18 day"},
		{"batch_time: 25 min", "batch_time: 25", "write a duration with its unit, e.g. 25 min"},
		{"opening: 0.375 in", "opening: 9 kg", "write a length with its unit, e.g. 0.37 in or 9.5 mm"},
		{"  opening: 0.375 in\n", "", `add a line such as "opening: 0.37 in"`},
	} {
		_, err := edit(t, c.old, c.new)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %s", c.new, err, c.want)
		}
	}
}

// What is proposed for a key can be read for it, in both systems, and is within its
// bounds.
func TestProposalsCanBeRead(t *testing.T) {
	proposed := 0
	for _, k := range Keys() {
		for i, text := range strings.Split(k.like(), " or ") {
			if text == "" {
				continue
			}
			proposed++
			x, err := units.Parse(text, k.Dimension)
			if err != nil || x < k.Low*(1-0.1) || x > k.High*(1+0.1) {
				t.Errorf("%s: %q, the %d. of %q: %v", k.Path, text, i+1, k.like(), err)
			}
		}
	}
	if proposed < 100 {
		t.Errorf("only %d examples", proposed)
	}
}
