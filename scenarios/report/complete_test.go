package report

import (
	"reflect"
	"testing"
)

// numbered fills every number under v with another value, 3, 4, 5, …, as kg,
// m3 and so on, and returns how many there are.
func numbered(v reflect.Value, next float64) float64 {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			next = numbered(v.Field(i), next)
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		next = numbered(v.Elem(), next)
	case reflect.Float64:
		v.SetFloat(next)
		next++
	case reflect.Int:
		if v.Type() == reflect.TypeFor[int]() {
			v.SetInt(int64(next))
			next++
		}
	}
	return next
}

// countNumbers counts the numbers in a record's rendered fields.
func countNumbers[T any](fields []field[T]) int {
	n := 0
	for _, f := range fields {
		if f.spread != nil {
			n += 4
		} else {
			n++
		}
	}
	return n
}

// checkComplete proves that the fields of a record render each of its numbers
// exactly once: each number is different, and each is found.
func checkComplete[T any](t *testing.T, fields []field[T], keys int) {
	t.Helper()
	var r T
	total := int(numbered(reflect.ValueOf(&r).Elem(), 3)) - 3 - keys
	if got := countNumbers(fields); got != total {
		t.Errorf("%T: %d numbers are rendered, it has %d", r, got, total)
	}
	seen := map[float64]string{}
	names := map[string]bool{}
	for _, f := range fields {
		if names[f.name] {
			t.Errorf("%T: two fields are named %s", r, f.name)
		}
		names[f.name] = true
		values := []float64{}
		if f.spread != nil {
			s := f.spread(&r)
			values = append(values, s.Mean, s.P10, s.P50, s.P90)
		} else {
			values = append(values, f.value(&r))
		}
		for _, v := range values {
			if other, twice := seen[v]; twice {
				t.Errorf("%T: %s and %s show the same number", r, f.name, other)
			}
			seen[v] = f.name
		}
	}
}
