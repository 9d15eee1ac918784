package dials

import (
	"strconv"
	"strings"
	"time"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/yamlfile/edit"
)

// Parts are the values of a key that has one for each month or weekday: each can be
// changed by itself, and all together are what is typed for the key.
type Parts struct {
	Open, Close string // around all: brackets, or braces where each has its name
	Numbers     bool   // they are numbers, of which all can be made greater by one factor
	Same        bool   // the file has one value for all
	List        []Part
}

// Part is one of several values.
type Part struct {
	Label string // "January"
	Key   string // "jan" where it is written with its name, else empty
	Place string // as messages name it: "solids.cake_solids[1]", "hours.week.mon"
	Value string // without brackets of its own; empty where it is left out
	// Wrapped says that the value is a list, written in brackets.
	Wrapped bool
	Default string // what holds where it is left out
}

// spans are what the values of a key may be for: their names in full and as keys.
type span struct{ labels, keys []string }

var months, weekdays = monthSpan(), weekdaySpan()

func monthSpan() (s span) {
	for m := time.January; m <= time.December; m++ {
		s.add(m.String())
	}
	return s
}

func weekdaySpan() (s span) {
	for day := range 7 {
		s.add(time.Weekday((day + 1) % 7).String())
	}
	return s
}

// add adds a name, of which the first three letters are the key.
func (s *span) add(name string) {
	s.labels = append(s.labels, name)
	s.keys = append(s.keys, strings.ToLower(name[:3]))
}

// partsOf are those of a key of which the value stands on one line, nil where it has none.
func (t *text) partsOf(path, value string, k *facilityfile.Key) *Parts {
	switch {
	case k.Kind == facilityfile.Months && k.Path == general(path):
		return series(path, value, months)
	case k.Kind == facilityfile.Weekdays && k.Path == general(path):
		return series(path, value, weekdays)
	case week(k.Path) && strings.HasPrefix(value, "{"):
		return t.shifts(path)
	}
	return nil
}

// week reports whether a key is a group of shifts by weekday.
func week(path string) bool {
	k := keys()[path+"."+weekdays.keys[0]]
	return k != nil && k.Kind == facilityfile.Shifts
}

// series takes a list, a group or one value for all apart.
func series(path, value string, of span) *Parts {
	out := &Parts{Open: "[", Close: "]", Numbers: true}
	var values []string
	named := map[string]string{}
	switch {
	case strings.HasPrefix(value, "["):
		if values = entries(value); len(values) != len(of.keys) {
			return nil // to be mended as a whole
		}
	case strings.HasPrefix(value, "{"):
		out.Open, out.Close = "{", "}"
		for _, entry := range entries(value) {
			key, v, ok := strings.Cut(entry, ":")
			if !ok {
				return nil
			}
			named[strings.TrimSpace(key)] = strings.TrimSpace(v)
		}
	default:
		out.Same = true
	}
	for i, label := range of.labels {
		p := Part{Label: label}
		switch {
		case out.Same:
			p.Value, p.Place = value, place(path, i)
		case values != nil:
			p.Value, p.Place = values[i], place(path, i)
		default:
			p.Key, p.Place, p.Value = of.keys[i], path+"."+of.keys[i], named[of.keys[i]]
		}
		out.List = append(out.List, p)
	}
	return out
}

// place is how messages name an entry of a list.
func place(path string, i int) string { return path + "[" + strconv.Itoa(i+1) + "]" }

// shifts are those of each weekday.
func (t *text) shifts(path string) *Parts {
	out := &Parts{Open: "{", Close: "}"}
	for i, label := range weekdays.labels {
		p := Part{Label: label, Key: weekdays.keys[i], Place: path + "." + weekdays.keys[i], Wrapped: true}
		if raw, ok := edit.Raw(t.data, p.Place); ok {
			inner, list := strings.CutPrefix(raw, "[")
			if !list {
				return nil
			}
			p.Value = strings.TrimSpace(strings.TrimSuffix(inner, "]"))
		}
		if k := keys()[general(p.Place)]; k != nil && k.Default != nil {
			p.Default = k.Default.Words
		}
		out.List = append(out.List, p)
	}
	return out
}

// entries are those of a list or group in brackets, as they are written.
func entries(value string) []string {
	inner := value[1 : len(value)-1]
	var out []string
	depth, from := 0, 0
	for i, c := range inner {
		switch c {
		case '[', '{':
			depth++
		case ']', '}':
			depth--
		case ',':
			if depth == 0 {
				out = append(out, strings.TrimSpace(inner[from:i]))
				from = i + 1
			}
		}
	}
	if last := strings.TrimSpace(inner[from:]); last != "" {
		out = append(out, last)
	}
	return out
}

// Turned gives fields of several values those that their dials are turned to. A dial that
// is turned to what cannot be taken apart has none.
func Turned(data []byte, fields []Field, settings []Setting) {
	for _, s := range settings {
		for i := range fields {
			f := &fields[i]
			if f.Path != s.Path || f.Parts == nil {
				continue
			}
			f.Parts = nil
			changed, problems := Apply(data, []Setting{s})
			if len(problems) > 0 {
				continue
			}
			if now, err := Of(changed, []string{s.Path}); err == nil {
				f.Parts = now[0].Parts
			}
		}
	}
}
