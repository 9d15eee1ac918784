package simulate

import (
	"context"
	"fmt"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/random"
)

// Trace runs the first replication of a facility file as Run does, and tells
// each of every movement of mass.
func Trace(ctx context.Context, f *facilityfile.File, each func(plant.Movement)) error {
	p, err := plant.New(f.Model)
	if err != nil {
		return fmt.Errorf("preparing %s: %w", f.Name, err)
	}
	_, err = p.RunTraced(ctx, random.Key{Seed: f.Seed}, each)
	return err
}
