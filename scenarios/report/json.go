package report

import (
	"bytes"
	"encoding/json"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/units"
)

// member is a name and a value of a JSON object; object keeps their order.
type (
	member struct {
		name  string
		value any
	}
	object []member
)

// MarshalJSON implements json.Marshaler.
func (o object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, m := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		if err := writeMember(&b, m); err != nil {
			return nil, err
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

func writeMember(b *bytes.Buffer, m member) error {
	name, err := json.Marshal(m.name)
	if err != nil {
		return err
	}
	value, err := json.Marshal(m.value)
	if err != nil {
		return err
	}
	b.Write(name)
	b.WriteByte(':')
	b.Write(value)
	return nil
}

// writeLines writes a member, and a list one element to a line.
func writeLines(b *bytes.Buffer, m member) error {
	list, ok := m.value.([]object)
	if !ok || len(list) == 0 {
		return writeMember(b, m)
	}
	b.WriteString(`"` + m.name + "\":[\n")
	for i, element := range list {
		text, err := element.MarshalJSON()
		if err != nil {
			return err
		}
		b.WriteString("    ")
		b.Write(text)
		if i < len(list)-1 {
			b.WriteByte(',')
		}
		b.WriteByte('\n')
	}
	b.WriteString("  ]")
	return nil
}

// record renders the fields of one record.
func record[T any](r *T, fields []field[T], sys units.System) object {
	var o object
	for _, f := range fields {
		if f.spread == nil {
			o = append(o, member{f.title(sys), number(f.kind.in(f.value(r), sys))})
			continue
		}
		s := f.spread(r)
		o = append(o, member{f.title(sys), object{
			{"mean", number(f.kind.in(s.Mean, sys))},
			{"p10", number(f.kind.in(s.P10, sys))},
			{"p50", number(f.kind.in(s.P50, sys))},
			{"p90", number(f.kind.in(s.P90, sys))},
		}})
	}
	return o
}

func jsonTarget(t facilityfile.Target) object {
	return object{
		{"diverted_at_most_percent", number(100 * t.DivertedLimit)},
		{"cake_waits_at_most_days", number(t.DelayLimit)},
		{"runs_percent", number(100 * (1 - t.MissShare))},
	}
}

func jsonCautions(cautions []answer.Caution) []object {
	list := make([]object, len(cautions))
	for i, c := range cautions {
		list[i] = object{{"text", c.Text}, {"source", c.Source}}
	}
	return list
}
