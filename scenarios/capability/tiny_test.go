package capability

import (
	"testing"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

// Of a plant of two vessels without noise, what a run carries is decided by its draw of
// what is uncertain: it keeps the target up to some production and misses it from there on.
// What is told of such a plant under one seed agrees with what all say together: of the share
// that misses, the ranges of 90 % hold the mean of the estimates. By nodes too far from each
// other for so little that is new in a year, one of six holds it.
func TestSeedsAgreeOfATinyPlant(t *testing.T) {
	if testing.Short() {
		t.Skip("climbs 64 ramps under each of six seeds; the round without -short has it")
	}
	f, err := facilityfile.Open("../vesselplan/testdata/tiny.yaml")
	if err != nil {
		t.Fatal(err)
	}
	base, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	const seeds, enough = 6, 5
	var found [seeds]*Capability
	for seed := range found {
		one := *f
		one.Seed += uint64(seed)
		s, err := base.For(&one)
		if err != nil {
			t.Fatal(err)
		}
		if found[seed], err = Find(t.Context(), s, study.Case{}, Replications); err != nil {
			t.Fatal(err)
		}
	}
	load, mean, held := 1.05*f.Model.Feed.Base, 0.0, 0
	for _, c := range found {
		mean += c.Curve.Share(load) / seeds
	}
	for seed, c := range found {
		var of Sample
		for _, likely := range c.Likely {
			of = append(of, likely.Share(load))
		}
		share := of.Interval()
		t.Logf("seed %d: %.3f (%.3f to %.3f), %.1f times as much stays with a run as is new in a year", seed, share.Estimate, share.Low, share.High, c.Curve.Between/c.Curve.Within)
		if share.Low <= mean && mean <= share.High {
			held++
		}
	}
	if held < enough {
		t.Errorf("%d of %d ranges hold %.3f, the mean of what is told", held, seeds, mean)
	}
}
