package facilityfile

import (
	"os"
	"strings"
	"testing"

	"loamcast/facility/material"
	"loamcast/facility/plant"
)

// withKeys reads the small file with lines added at its end and under curing.
func withKeys(t *testing.T, end, curing string) (*File, error) {
	t.Helper()
	data, err := os.ReadFile("testdata/small.yaml")
	if err != nil {
		t.Fatal(err)
	}
	const at = "  time: 21 day\n"
	text := string(data)
	if strings.Count(text, at) != 1 {
		t.Fatalf("%q is not there once", at)
	}
	return Parse("plant.yaml", []byte(strings.Replace(text, at, at+curing, 1)+"\n"+end))
}

// The accounts of ammonia are read as they are written, for vessel and pad alike, and
// rewetting as well; without the groups it is nitrogen that counts, and nothing is rewet.
func TestAmmoniaAndRewettingAreRead(t *testing.T) {
	for _, c := range []struct {
		end, curing string
		microbes    material.Microbes
		rewet       plant.Rewet
	}{
		{"", "", material.DefaultMicrobes(), plant.Rewet{}},
		{"ammonia: {account: by formula}", "", material.Microbes{}, plant.Rewet{}},
		{"ammonia: {account: by nitrogen released}", "", material.DefaultMicrobes(), plant.Rewet{}},
		{"ammonia: {microbial_carbon_to_nitrogen: 8, growth_efficiency: 25 %}", "  rewet: {below: 42 %, up_to: 50 %}\n",
			material.Microbes{CarbonToNitrogen: 8, Efficiency: 0.25}, plant.Rewet{Below: 0.42, UpTo: 0.5}},
	} {
		f, err := withKeys(t, c.end, c.curing)
		if err != nil {
			t.Errorf("%s: %v", c.end, err)
			continue
		}
		m := &f.Model
		for _, got := range []material.Chemistry{m.Chemistry, m.Active.Chemistry, m.Pile.Chemistry} {
			if got.Microbes != c.microbes {
				t.Errorf("%s: %+v, want %+v", c.end, got.Microbes, c.microbes)
			}
		}
		if m.Curing.Rewet != c.rewet {
			t.Errorf("%s: %+v, want %+v", c.curing, m.Curing.Rewet, c.rewet)
		}
	}
}

// What would not count, or cannot be, is refused at its place with what to write.
func TestAmmoniaAndRewettingRefused(t *testing.T) {
	for _, c := range []struct{ end, curing, says string }{
		{"ammonia: {account: by formula, growth_efficiency: 30 %}", "", "does not count with account: by formula"},
		{"ammonia: {account: by guess}", "", "by guess"},
		{"ammonia: {growth_efficiency: 130 %}", "", "growth_efficiency"},
		{"", "  rewet: {below: 50 %, up_to: 45 %}\n", "less than the moisture below which water is added"},
		{"", "  rewet: {below: 50 %}\n", "up_to"},
		{"", "  rewet: {below: 50 %, up_to: 95 %}\n", "up_to"},
	} {
		_, err := withKeys(t, c.end, c.curing)
		if err == nil || !strings.Contains(err.Error(), c.says) || !strings.Contains(err.Error(), "plant.yaml:") {
			t.Errorf("%s%s: %v", c.end, c.curing, err)
		}
	}
}
