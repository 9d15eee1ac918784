package expand

import (
	"fmt"
	"strings"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/vesselplan"
)

// growths are the growth scenarios looked at.
type growths struct {
	places  []int     // in the file
	weights []float64 // add up to 1
	planned *facilityfile.Planning
}

// growthsOf returns the growth scenario of a name, or all by their weights.
func growthsOf(f *facilityfile.File, name string) (growths, error) {
	g := growths{planned: &f.Planning}
	var names []string
	for i, s := range f.Planning.Growths {
		switch name {
		case "":
			g.places, g.weights = append(g.places, i), append(g.weights, s.Weight)
		case s.Name:
			g.places, g.weights = []int{i}, []float64{1}
			return g, nil
		}
		names = append(names, fmt.Sprintf("%q", s.Name))
	}
	if name != "" {
		return g, &facilityfile.Error{Err: fmt.Errorf("%s: there is no growth scenario %q; it has %s", f.Path, name, strings.Join(names, ", "))}
	}
	return g, nil
}

// told is what the answer says it is for.
func (g growths) told() answer.Scenario {
	if len(g.places) == 1 {
		s := g.planned.Growths[g.places[0]]
		return answer.Scenario{Name: s.Name, Weight: s.Weight}
	}
	return answer.Scenario{Name: "all by weight", Weight: 1}
}

// main returns the scenario that is believed in most of those looked at.
func (g growths) main() int {
	if len(g.places) == 1 {
		return g.places[0]
	}
	return vesselplan.MainGrowth(g.planned)
}

// of returns the scenario of a replication, see [facilityfile.Planning.ShareOut].
func (g growths) of(replication int) int {
	if len(g.places) == 1 {
		return g.places[0]
	}
	return g.planned.ShareOut(replication + 1)[replication]
}

// mix returns odds over the scenarios looked at, of those of all the file's.
func (g growths) mix(all []capability.Odds) capability.Odds {
	var of []capability.Odds
	for _, place := range g.places {
		of = append(of, all[place])
	}
	return capability.Mixed(of, g.weights)
}
