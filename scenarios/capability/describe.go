package capability

import (
	"fmt"
	"slices"
	"strings"

	"loamcast/facility/plant"
	"loamcast/sim/calendar"
)

// added returns what some changes have more than others, vessels apart, and whether they
// have all of those.
func added(less, more []plant.Change) (out []plant.Change, all bool) {
	for _, c := range lastContract(more) {
		if c.Vessels, c.Class, c.Places = 0, 0, 0; describe([]plant.Change{c}).rest != "" {
			out = append(out, c)
		}
	}
	for _, c := range less {
		rest := describe([]plant.Change{c}).rest
		if rest == "" {
			continue
		}
		at := slices.IndexFunc(out, func(c plant.Change) bool { return describe([]plant.Change{c}).rest == rest })
		if at < 0 {
			return nil, false
		}
		out = slices.Delete(out, at, at+1)
	}
	return out, true
}

// description tells changes by what they do.
type description struct {
	vessels, places int
	classes         string // the vessels by class
	rest            string
}

// lastContract returns changes without the contracts that others take the place of.
func lastContract(changes []plant.Change) []plant.Change {
	last := -1
	for i, c := range changes {
		if c.Contract.On() {
			last = i
		}
	}
	out := slices.Clone(changes)
	for i := range out {
		if i != last {
			out[i].Contract = plant.Contract{}
		}
	}
	return out
}

func describe(changes []plant.Change) description {
	var d description
	var rest []string
	byClass := map[int]int{}
	for _, c := range lastContract(changes) {
		d.vessels += c.Vessels
		if c.Vessels > 0 {
			byClass[c.Class] += c.Vessels
		}
		d.places += c.Places
		c.Vessels, c.Class, c.Places, c.Name, c.Date, c.Trigger, c.Lead = 0, 0, 0, "", calendar.Date{}, plant.Trigger{}, calendar.Span{}
		if c != (plant.Change{}) {
			rest = append(rest, fmt.Sprintf("%+v", c))
		}
	}
	if byClass[0] < d.vessels {
		d.classes = fmt.Sprint(byClass) // in the order of the classes
	}
	slices.Sort(rest)
	d.rest = strings.Join(rest, "; ")
	return d
}

func (d description) key() string { return fmt.Sprintf("%+v", d) }
