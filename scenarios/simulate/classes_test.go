package simulate_test

import (
	"os"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/random"
)

// Each key of a class of vessels that a run heeds moves something in the record of one
// replication of a plant that is short of vessels.
func TestEveryKeyOfAClassMatters(t *testing.T) {
	data, err := os.ReadFile("../facilityfile/testdata/classes.yaml")
	if err != nil {
		t.Fatal(err)
	}
	run := func(old, with string) uint64 {
		text := strings.NewReplacer("horizon: 12 year", "horizon: 1 year", "warm_up: 1 year", "warm_up: 0 year",
			"dry_per_day: 0.55", "dry_per_day: 0.85").Replace(string(data))
		text = text[:strings.Index(text, "\noptions:")]
		if strings.Count(text, old) != 1 {
			t.Fatalf("%q is not there once", old)
		}
		f, err := facilityfile.Parse("classes.yaml", []byte(strings.Replace(text, old, with, 1)))
		if err != nil {
			t.Fatalf("%s: %v", with, err)
		}
		p, err := plant.New(f.Model)
		if err != nil {
			t.Fatal(err)
		}
		rec, err := p.Run(t.Context(), random.Key{Seed: 1})
		if err != nil {
			t.Fatal(err)
		}
		sum := rec.Fingerprint
		for i := range rec.Months { // what changes no event
			sum = sum*31 + uint64(1e6*rec.Months[i].Losses.Vapour)
		}
		return sum
	}
	as := run("- name: large\n", "- name: large\n")
	for key, edit := range map[string][2]string{
		"installed":          {"installed: 2\n", "installed: 3\n"},
		"useful_volume":      {"useful_volume: 60 yd3", "useful_volume: 50 yd3"},
		"payload":            {"useful_volume: 60 yd3", "useful_volume: 60 yd3\n      payload: 20 short ton"},
		"residence":          {"residence: 19 day", "residence: 17 day"},
		"shortest_residence": {"residence: 19 day", "residence: 19 day\n      shortest_residence: 19 day"},
		"longest_residence":  {"residence: 19 day", "residence: 19 day\n      longest_residence: 19 day"},
		"turnaround":         {"turnaround: 24 h", "turnaround: 48 h"},
		"blower_per_vessel":  {"blower_per_vessel: 900 cfm", "blower_per_vessel: 90 cfm"},
		"wall_loss":          {"wall_loss: 48 W/K", "wall_loss: 480 W/K"},
		"name":               {"- name: large\n", "- name: big\n"},
	} {
		if same := run(edit[0], edit[1]) == as; same != (key == "name") {
			t.Errorf("%s: the same record: %v", key, same)
		}
	}
}
