package expand_test

import (
	"context"
	"slices"
	"sync"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/expand"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

// small is a study of the small file, which all tests share, since its tables of
// courses take a while.
var small = sync.OnceValues(func() (*study.Study, error) {
	f, err := facilityfile.Open("testdata/small.yaml")
	if err != nil {
		return nil, err
	}
	return study.New(f, 0)
})

// smallStudy returns the small study with a file of its own, which a test may
// alter, but not in what the tables depend on: materials, aeration and weather.
func smallStudy(t *testing.T) (*study.Study, *facilityfile.File) {
	t.Helper()
	shared, err := small()
	if err != nil {
		t.Fatal(err)
	}
	s, f := *shared, *shared.File
	s.File = &f
	f.Planning.Catalogue = slices.Clone(f.Planning.Catalogue)
	f.Planning.Growths = slices.Clone(f.Planning.Growths)
	return &s, &f
}

func find(t *testing.T, s *study.Study, o expand.Options) *expand.Answer {
	t.Helper()
	if o.Replications == 0 {
		o.Replications = 10
	}
	one, f := *s, *s.File // as it is now: a study remembers by its file
	one.File = &f
	a, err := expand.Ask(context.Background(), &one, answer.Setup{}, o)
	if err != nil {
		t.Fatal(err)
	}
	return a
}
