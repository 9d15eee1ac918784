package facilityfile

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"loamcast/facility/plant"
)

// priced adds a price of missing the target to the money of the planning file.
var priced = []string{"  sampling: 900 USD\n", "  sampling: 900 USD\n  missing: 300 USD/short ton\n"}

// Missing the target has a price per dry mass, which rises with inflation where the
// file does not say how; without the key it has none.
func TestMissingIsRead(t *testing.T) {
	const ton = 907.18474 // kg; NIST SP 811, from memory
	if got := parsePlanning(t).Planning.Economy.Prices.Missing.Amount; got != 0 {
		t.Errorf("left out, missing costs %g USD/kg", got)
	}
	got := parsePlanning(t, priced...).Planning.Economy.Prices.Missing
	if math.Abs(got.Amount-300/ton) > 1e-12 || got.Escalation != 0.025 {
		t.Errorf("%+v, want %g USD/kg and 2.5 %% a year", got, 300/ton)
	}
	got = parsePlanning(t, append([]string{"  escalation:\n", "  escalation:\n    missing: 4 %/year\n"}, priced...)...).Planning.Economy.Prices.Missing
	if got.Escalation != 0.04 {
		t.Errorf("it rises by %g a year, want 0.04", got.Escalation)
	}
}

// A price of missing may be uncertain. What is said of a price that is not there is
// refused, and so is a price of nothing.
func TestMissingIsHeldToItsPrice(t *testing.T) {
	const uncertain = "  - {input: money.missing, uniform: [200 USD/short ton, 400 USD/short ton]}\n"
	spread := []string{"uncertain:\n", "uncertain:\n" + uncertain}
	f := parsePlanning(t, append(spread, priced...)...)
	if in := f.Planning.Inputs[0]; in.Key != "money.missing" {
		t.Errorf("the first uncertain input is %s", in.Key)
	}
	for name, c := range map[string]struct {
		edits []string
		want  string
	}{
		"uncertain without a price": {spread, "missing the target has no price that could be uncertain"},
		"rising without a price":    {[]string{"  escalation:\n", "  escalation:\n    missing: 4 %/year\n"}, "missing the target has no price that could rise"},
		"for nothing":               {[]string{priced[0], strings.Replace(priced[1], "300", "0", 1)}, "out of range"},
	} {
		text := strings.NewReplacer(c.edits...).Replace(readPlanning(t))
		if _, err := Parse("plant.yaml", []byte(text)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// What leaves untreated beyond the target is there exactly where the target is
// missed by it. By hand: of 1,000 kg fed in two months 30 kg leave untreated, of
// which 1 % of 1,000 may.
func TestBeyond(t *testing.T) {
	target := Target{DivertedLimit: 0.01, DelayLimit: 1e9}
	month := func(fed, diverted float64) (m plant.Month) {
		m.Feed.Dry, m.Holding.DivertedDry = fed, diverted
		return m
	}
	months := []plant.Month{month(400, 0), month(600, 30)}
	if got := target.Beyond(months); math.Abs(got-20) > 1e-12 {
		t.Errorf("%g kg beyond the target, want 20", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		target.DivertedLimit = rapid.Float64Range(0, 0.2).Draw(t, "limit")
		for i := range months {
			months[i] = month(rapid.Float64Range(1, 1e5).Draw(t, "fed"), rapid.Float64Range(0, 2e4).Draw(t, "diverted"))
		}
		share := plant.UntreatedShare(months)
		if math.Abs(share-target.DivertedLimit) > 1e-9 && (target.Beyond(months) > 0) != target.Missed(months) {
			t.Fatalf("%g kg beyond the target, of which %g leave untreated", target.Beyond(months), share)
		}
	})
}
