package options

import (
	"reflect"
	"testing"
)

// Every number of a summary is in files once, but for the level of its intervals.
func TestSummaryColumnsAreComplete(t *testing.T) {
	const levels = 3
	var s Summary
	numbers := number(reflect.ValueOf(&s).Elem(), 0)
	seen := map[float64]string{}
	for _, c := range summaryColumns(true, true) {
		v, isNumber := c.Of(&s).(float64)
		if !isNumber {
			continue // what is said of a regret
		}
		if other := seen[v]; other != "" || v == 0 {
			t.Errorf("%s and %q show the same, or nothing: %v", c.Name, other, v)
		}
		seen[v] = c.Name
	}
	if len(seen) != numbers-levels {
		t.Errorf("%d of %d numbers are shown", len(seen), numbers-levels)
	}
}

// number gives every number under v a value of its own, from n+1 on, and returns
// the last.
func number(v reflect.Value, n int) int {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			n = number(v.Field(i), n)
		}
	case reflect.Array:
		for i := range v.Len() {
			n = number(v.Index(i), n)
		}
	case reflect.Float64:
		n++
		v.SetFloat(float64(n))
	}
	return n
}
