package yamlfile

import (
	"fmt"
	"strings"

	"go.yaml.in/yaml/v4"

	"loamcast/scenarios/units"
)

var (
	monthKeys   = []string{"jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"}
	weekdayKeys = []string{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}
)

// Monthly reads twelve quantities, January first: a list, a group with the
// keys jan to dec, or one value that holds all year.
func (m *Map) Monthly(key string, dim units.Dimension, checks ...Check) [12]float64 {
	return [12]float64(m.series(key, m.need(key, exampleFor(dim, checks)), monthKeys, dim, checks))
}

// MonthlyOr is Monthly for an optional key.
func (m *Map) MonthlyOr(key string, dim units.Dimension, def [12]float64, checks ...Check) [12]float64 {
	e := m.ask(key)
	if e == nil {
		return def
	}
	return [12]float64(m.series(key, e, monthKeys, dim, checks))
}

// WeeklyOr reads seven quantities of an optional key, Monday first: a list, a group
// with the keys mon to sun, or one value that holds all week.
func (m *Map) WeeklyOr(key string, dim units.Dimension, def [7]float64, checks ...Check) [7]float64 {
	e := m.ask(key)
	if e == nil {
		return def
	}
	return [7]float64(m.series(key, e, weekdayKeys, dim, checks))
}

// series reads one value for each of keys. It returns as many zeros if
// something is wrong.
func (m *Map) series(key string, e *entry, keys []string, dim units.Dimension, checks []Check) []float64 {
	values := make([]float64, len(keys))
	if e == nil {
		return values
	}
	switch e.value.Kind {
	case yaml.MappingNode:
		if len(e.value.Content) == 0 {
			m.Error(key, "the group is empty", "write "+strings.Join(keys, ", ")+", or one value for all")
			break
		}
		group := m.group(key, e)
		for i, k := range keys {
			values[i] = group.Quantity(k, dim, checks...)
		}
		e.bad = e.bad || !group.Good(keys...)
	case yaml.SequenceNode:
		// Faults of the entries come first: a comma too many changes the count.
		list := m.quantities(key, e, e.value.Content, dim, checks)
		switch {
		case e.bad:
		case len(list) != len(keys):
			m.Error(key, fmt.Sprintf("the list has %d entries where %d are needed", len(list), len(keys)),
				"write "+strings.Join(keys, ", ")+" in this order, or one value for all")
		default:
			copy(values, list)
		}
	default:
		x := m.Quantity(key, dim, checks...)
		for i := range values {
			values[i] = x
		}
	}
	return values
}
