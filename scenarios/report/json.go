package report

import (
	"bytes"
	"encoding/json"
	"io"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/simulate"
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

// JSON writes the whole answer as one JSON object, with each year, month and
// flow on a line of its own. Numbers are rounded to six significant digits; a
// number that is not finite is null. A spread is an object of mean, p10, p50
// and p90, of which "level" says what quantiles p10 and p90 are.
func JSON(w io.Writer, a *simulate.Answer, sys units.System) error {
	var b bytes.Buffer
	b.WriteString("{\n")
	members := jsonMembers(a, sys)
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

func jsonMembers(a *simulate.Answer, sys units.System) []member {
	return []member{
		{"facility", a.Facility},
		{"source", a.Source},
		{"invented", a.Invented},
		{"version", a.Version},
		{"seed", a.Seed},
		{"replications", a.Replications},
		{"start", a.Start.String()},
		{"units", sys.String()},
		{"level", object{{"p10", number(a.Level.Low)}, {"p90", number(a.Level.High)}}},
		{"air_limit" + airFlow.suffix(sys), airLimit(a, sys)},
		{"headline", jsonHeadline(a.Headline())},
		{"target", jsonTarget(a.Target)},
		{"load", record(&a.Load, loadFields, sys)},
		{"failed_by", jsonCauses(a.FailedBy)},
		{"years", jsonYears(a.Years, sys)},
		{"months", jsonMonths(a.Months, sys)},
		{"waits_dry", jsonWaits(a, sys)},
		{"tools", jsonTools(a, sys)},
		{"capacity", jsonCapacities(a.Capacities, sys)},
		{"triggered", jsonTriggered(a.Triggered)},
		{"flows", jsonFlows(a.Flows, sys)},
		{"balance", jsonBalance(a.Balance)},
		{"balance_by_component", jsonComponents(a.Balance.Components, sys)},
		{"cautions", jsonCautions(answer.Cautions())},
	}
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

func jsonHeadline(h simulate.Headline) object {
	label := func(y *simulate.Year) any {
		if y == nil {
			return nil
		}
		return y.Label
	}
	return object{
		{"text", h.String()},
		{"last_year_target_kept", label(h.LastKept)},
		{"first_year_target_missed", label(h.FirstMissed)},
		{"first_year_need_above_installed", label(h.FirstAbove)},
	}
}

func jsonTarget(t facilityfile.Target) object {
	return object{
		{"diverted_at_most_percent", number(100 * t.DivertedLimit)},
		{"cake_waits_at_most_days", number(t.DelayLimit)},
		{"runs_percent", number(100 * (1 - t.MissShare))},
	}
}

func jsonCauses(causes []simulate.Cause) []object {
	list := make([]object, len(causes))
	for i, c := range causes {
		list[i] = object{{"criterion", c.Name}, {"share_percent", number(100 * c.Share)}}
	}
	return list
}

func jsonYears(years []simulate.Year, sys units.System) []object {
	list := make([]object, len(years))
	for i := range years {
		y := &years[i]
		list[i] = append(object{{"year", y.Label}, {"from", y.From.String()}}, record(y, yearFields, sys)...)
	}
	return list
}

func jsonMonths(months []simulate.Month, sys units.System) []object {
	list := make([]object, len(months))
	for i := range months {
		m := &months[i]
		list[i] = append(object{{"year", m.Year}, {"month", int(m.Month)}}, record(m, monthFields, sys)...)
	}
	return list
}

func jsonFlows(flows []simulate.Flow, sys units.System) []object {
	list := make([]object, len(flows))
	for i := range flows {
		f := &flows[i]
		list[i] = append(object{{"name", f.Name}, {"from", f.From}, {"to", f.To}}, record(f, flowFields, sys)...)
	}
	return list
}

func jsonBalance(b simulate.Balance) object {
	return object{{"worst", number(b.Worst)}, {"worst_at", b.WorstAt}, {"bound", number(b.Bound)}}
}

func jsonComponents(components []simulate.ComponentBalance, sys units.System) []object {
	list := make([]object, len(components))
	for i := range components {
		c := &components[i]
		list[i] = append(object{{"component", c.Name}}, record(c, balanceFields, sys)...)
	}
	return list
}

func jsonCautions(cautions []answer.Caution) []object {
	list := make([]object, len(cautions))
	for i, c := range cautions {
		list[i] = object{{"text", c.Text}, {"source", c.Source}}
	}
	return list
}
