package facilityfile

import (
	"fmt"
	"slices"
)

// ToldApart gives steps names that neither the committed steps nor others have, since a
// run says by name which trigger came true. All questions name them alike, so that a run
// that one has simulated is known to another.
func (p *Planning) ToldApart(steps []Step) []Step {
	taken := map[string]bool{}
	for _, s := range p.Committed {
		taken[s.Name] = true
	}
	steps = slices.Clone(steps)
	for i := range steps {
		name := steps[i].Name
		for n := 2; taken[steps[i].Name]; n++ {
			steps[i].Name = fmt.Sprintf("%s (%d)", name, n)
		}
		taken[steps[i].Name] = true
	}
	return steps
}
