package plan

import (
	"testing"

	"loamcast/scenarios/facilityfile"
)

// Why options are not compared names all that the file lacks.
func TestWhyWithoutOptions(t *testing.T) {
	some := []facilityfile.Option{{}}
	for _, c := range []struct {
		planning facilityfile.Planning
		want     string
	}{
		{facilityfile.Planning{}, "the file has no options, and no prices to compare them by"},
		{facilityfile.Planning{Priced: true}, "the file has no options to compare"},
		{facilityfile.Planning{Options: some}, "the file has options but no prices to compare them by"},
		{facilityfile.Planning{Options: some, Priced: true}, ""},
	} {
		if got := without(&facilityfile.File{Planning: c.planning}); got != c.want {
			t.Errorf("%d options, prices %v: %q, not %q", len(c.planning.Options), c.planning.Priced, got, c.want)
		}
	}
}
