package costs

import (
	"context"
	"strings"
	"testing"

	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

// simulated runs a year of the small example, with so much cake that some is
// diverted.
func simulated(t *testing.T) *study.Result {
	t.Helper()
	text := strings.Replace(string(examples.Data("dunmarrow")), "horizon: 20 year", "horizon: 1 year", 1)
	f, err := facilityfile.Parse("dunmarrow", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	f.Model.Feed.Base *= 2
	s, err := study.New(f, 1)
	if err != nil {
		t.Fatal(err)
	}
	r, err := s.Simulate(context.Background(), study.Run{Case: &study.Case{}})
	if err != nil {
		t.Fatal(err)
	}
	return r
}
