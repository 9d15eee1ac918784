package expand_test

import (
	"context"
	"testing"

	"loamcast/scenarios/expand"
	"loamcast/scenarios/facilityfile"
)

func smallFile(t *testing.T) *facilityfile.File {
	t.Helper()
	f, err := facilityfile.Open("testdata/small.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func find(t *testing.T, f *facilityfile.File, o expand.Setup) *expand.Answer {
	t.Helper()
	if o.Replications == 0 {
		o.Replications = 10
	}
	a, err := expand.Find(context.Background(), f, o)
	if err != nil {
		t.Fatal(err)
	}
	return a
}
