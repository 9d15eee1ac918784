package facilityfile

import (
	"fmt"
	"slices"
	"strings"

	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
)

// schemaWriter turns keys into what a JSON Schema says of them.
type schemaWriter struct{ system units.System }

// How a number, a date and a shift are written. A number may have the sign of a
// currency before it; what units there are, the reader knows.
const (
	numberPattern = `\s*[-+−]?\s*[$€£]?\s*[-+−]?(\d[\d,]*\.?\d*|\.\d+)([eE][-+]?\d+)?`
	unitPattern   = `\s*([A-Za-z%°º˚℃℉$€£/]|1\s*/).*`
	moneyPattern  = `\s*[-+−]?\s*[$€£]\s*(\d[\d,]*\.?\d*|\.\d+)([eE][-+]?\d+)?\s*`
	datePattern   = `^\s*\d{4}-\d{2}-\d{2}\s*$`
	shiftPattern  = `^\s*([01]?\d|2[0-3]):[0-5]\d\s*-\s*([01]?\d|2[0-4]):[0-5]\d\s*$`
)

// definitions are the dimensions, to which keys refer.
func (w schemaWriter) definitions() object {
	var defs object
	for _, dim := range units.Dimensions() {
		defs = append(defs, member{dimensionName(dim), w.quantity(dim)})
	}
	return defs
}

func dimensionName(dim units.Dimension) string {
	_, name, _ := strings.Cut(dim.String(), " ")
	name = strings.ReplaceAll(name, " ", "_")
	if dim == units.MoneyPerHour { // of the same words as MoneyPerTime
		name += "_worked"
	}
	return name
}

func reference(dim units.Dimension) object {
	return object{{"$ref", "#/$defs/" + dimensionName(dim)}}
}

// quantity is a text with a unit, or where none is needed a number. Nothing needs no unit
// but where it is a temperature.
func (w schemaWriter) quantity(dim units.Dimension) object {
	if dim.Bare() || dim == units.Temperature {
		return w.withUnit(dim)
	}
	return object{{"anyOf", []object{w.withUnit(dim), {{"enum", []any{0, "0"}}}}}}
}

func (w schemaWriter) withUnit(dim units.Dimension) object {
	examples := []string{units.Format(1, dim, w.system)}
	if dim != units.Money {
		examples = strings.Split(dim.Example(), " or ")
	}
	switch {
	case dim == units.Dimensionless:
		return object{{"type", []string{"number", "string"}}, {"pattern", "^" + numberPattern + `\s*$`}}
	case dim.Bare():
		return object{{"type", []string{"number", "string"}}, {"pattern", "^" + numberPattern + "(" + unitPattern + `|\s*)$`}}
	case dim == units.Money:
		return object{{"type", "string"}, {"pattern", "^(" + numberPattern + unitPattern + "|" + moneyPattern + ")$"}, {"examples", examples}}
	}
	return object{{"type", "string"}, {"pattern", "^" + numberPattern + unitPattern + "$"}, {"examples", examples}}
}

// group is an object of keys, or a list of such.
func (w schemaWriter) group(n *node) object {
	var properties object
	required := []string{}
	for _, m := range n.members {
		properties = append(properties, member{m.name, w.key(m)})
		if m.key.Needed() {
			required = append(required, m.name)
		}
	}
	out := object{{"type", "object"}, {"properties", properties}}
	if len(required) > 0 {
		out = append(out, member{"required", required})
	}
	if n.key.OneOf {
		out = append(out, member{"minProperties", 1}, member{"maxProperties", 1})
	}
	out = append(out, member{"additionalProperties", false})
	if n.key.Kind == List {
		out = object{{"type", "array"}, {"items", out}}
		if n.key.Default == nil {
			out = append(out, member{"minItems", 1})
		}
	}
	return out
}

// key is a key with its description.
func (w schemaWriter) key(n *node) object {
	out := append(object{{"description", n.key.Describe(w.system)}}, w.value(n)...)
	if n.key.Example != "" && !slices.Contains([]Kind{Group, List, Quantities, Years, Shifts, Texts}, n.key.Kind) {
		out = append(out, member{"examples", []string{n.key.Example}})
	}
	return out
}

func (w schemaWriter) value(n *node) object {
	k := &n.key
	anyText := object{{"type", []string{"string", "number", "boolean"}}}
	one := append(reference(k.Dimension), w.ends(k)...)
	list := func(items object) object { return object{{"type", "array"}, {"items", items}} }
	switch k.Kind {
	case Group, List:
		return w.group(n)
	case Quantity:
		if len(k.Choices) > 0 {
			return object{{"anyOf", []object{one, {{"enum", k.Choices}}}}}
		}
		return one
	case Count:
		return append(object{{"type", []string{"integer", "string"}}, {"pattern", `^\s*\d[\d,]*\s*$`}}, w.ends(k)...)
	case Months:
		return series(one, months)
	case Weekdays:
		return series(one, append(slices.Clone(weekdays[1:]), weekdays[0]))
	case Choice:
		choices := k.Choices
		if choices == nil {
			choices = inputKeys()
		}
		return object{{"enum", choices}}
	case Flag:
		return object{{"enum", []any{true, false, "true", "false"}}}
	case Date:
		return object{{"type", "string"}, {"pattern", datePattern}}
	case Quantities:
		return append(list(one), member{"minItems", 1})
	case Years:
		return object{{"type", "object"}, {"patternProperties", object{{`^\d{4}$`, one}}}, {"minProperties", 1}, {"additionalProperties", false}}
	case Shifts:
		return list(object{{"type", "string"}, {"pattern", shiftPattern}})
	case Texts:
		return list(anyText)
	case Value:
		return object{{"type", []string{"number", "string"}}}
	case Values:
		return append(list(object{{"type", []string{"number", "string"}}}), member{"minItems", 2})
	}
	return anyText
}

// ends are what a bare number may be; of a text they say nothing.
func (w schemaWriter) ends(k *Key) object {
	if k.Kind != Count && !k.Dimension.Bare() {
		return nil
	}
	return object{{"minimum", k.Low}, {"maximum", k.High}}
}

// series is one value, a list of one for each name, or a group of them by name.
func series(one object, names []string) object {
	var properties object
	for _, name := range names {
		properties = append(properties, member{name, one})
	}
	return object{{"anyOf", []object{
		one,
		{{"type", "array"}, {"items", one}, {"minItems", len(names)}, {"maxItems", len(names)}},
		{{"type", "object"}, {"properties", properties}, {"required", names}, {"additionalProperties", false}},
	}}}
}

// Describe says in sentences what a key is, what it may be, and what holds where
// it is left out.
func (k *Key) Describe(system units.System) string {
	text := capital(k.Words) + "."
	format := func(x float64) string { return inFile(x, k.Dimension, system) }
	switch k.Kind {
	case Quantity, Count, Months, Weekdays, Quantities, Years:
		text += fmt.Sprintf(" From %s to %s", format(k.Low), format(k.High))
		if u := k.Usual; u != nil {
			text += fmt.Sprintf("; usually %s to %s (%s)", format(u.Low), format(u.High), u.Source)
		}
		text += "."
	}
	switch {
	case k.Default != nil:
		text += " Left out: " + k.Default.text(k.Dimension, system) + "."
	case k.When != "":
		text += " Needed " + k.When + "."
	}
	if u := k.Uncertain; u != nil {
		text += " " + u.How.words() + "."
	}
	switch k.UsedBy {
	case ForPlanning:
		text += " For the planning answers."
	case ForMixing:
		text += " For the design of a mix."
	}
	return text
}

// inFile writes a value as a file would have it: a long duration in years.
func inFile(x float64, dim units.Dimension, system units.System) string {
	if dim == units.Duration && x >= calendar.SecondsPerYear {
		return units.FormatNumber(x/calendar.SecondsPerYear) + " year"
	}
	return units.FormatDigits(x, dim, system, 4)
}

// text says what holds, with its source.
func (d *Default) text(dim units.Dimension, system units.System) string {
	text := d.Words
	if d.Known {
		text = inFile(d.Value, dim, system)
	}
	if d.Source != "" {
		text += " (" + d.Source + ")"
	}
	return text
}

// words says how an input may be uncertain.
func (h How) words() string {
	switch h {
	case Added:
		return "May be uncertain: what is drawn is added"
	case Times:
		return "May be uncertain: what is drawn is a factor"
	}
	return "May be uncertain"
}
