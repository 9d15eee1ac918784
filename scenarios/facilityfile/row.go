package facilityfile

import (
	"math"

	"loamcast/scenarios/yamlfile"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// row is a key of a group whose values go into a record of type R, such as a
// plant.Vessels. Its Path is the key's own name.
type row[R any] struct {
	Key
	in field[R]
}

// field is where a key's value goes.
type field[R any] struct {
	kind Kind
	read func(m *yamlfile.Map, k *Key, into *R)
	get  func(*R) float64 // nil, like set, for what is not a single number
	set  func(*R, float64)
}

// read reads a group into a record. What the group leaves out takes its default,
// or stays as the record has it where the default is no number.
func read[R any](m *yamlfile.Map, rows []row[R], into *R) {
	for i := range rows {
		rows[i].in.read(m, &rows[i].Key, into)
	}
}

// under returns the keys of a group that stands at a path; at finds its record in
// the file, and is nil for an entry of a list.
func under[R any](path string, rows []row[R], at func(Parts) *R) []Key {
	var keys []Key
	for _, r := range rows {
		k := r.Key
		k.Path = join(path, r.Path)
		k.Kind = r.in.kind
		if at != nil && r.in.get != nil {
			k.Get = func(p Parts) float64 { return r.in.get(at(p)) }
			k.Set = func(p Parts, v float64) { r.in.set(at(p), v) }
		}
		keys = append(keys, k)
	}
	return keys
}

func join(group, key string) string {
	if group == "" {
		return key
	}
	return group + "." + key
}

// number is a quantity that the record has in the base unit of the dimension.
func number[R any](at func(*R) *float64) field[R] { return scaled(1, 1, at) }

// scaled is a quantity that the record has times over by.
func scaled[R any](times, by float64, at func(*R) *float64) field[R] {
	return quantity(
		func(r *R) float64 { return *at(r) * by / times },
		func(r *R, v float64) { *at(r) = v * times / by })
}

// span is a duration.
func span[R any](at func(*R) *sim.Duration) field[R] {
	return quantity(
		func(r *R) float64 { return float64(*at(r)) },
		func(r *R, v float64) { *at(r) = duration(v) })
}

// byCalendar is a duration in months of the calendar and days. It has no single
// number, and where it is left out the record keeps its own, or takes the default in
// whole months.
func byCalendar[R any](at func(*R) *calendar.Span) field[R] {
	return field[R]{kind: Quantity, read: func(m *yamlfile.Map, k *Key, into *R) {
		switch {
		case k.Default == nil || m.Has(k.Path):
			if span := m.Span(k.Path, k.checks()...); m.Good(k.Path) {
				*at(into) = span
			}
		case k.Default.Known:
			*at(into) = calendar.Span{Months: int(math.Round(k.Default.Value / calendar.SecondsPerYear * calendar.MonthsPerYear))}
		}
	}}
}

// quantity is a quantity that is got and set in the base unit.
func quantity[R any](get func(*R) float64, set func(*R, float64)) field[R] {
	return field[R]{Quantity, func(m *yamlfile.Map, k *Key, into *R) {
		switch {
		case k.Default == nil || !k.Default.Known && m.Has(k.Path):
			setIfGood(m, k, into, set, m.Quantity(k.Path, k.Dimension, k.checks()...))
		case k.Default.Known:
			setIfGood(m, k, into, set, m.QuantityOr(k.Path, k.Dimension, k.Default.Value, k.checks()...))
		}
	}, get, set}
}

// setIfGood sets a value of which nothing was complained. Another is not set, so that
// one mistake is not found again in what follows from it.
func setIfGood[R any](m *yamlfile.Map, k *Key, into *R, set func(*R, float64), value float64) {
	if m.Good(k.Path) {
		set(into, value)
	}
}

// whole is a number of things.
func whole[R any](at func(*R) *int) field[R] {
	return counted(
		func(r *R) float64 { return float64(*at(r)) },
		func(r *R, v float64) { *at(r) = int(v) })
}

// counted is a whole number that is got and set.
func counted[R any](get func(*R) float64, set func(*R, float64)) field[R] {
	return field[R]{Count, func(m *yamlfile.Map, k *Key, into *R) {
		switch {
		case k.Default == nil || !k.Default.Known && m.Has(k.Path):
			setIfGood(m, k, into, set, float64(m.Int(k.Path, k.checks()...)))
		case k.Default.Known:
			setIfGood(m, k, into, set, float64(m.IntOr(k.Path, int(k.Default.Value), k.checks()...)))
		}
	}, get, set}
}

// monthly is twelve quantities.
func monthly[R any](at func(*R) *[12]float64) field[R] {
	return field[R]{kind: Months, read: func(m *yamlfile.Map, k *Key, into *R) {
		if k.Default == nil {
			*at(into) = m.Monthly(k.Path, k.Dimension, k.checks()...)
			return
		}
		*at(into) = m.MonthlyOr(k.Path, k.Dimension, constant(k.Default.Value), k.checks()...)
	}}
}

// weekly is seven quantities; the file begins the week on Monday and the model on
// Sunday.
func weekly[R any](at func(*R) *[7]float64) field[R] {
	return field[R]{kind: Weekdays, read: func(m *yamlfile.Map, k *Key, into *R) {
		d := k.Default.Value
		for i, v := range m.WeeklyOr(k.Path, k.Dimension, [7]float64{d, d, d, d, d, d, d}, k.checks()...) {
			at(into)[(i+1)%7] = v
		}
	}}
}

// flag is true or false; left out it is false.
func flag[R any](at func(*R) *bool) field[R] {
	return field[R]{kind: Flag, read: func(m *yamlfile.Map, k *Key, into *R) {
		*at(into) = m.BoolOr(k.Path, false)
	}}
}

// chosen is one of the key's choices, of which the first is the default if it has
// one.
func chosen[R any](set func(into *R, word string)) field[R] {
	return field[R]{kind: Choice, read: func(m *yamlfile.Map, k *Key, into *R) {
		if k.Default == nil {
			set(into, m.OneOf(k.Path, k.Choices...))
			return
		}
		set(into, m.OneOfOr(k.Path, k.Choices[0], k.Choices...))
	}}
}

// text is words of the user's own; left out, the record keeps those it has.
func text[R any](at func(*R) *string) field[R] {
	return field[R]{kind: Text, read: func(m *yamlfile.Map, k *Key, into *R) {
		if k.Default == nil {
			*at(into) = m.Text(k.Path)
			return
		}
		*at(into) = m.TextOr(k.Path, *at(into))
	}}
}

// dated is a date in the years that a run may have.
func dated[R any](at func(*R) *calendar.Date) field[R] {
	return field[R]{kind: Date, read: func(m *yamlfile.Map, k *Key, into *R) { *at(into) = date(m, k.Path) }}
}
