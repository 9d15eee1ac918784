package render

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"

	"loamcast/facility/plant"
	"loamcast/scenarios/plaintext"
	"loamcast/scenarios/units"
)

// Trace writes movements as CSV, one row each, in the order in which they
// happen: time, load, from, to, and the masses that moved. Masses are in the
// system's small unit, so that gases show.
type Trace struct {
	w   *csv.Writer
	sys units.System
}

// traceUnits are the masses' unit and factor by system: a load is followed in
// pounds or kilograms.
var traceUnits = map[units.System]struct {
	name  string
	perKg float64
}{
	units.US: {"lb", 1 / 0.45359237}, // exact, NIST Handbook 44 App. C (from memory)
	units.SI: {"kg", 1},
}

// TraceBegins is what every trace begins with, by which one is known.
const TraceBegins = "time,load,what,from,to,total_"

// NewTrace writes the header row.
func NewTrace(w io.Writer, sys units.System) *Trace {
	t := &Trace{w: csv.NewWriter(w), sys: sys.With(units.USD)} // no money moves
	u := traceUnits[t.sys].name
	row := []string{"time", "load", "what", "from", "to"}
	for _, what := range []string{"total", "water", "dry", "volatile", "carbon", "nitrogen"} {
		row = append(row, what+"_"+u)
	}
	t.w.Write(append(row, "moisture_percent")) // errors stay with the writer until Close
	return t
}

// Add writes one movement.
func (t *Trace) Add(m plant.Movement) {
	load := ""
	if m.Load > 0 {
		load = strconv.FormatUint(m.Load, 10)
	}
	sec := int64(m.At)
	time := fmt.Sprintf("%s:%02d", m.Clock.Stamp(sec), m.Clock.SecondOfDay(sec)%60)
	row := []string{time, load, m.Path.Name, m.Path.From, m.Path.To}
	for _, kg := range []float64{m.Amount.Total, m.Amount.Water, m.Amount.Fixed + m.Amount.Volatile, m.Amount.Volatile, m.Amount.Carbon, m.Amount.Nitrogen} {
		row = append(row, plainNumber(kg*traceUnits[t.sys].perKg))
	}
	t.w.Write(plaintext.Row(append(row, plainNumber(100*m.Moisture))))
}

// Close writes what is left and returns the first error.
func (t *Trace) Close() error {
	t.w.Flush()
	return t.w.Error()
}
