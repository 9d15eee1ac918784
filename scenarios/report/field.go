package report

import (
	"loamcast/scenarios/answer"
	"loamcast/scenarios/units"
)

// field is one quantity of a record T, under the name that JSON and CSV share.
// Either spread or value is set.
type field[T any] struct {
	name   string
	kind   quantity
	spread func(*T) answer.Spread
	value  func(*T) float64
}

// title returns the name with its unit.
func (f field[T]) title(sys units.System) string { return f.name + f.kind.suffix(sys) }
