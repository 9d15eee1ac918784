package digesttest

import "reflect"

// Reach returns how many bytes a value keeps from being let go: its own and those of all
// that it leads to, each once, with the room that lists have left. Maps and functions are
// counted as nothing but themselves.
func Reach(value any) int {
	seen := map[uintptr]bool{}
	var beyond func(v reflect.Value) int
	beyond = func(v reflect.Value) (n int) {
		switch v.Kind() {
		case reflect.Struct:
			for i := range v.NumField() {
				n += beyond(v.Field(i))
			}
		case reflect.Array:
			for i := range v.Len() {
				n += beyond(v.Index(i))
			}
		case reflect.String:
			n += v.Len()
		case reflect.Slice:
			if v.IsNil() || v.Cap() > 0 && seen[v.Pointer()] {
				return 0
			}
			seen[v.Pointer()] = true
			n += v.Cap() * int(v.Type().Elem().Size())
			for i := range v.Len() {
				n += beyond(v.Index(i))
			}
		case reflect.Pointer:
			if v.IsNil() || seen[v.Pointer()] {
				return 0
			}
			seen[v.Pointer()] = true
			n += int(v.Type().Elem().Size()) + beyond(v.Elem())
		case reflect.Interface:
			if !v.IsNil() {
				n += int(v.Elem().Type().Size()) + beyond(v.Elem())
			}
		}
		return n
	}
	v := reflect.ValueOf(value)
	return int(v.Type().Size()) + beyond(v)
}
