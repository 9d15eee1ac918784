package process

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"loamcast/sim/digest/digesttest"
)

// Whatever changes in a model, by the last bit of one number, makes other physics, and no
// two changes the same; put back, it is the same again.
func TestAnyChangeMakesOtherPhysics(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawModel(t)
		r := NewResponses(m, 400)
		usual := r.Physics()
		seen, before := map[Physics]string{usual: "the model as it is"}, ""
		digesttest.Changer{}.Each(reflect.ValueOf(m).Elem(), "Model", func(path string) {
			physics := r.Physics()
			if other, ok := seen[physics]; ok {
				t.Fatalf("%s: the same physics as %s", path, other)
			}
			seen[physics], before = path, path
		})
		if len(seen) < 80 {
			t.Fatalf("only %d changes", len(seen)-1)
		}
		if r.Physics() != usual {
			t.Fatalf("after %s the physics are not what they were", before)
		}
	})
}

// Tables of one model that reach farther, or are for drying, have other courses, and so
// have other physics; two tables of models that are alike have the same.
func TestPhysicsOfTables(t *testing.T) {
	seen := map[Physics]string{}
	for name, r := range map[string]*Responses{
		"20 days": NewResponses(DefaultVesselModel(), 480), "30 days": NewResponses(DefaultVesselModel(), 720),
		"drying": NewDryingResponses(DefaultVesselModel(), 100, 480), "more air": NewDryingResponses(DefaultVesselModel(), 101, 480),
		"dries as any other": NewResponses(DefaultVesselModel().Dries(100), 480),
	} {
		if other, ok := seen[r.Physics()]; ok {
			t.Errorf("%s and %s have the same physics", name, other)
		}
		seen[r.Physics()] = name
	}
	if seen[NewResponses(DefaultVesselModel(), 480).Physics()] != "20 days" {
		t.Error("a table of a model that is alike has other physics")
	}
}
