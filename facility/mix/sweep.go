package mix

import "fmt"

// SweepPoint is the mix at one solids content of the cake.
type SweepPoint struct {
	CakeSolids float64
	Result     Result
}

// SweepCakeSolids solves d for each solids content of the cake (0…1), as if
// the same solids were dewatered more or less. The dry mass of cake per batch,
// on hand and its cost per dry kg stay; its bulk density as delivered stays as
// well, for cake is a paste near the density of water at any solids content in
// the usual range.
func (d Design) SweepCakeSolids(contents []float64) ([]SweepPoint, error) {
	points := make([]SweepPoint, 0, len(contents))
	for _, s := range contents {
		if !(s > 0 && s <= 1) {
			return nil, fmt.Errorf("cake solids content %g is not between 0 and 1", s)
		}
		r, err := d.withCakeSolids(s).Solve()
		if err != nil {
			return nil, fmt.Errorf("at %.4g cake solids: %w", s, err)
		}
		points = append(points, SweepPoint{CakeSolids: s, Result: r})
	}
	return points, nil
}

// withCakeSolids gives every cake the solids content s. The cake of the batch
// shrinks or grows with the mean of the cakes as they were.
func (d Design) withCakeSolids(s float64) Design {
	materials := append([]Material(nil), d.Materials...)
	mean, cakes := 0.0, 0.0
	for i := range materials {
		m := &materials[i]
		if m.Kind != Cake {
			continue
		}
		before := m.Composition.SolidsContent()
		mean += before
		cakes++
		m.Composition.Water = m.Composition.Dry() * (1 - s) / s
		m.Available *= before / s
		m.Cost *= s / before
	}
	if cakes > 0 {
		d.Cake *= mean / cakes / s
	}
	d.Materials = materials
	return d
}
