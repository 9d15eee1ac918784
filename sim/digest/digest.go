package digest

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"math"
	"reflect"
)

// Sum is the digest of some values.
type Sum [sha256.Size]byte

// Digested is a value that knows its own digest, since it takes long to work out, or more
// of it is kept than what it says. Its fields are not looked at.
type Digested interface{ Digest() Sum }

// Of returns the digest of some values in their order. It panics if there is anything in
// them that has no digest, such as a function or a map.
func Of(values ...any) Sum {
	w := writer{make([]byte, 0, 1<<12)}
	for _, v := range values {
		w.value(reflect.ValueOf(v))
	}
	return sha256.Sum256(w.out)
}

// writer writes values so that no two are written alike.
type writer struct{ out []byte }

func (w *writer) number(u uint64) { w.out = binary.LittleEndian.AppendUint64(w.out, u) }

func (w *writer) flag(is bool) {
	b := byte(0)
	if is {
		b = 1
	}
	w.out = append(w.out, b)
}

func (w *writer) text(s string) {
	w.number(uint64(len(s)))
	w.out = append(w.out, s...)
}

var digested = reflect.TypeFor[Digested]()

// value writes a value and all that it is made of. Lists say how long they are, pointers
// whether there is anything, and what may be of several types of which it is.
func (w *writer) value(v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64, reflect.Float32:
		w.number(math.Float64bits(v.Float()))
	case reflect.Int, reflect.Int64, reflect.Int32, reflect.Int16, reflect.Int8:
		w.number(uint64(v.Int()))
	case reflect.Uint, reflect.Uint64, reflect.Uint32, reflect.Uint16, reflect.Uint8:
		w.number(v.Uint())
	case reflect.Bool:
		w.flag(v.Bool())
	case reflect.String:
		w.text(v.String())
	case reflect.Struct:
		for i := range v.NumField() {
			w.value(v.Field(i))
		}
	case reflect.Slice, reflect.Array:
		w.number(uint64(v.Len()))
		for i := range v.Len() {
			w.value(v.Index(i))
		}
	case reflect.Pointer:
		w.flag(!v.IsNil())
		switch {
		case v.IsNil():
		case v.Type().Implements(digested):
			sum := v.Interface().(Digested).Digest()
			w.out = append(w.out, sum[:]...)
		default:
			w.value(v.Elem())
		}
	case reflect.Interface:
		w.flag(!v.IsNil())
		if !v.IsNil() {
			w.text(v.Elem().Type().String())
			w.value(v.Elem())
		}
	default:
		panic(fmt.Sprintf("digest: there is a %v, which has none", v.Type()))
	}
}
