package simulate

import (
	"reflect"
	"testing"

	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
)

// numbered fills every number under v with another value, 3, 4, 5, …, and returns
// the next.
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

// complete proves that the columns of a record give each of its numbers exactly
// once, but for keys: each number is different, and each is found.
func complete[T any](t *testing.T, columns []doc.Col[T], keys int) {
	t.Helper()
	var r T
	total := int(numbered(reflect.ValueOf(&r).Elem(), 3)) - 3 - keys
	seen := map[float64]string{}
	names := map[string]bool{}
	for _, c := range columns {
		if names[c.Name] {
			t.Errorf("%T: two columns are named %s", r, c.Name)
		}
		names[c.Name] = true
		var values []float64
		switch v := c.Of(&r).(type) {
		case answer.Spread:
			values = []float64{v.Mean, v.P10, v.P50, v.P90}
		case float64:
			values = []float64{v}
		}
		for _, v := range values {
			if other, twice := seen[v]; twice {
				t.Errorf("%T: %s and %s show the same number", r, c.Name, other)
			}
			seen[v] = c.Name
		}
	}
	if len(seen) != total {
		t.Errorf("%T: %d numbers are given, it has %d", r, len(seen), total)
	}
}

// Nothing in the answer is left out of JSON and CSV or shown under two names.
// The numbers of dates and months are keys.
func TestColumnsAreComplete(t *testing.T) {
	complete(t, loadColumns, 0)
	a := &Answer{Basis: answer.Basis{Feedstocks: []string{"manure"}}, OwnChips: true, Hauls: true}
	complete(t, a.yearColumns(), 2)  // From.Year, From.Day
	complete(t, a.monthColumns(), 1) // Year
	complete(t, flowColumns, 0)
	complete(t, componentColumns, 0)
	complete(t, resourceColumns, 0)
	complete(t, broughtColumns, 0)
	complete(t, stageColumns, 0)
	complete(t, amendmentColumns, 0)
	complete(t, triggerColumns, 2) // Decided.Year, Decided.Day
}
