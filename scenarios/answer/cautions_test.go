package answer

import (
	"strings"
	"testing"
	"unicode/utf8"
)

// Every caution names its source and begins with a sentence short enough for
// one line of a terminal.
func TestCautionsStandAlone(t *testing.T) {
	for _, c := range Cautions() {
		first, _, _ := strings.Cut(c.Text, ". ")
		if utf8.RuneCountInString(first) > 96 {
			t.Errorf("first sentence too long: %q", first)
		}
		if c.Source == "" || !strings.HasSuffix(c.Text, ".") {
			t.Errorf("caution without source or full stop: %+v", c)
		}
	}
}

// The limits printed are the published ones.
func TestCautionLimits(t *testing.T) {
	var all strings.Builder
	for _, c := range Cautions() {
		all.WriteString(c.Text + "\n")
	}
	for _, limit := range []string{
		"19.5 %", "23.5 %", "10 % of the lower flammable limit", // WAC 296-155-20301, read
		"20 ppm", "50 ppm", "5,000 ppm", // read in a third party's copy
		"7.6 m", "45.7 m", "76 m", // IFC 2808.3, read
		"71 °C", "160 °F", // NC DEQ, read
		"within a year", // NFPA 1 31.3.6.2, read
	} {
		if !strings.Contains(all.String(), limit) {
			t.Errorf("no caution says %q", limit)
		}
	}
}
