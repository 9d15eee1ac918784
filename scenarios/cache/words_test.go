package cache

import (
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"loamcast/facility/plant"
)

// fill puts anything at all into a value: numbers of any bits, lists that are empty or not
// there, words of any letters.
func fill(r *rand.Rand, v reflect.Value) {
	odd := []float64{0, math.Copysign(0, -1), math.Inf(1), math.Inf(-1), math.SmallestNonzeroFloat64, math.MaxFloat64, 1, -3, 240, 0.1}
	switch v.Kind() {
	case reflect.Float64:
		v.SetFloat(math.Float64frombits(r.Uint64())) // signs, what is no number, and which
		if r.IntN(2) == 0 {
			v.SetFloat(odd[r.IntN(len(odd))])
		}
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		v.SetInt(int64(r.Uint64()) >> r.IntN(64))
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		v.SetUint(r.Uint64() >> r.IntN(64))
	case reflect.Bool:
		v.SetBool(r.IntN(2) == 0)
	case reflect.String:
		text := make([]byte, r.IntN(12))
		for i := range text {
			text[i] = byte(r.Uint32())
		}
		v.SetString(string(text))
	case reflect.Struct:
		for i := range v.NumField() {
			fill(r, v.Field(i))
		}
	case reflect.Array, reflect.Slice:
		if v.Kind() == reflect.Slice && r.IntN(4) > 0 {
			n := r.IntN(4)
			v.Set(reflect.MakeSlice(v.Type(), n, n))
		}
		for i := range v.Len() {
			fill(r, v.Index(i))
		}
	case reflect.Pointer:
		if r.IntN(4) > 0 {
			v.Set(reflect.New(v.Type().Elem()))
			fill(r, v.Elem())
		}
	}
}

// same reports whether two values are the same to the last bit, and lists that are not
// there are in both.
func same(a, b reflect.Value) bool {
	switch a.Kind() {
	case reflect.Float64:
		return math.Float64bits(a.Float()) == math.Float64bits(b.Float())
	case reflect.Struct:
		for i := range a.NumField() {
			if !same(a.Field(i), b.Field(i)) {
				return false
			}
		}
		return true
	case reflect.Array, reflect.Slice:
		if a.Len() != b.Len() || a.Kind() == reflect.Slice && a.IsNil() != b.IsNil() {
			return false
		}
		for i := range a.Len() {
			if !same(a.Index(i), b.Index(i)) {
				return false
			}
		}
		return true
	case reflect.Pointer:
		return a.IsNil() == b.IsNil() && (a.IsNil() || same(a.Elem(), b.Elem()))
	}
	return a.Interface() == b.Interface()
}

// Whatever a run leaves comes back as it was, to the last bit.
func TestWordsKeepEveryBit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var left, back plant.Played
		fill(rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1)), reflect.ValueOf(&left).Elem())
		words, ok := unpack(nil, pack(nil, appendWords(nil, reflect.ValueOf(&left).Elem())))
		in := reader{words: words}
		in.value(reflect.ValueOf(&back).Elem())
		if !ok || in.short || len(in.words) > 0 || !same(reflect.ValueOf(left), reflect.ValueOf(back)) {
			t.Fatalf("%v, %v, %d words left: %+v, not %+v", ok, in.short, len(in.words), back, left)
		}
	})
}

// Words of any size come back, with others before them; bytes that are cut, or that go on,
// are no words, and nothing of a length that is not there is made.
func TestWordsAreWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 2))
		want := make([]uint64, rapid.IntRange(0, 40).Draw(t, "words"))
		for i := range want {
			want[i] = r.Uint64() >> (8 * r.IntN(9)) >> r.IntN(8)
		}
		bytes := pack(nil, want)
		if got, ok := unpack([]uint64{7}, bytes); !ok || !slices.Equal(got, append([]uint64{7}, want...)) {
			t.Fatalf("%v, not %v", got, want)
		}
		for n := range bytes {
			if got, ok := unpack(nil, bytes[:n]); ok {
				t.Fatalf("%d of %d bytes are taken for %v", n, len(bytes), got)
			}
		}
		if got, ok := unpack(nil, append(bytes, 0)); ok {
			t.Fatalf("a byte too many is taken for %v", got)
		}
	})
	var list []float64
	in := reader{words: []uint64{1 << 62, 3}}
	if in.value(reflect.ValueOf(&list).Elem()); !in.short || len(list) > 0 {
		t.Errorf("%d numbers are read from two words", len(list))
	}
}
