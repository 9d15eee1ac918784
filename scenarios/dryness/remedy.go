package dryness

import (
	"math"

	"loamcast/facility/plant"
	doc "loamcast/scenarios/document"
)

// Advice says how a lot would be dried, or how far drying would bring it.
func Advice(r plant.Remedy) doc.Text {
	air := doc.Show(r.Air, doc.AirPerDry)
	if r.OK {
		return doc.Say("dry them %s with %s of dry matter", doc.Counted(int(math.Ceil(max(1, r.Days))), "day"), air)
	}
	return doc.Say("%s on the pad with %s of dry matter bring them only to %s: dry them in the vessel, mix them drier, or hold them until it is warmer",
		doc.Counted(int(r.Days), "day"), air, doc.With(r.Reached, doc.Share, 1))
}

// Columns are a remedy in files, not numbers where none is needed or, for the days,
// none would do.
func Columns[T any](of func(*T) plant.Remedy) []doc.Col[T] {
	return []doc.Col[T]{
		doc.Val("days_of_drying_to_the_limit", doc.Days, func(x *T) float64 {
			if r := of(x); r.OK {
				return r.Days
			}
			return math.NaN()
		}).Means("days that lots of the month take with the drying air until they are dry enough for the screen"),
		doc.Val("drying_air", doc.AirPerDry, func(x *T) float64 {
			if r := of(x); r.Needed() {
				return r.Air
			}
			return math.NaN()
		}).Means("air that is reckoned with, on each dry mass", doc.Dry),
	}
}
