package units

import (
	"fmt"
	"math"
	"strings"
)

// System is the set of units in which quantities are shown, and the currency in
// which money is. Two of the same are equal; the zero value is US.
type System struct {
	metric   bool
	currency string // its code; empty is USD
}

// The two systems, with money in USD; see [System.With] for others. Energy in kWh
// and durations look the same in both.
var (
	US = System{}             // US customary: short ton, yd3, °F
	SI = System{metric: true} // metric: t, m3, °C
)

// Metric reports whether masses are shown in t and not in short tons, whatever the
// currency is.
func (s System) Metric() bool { return s.metric }

// String returns the name that ParseSystem reads.
func (s System) String() string {
	if s.metric {
		return "si"
	}
	return "us"
}

// ParseSystem reads "us" or "si", in any capitals.
func ParseSystem(name string) (System, error) {
	switch strings.ToLower(name) {
	case "us":
		return US, nil
	case "si":
		return SI, nil
	}
	return US, fmt.Errorf("%s is not a system of units; write us or si", quote(name))
}

// display is a unit ready for showing values in.
type display struct {
	label  string
	suffix string
	unit   compound
}

// displays holds the shown units by dimension, the main one first, for both systems.
var usDisplays, siDisplays = parseDisplays(US), parseDisplays(SI)

// displays returns the units in which a dimension is shown.
func (s System) displays(dim Dimension) []display {
	if s.metric {
		return siDisplays[dim]
	}
	return usDisplays[dim]
}

func parseDisplays(system System) [][]display {
	list := make([][]display, len(dimensionTable))
	for d, row := range dimensionTable {
		labels := row.us
		if system.metric {
			labels = row.si
		}
		for _, label := range labels {
			c, err := parseCompound(label)
			if err != nil {
				panic("units: label " + label + ": " + err.Error())
			}
			if Dimension(d) == TemperatureDifference {
				c.offset = 0
			}
			list[d] = append(list[d], display{label, suffixOf(label), c})
		}
	}
	return list
}

// suffixOf makes a label fit for a field name: "USD/yd3" is "_usd_per_yd3".
func suffixOf(label string) string {
	if label == "" {
		return ""
	}
	s := strings.NewReplacer("1/", "per_", "/", "_per_", " ", "_", "·", "_", "%", "percent", "°", "deg_").Replace(label)
	return "_" + strings.ToLower(s)
}

// Convert returns a value given in the base unit of dim in the unit that
// tables and charts use for dim, with that unit's label: (18143.7, Mass, US)
// gives (20, "short ton"). The label is empty for bare numbers.
func Convert(value float64, dim Dimension, system System) (float64, string) {
	d := system.displays(dim)[0]
	return d.unit.from(bases[dim], value), system.label(d.label)
}

// FieldSuffix returns the ending of a JSON or CSV field name that says in
// which unit Convert gives its value: "_short_ton", "_m3", "_percent". These
// endings are part of the output format and do not change; of money they begin with
// the currency: "_usd_per_yd3", "_eur_per_m3".
func FieldSuffix(dim Dimension, system System) string {
	return system.suffix(system.displays(dim)[0].suffix)
}

// Format writes a value given in the base unit of dim with its unit, such as
// "1,100 lb/yd3", rounded as [FormatNumber] does. A value below a tenth of the
// usual unit is shown in a smaller one where the dimension has it.
func Format(value float64, dim Dimension, system System) string {
	x, label := fit(value, dim, system)
	return strings.TrimSpace(FormatNumber(x) + " " + label)
}

// FormatDigits is Format with the given number of significant digits, for a
// limit that a reader has to keep to.
func FormatDigits(value float64, dim Dimension, system System, digits int) string {
	x, label := fit(value, dim, system)
	return strings.TrimSpace(formatDigits(x, digits) + " " + label)
}

// fit converts a value to the unit that suits its size.
func fit(value float64, dim Dimension, system System) (float64, string) {
	choices := system.displays(dim)
	for len(choices) > 1 && value != 0 && math.Abs(choices[0].unit.from(bases[dim], value)) < 0.1 {
		choices = choices[1:]
	}
	return choices[0].unit.from(bases[dim], value), system.label(choices[0].label)
}
