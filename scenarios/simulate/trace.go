package simulate

import (
	"context"

	"loamcast/facility/plant"
	"loamcast/scenarios/study"
	"loamcast/sim/random"
)

// Trace plays the first replication as [Ask] does, and tells each of every
// movement of mass.
func Trace(ctx context.Context, s *study.Study, each func(plant.Movement)) error {
	_, err := s.Base().RunTraced(ctx, random.Key{Seed: s.File.Seed}, each)
	return err
}
