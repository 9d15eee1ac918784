package render

import (
	"bytes"
	"encoding/json"
	"io"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
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

// JSON writes a document as one JSON object: its head, its headline, its facts
// and its tables, each row on a line of its own, and its cautions. Numbers are
// rounded to six significant digits; a number that is not finite is null. A
// spread is an object of mean, p10, p50 and p90, of which "level" says what
// quantiles p10 and p90 are; an estimate is followed by the ends of its interval.
func JSON(w io.Writer, d *document.Document, sys units.System) error {
	var b bytes.Buffer
	b.WriteString("{\n")
	members := whole(d, sys)
	for i, m := range members {
		b.WriteString("  ")
		if err := writeLines(&b, m); err != nil {
			return err
		}
		if i < len(members)-1 {
			b.WriteByte(',')
		}
		b.WriteByte('\n')
	}
	b.WriteString("}\n")
	_, err := w.Write(b.Bytes())
	return err
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

// whole lists the members of a document.
func whole(d *document.Document, sys units.System) []member {
	sys = sys.With(d.Basis.Currency)
	members := head(&d.Basis, sys)
	if !d.Headline.Empty() {
		members = append(members, member{"headline", d.Headline.Plain(sys)})
	}
	for _, block := range d.Blocks {
		switch b := block.(type) {
		case document.Facts:
			members = append(members, record(document.Record(b), sys)...)
		case document.Table:
			if b.In.On(document.Files) && b.Name != "" {
				members = append(members, member{b.Name, rows(b, sys)})
			}
		}
	}
	for _, part := range d.Parts {
		members = append(members, member{part.Name, object(whole(part.Document, sys))})
	}
	return append(members, member{"cautions", cautions(d.Cautions)})
}

// head is what every answer begins with.
func head(b *answer.Basis, sys units.System) []member {
	scenarios := make([]object, len(b.Scenarios))
	for i, g := range b.Scenarios {
		scenarios[i] = object{{"name", g.Name}, {"weight_percent", number(100 * g.Weight)}}
	}
	members := []member{
		{"facility", b.Facility},
		{"source", b.Source},
		{"file_sha256", b.FileHash},
		{"invented", b.Invented},
		{"version", b.Version},
		{"seed", b.Seed},
	}
	if b.Replications > 0 {
		members = append(members, member{"replications", b.Replications})
	}
	return append(members,
		member{"start", b.Start.String()},
		member{"horizon_years", b.Horizon},
		member{"units", sys.String()},
		member{"money", object{{"currency", sys.Currency()}, {"prices_of", yearOrNull(b.PricesOf)}}},
		member{"level", object{{"p10", number(b.Level.Low)}, {"p90", number(b.Level.High)}}},
		member{"target", object{
			{"diverted_at_most_percent", number(100 * b.Target.DivertedLimit)},
			{"cake_waits_at_most_days", number(b.Target.DelayLimit)},
			{"runs_percent", number(100 * (1 - b.Target.MissShare))},
		}},
		member{"growth_scenarios", scenarios})
}

// yearOrNull is null where there is no year.
func yearOrNull(year int) any {
	if year == 0 {
		return nil
	}
	return year
}

func cautions(list []answer.Caution) []object {
	out := make([]object, len(list))
	for i, c := range list {
		out[i] = object{{"text", c.Text}, {"source", c.Source}}
	}
	return out
}

// rows makes an object of each row of a table.
func rows(t document.Table, sys units.System) []object {
	list := make([]object, len(t.Rows))
	for i, r := range t.Rows {
		for k, c := range t.Columns {
			if c.Name != "" {
				list[i] = append(list[i], field(c.Name, c.Quantity, r.Cells[k], sys)...)
			}
		}
	}
	return list
}

// record makes members of fields.
func record(r document.Record, sys units.System) object {
	out := object{}
	for _, f := range r {
		out = append(out, field(f.Name, f.Quantity, f.Value, sys)...)
	}
	return out
}

// field makes members of one value.
func field(name string, q document.Quantity, v any, sys units.System) object {
	if q.ToBase == 0 {
		q = document.Count
	}
	in := func(v float64) number { return number(q.In(v, sys)) }
	title := name + q.Suffix(sys)
	switch v := v.(type) {
	case answer.Spread:
		return object{{title, object{{"mean", in(v.Mean)}, {"p10", in(v.P10)}, {"p50", in(v.P50)}, {"p90", in(v.P90)}}}}
	case stats.Interval:
		return object{{title, in(v.Estimate)}, {name + "_low" + q.Suffix(sys), in(v.Low)}, {name + "_high" + q.Suffix(sys), in(v.High)}}
	case float64:
		return object{{title, in(v)}}
	case document.Measured:
		return field(name, v.Quantity, v.Value, sys)
	case []float64:
		list := make([]number, len(v))
		for i, x := range v {
			list[i] = in(x)
		}
		return object{{title, list}}
	case []document.Text:
		list := make([]string, len(v))
		for i, text := range v {
			list[i] = text.Plain(sys)
		}
		return object{{title, list}}
	case calendar.Date:
		return object{{title, v.String()}}
	case document.Record:
		return object{{name, record(v, sys)}}
	case document.Table:
		return object{{name, rows(v, sys)}}
	case document.Number: // of a unit of its own
		return object{{title, number(v.Quantity.In(v.Value, sys))}}
	case document.Part:
		return object{{title, document.PlainSpaces(v.In(sys))}}
	}
	return object{{title, v}} // nothing, words, whole numbers, true or false, and lists of them
}
