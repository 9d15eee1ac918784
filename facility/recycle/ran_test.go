package recycle

import (
	"testing"

	"loamcast/facility/plant"
	"loamcast/sim/random"
)

// ran returns the record of a run of a model.
func ran(t *testing.T, m plant.Model) *plant.Record {
	t.Helper()
	p, err := plant.New(m)
	if err != nil {
		t.Fatal(err)
	}
	rec, err := p.Run(t.Context(), random.Key{Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	return rec
}
