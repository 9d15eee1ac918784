package fiscal

import (
	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
)

// Middle is where a month's value stands between the beginning of the month and
// the next.
const Middle = 0.5

// Axis returns a maker of empty panels over the same months.
func Axis[T any](records []T, of func(*T) Month) func(q doc.Quantity, y string) doc.Panel {
	months := make([]doc.YearMonth, len(records))
	for i := range records {
		m := of(&records[i])
		months[i] = doc.YearMonth{Year: m.Year, Month: int(m.Month)}
	}
	return func(q doc.Quantity, y string) doc.Panel {
		return doc.Panel{Quantity: q, Y: y, X: doc.Axis{Title: "month", To: float64(len(records)), Months: months}}
	}
}

// Store are the series of what is in a store, and its room.
func Store(level answer.Level, end, peak doc.Curves, room float64) []doc.Series {
	return []doc.Series{
		{Name: doc.Words("at month's end,\n" + level.String()), Shape: doc.Band, At: Middle, Values: end.High, Low: end.Low, Ink: doc.SkyBlue, Tint: 0.4},
		{Name: doc.Words("peak, " + answer.QuantileName(level.High)), At: Middle, Values: peak.High, Ink: doc.Vermilion, Width: 1.75, Dash: doc.Dashed},
		{Name: doc.Words("at month's end,\nmedian"), At: Middle, Values: end.Mid, Ink: doc.Blue, Width: 2},
		{Name: doc.Words("room"), Shape: doc.Steps, At: Middle, Values: doc.Level(len(end.Mid), room), Ink: doc.Black, Width: 1.25},
	}
}
