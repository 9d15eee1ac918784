package cache

import (
	"encoding/binary"
	"fmt"
	"math"
	"math/bits"
	"reflect"
)

// What runs leave is written as words, one for each number: its bits, of a fraction in the
// order that puts what is mostly zero on top. A list is its length and one more, or 0 for
// none at all, and then what is in it; a pointer tells whether there is anything. Of each
// word only the bytes up to the highest that is not zero are written, and before all of
// them, in four bits each, how many these are. That takes a third of the room that the
// numbers do, a tenth of the time of a compressed form that names each of them, and there
// is nobody to read it but the program that wrote it.

// appendWords adds the words of a value. It panics if there is anything that is not
// exported plain data.
func appendWords(words []uint64, v reflect.Value) []uint64 {
	switch v.Kind() {
	case reflect.Float64:
		return append(words, bits.ReverseBytes64(math.Float64bits(v.Float())))
	case reflect.Int, reflect.Int64, reflect.Int32, reflect.Int16, reflect.Int8:
		return append(words, uint64(v.Int()))
	case reflect.Uint, reflect.Uint64, reflect.Uint32, reflect.Uint16, reflect.Uint8:
		return append(words, v.Uint())
	case reflect.Bool:
		if v.Bool() {
			return append(words, 1)
		}
		return append(words, 0)
	case reflect.String:
		words = append(words, uint64(v.Len()))
		for _, b := range []byte(v.String()) {
			words = append(words, uint64(b))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			words = appendWords(words, v.Field(i))
		}
	case reflect.Array:
		for i := range v.Len() {
			words = appendWords(words, v.Index(i))
		}
	case reflect.Slice:
		if v.IsNil() {
			return append(words, 0)
		}
		words = append(words, uint64(v.Len())+1)
		for i := range v.Len() {
			words = appendWords(words, v.Index(i))
		}
	case reflect.Pointer:
		if v.IsNil() {
			return append(words, 0)
		}
		words = appendWords(append(words, 1), v.Elem())
	default:
		panic(fmt.Sprintf("cache: a %v cannot be kept", v.Type()))
	}
	return words
}

// reader reads words in their order.
type reader struct {
	words []uint64
	short bool // more was asked for than there is
}

func (r *reader) next() uint64 {
	if len(r.words) == 0 {
		r.short = true
		return 0
	}
	w := r.words[0]
	r.words = r.words[1:]
	return w
}

// length returns that of something of which each takes a word or more.
func (r *reader) length(n uint64) int {
	if n > uint64(len(r.words)) {
		r.short = true
		return 0
	}
	return int(n)
}

// readWhole reads a value that is zero, and reports whether the words are what
// [appendWords] has written of it, and nothing else.
func readWhole(words []uint64, v reflect.Value) bool {
	in := reader{words: words}
	in.value(v)
	return !in.short && len(in.words) == 0
}

// value reads what [appendWords] has written into one of the same type that is zero.
func (r *reader) value(v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		v.SetFloat(math.Float64frombits(bits.ReverseBytes64(r.next())))
	case reflect.Int, reflect.Int64, reflect.Int32, reflect.Int16, reflect.Int8:
		v.SetInt(int64(r.next()))
	case reflect.Uint, reflect.Uint64, reflect.Uint32, reflect.Uint16, reflect.Uint8:
		v.SetUint(r.next())
	case reflect.Bool:
		v.SetBool(r.next() != 0)
	case reflect.String:
		text := make([]byte, r.length(r.next()))
		for i := range text {
			text[i] = byte(r.next())
		}
		v.SetString(string(text))
	case reflect.Struct:
		for i := range v.NumField() {
			r.value(v.Field(i))
		}
	case reflect.Array:
		for i := range v.Len() {
			r.value(v.Index(i))
		}
	case reflect.Slice:
		if n := r.next(); n > 0 {
			v.Set(reflect.MakeSlice(v.Type(), r.length(n-1), r.length(n-1)))
			for i := range v.Len() {
				r.value(v.Index(i))
			}
		}
	case reflect.Pointer:
		if r.next() != 0 {
			v.Set(reflect.New(v.Type().Elem()))
			r.value(v.Elem())
		}
	default:
		panic(fmt.Sprintf("cache: a %v cannot be read", v.Type()))
	}
}

const (
	wordSize = 8
	halfByte = 4
)

// pack adds words to bytes, without those that are zero.
func pack(out []byte, words []uint64) []byte {
	out = binary.LittleEndian.AppendUint64(out, uint64(len(words)))
	sizes := len(out)
	out = append(out, make([]byte, (len(words)+1)/2)...)
	for i, w := range words {
		n := (bits.Len64(w) + 7) / 8
		out[sizes+i/2] |= byte(n << (halfByte * (i % 2)))
		out = binary.LittleEndian.AppendUint64(out, w)[:len(out)+n]
	}
	return out
}

// unpack adds the words in bytes to others; ok is false if there is anything else in them.
func unpack(words []uint64, in []byte) (all []uint64, ok bool) {
	if len(in) < wordSize {
		return words, false
	}
	count := binary.LittleEndian.Uint64(in)
	in = in[wordSize:]
	if count > 2*uint64(len(in)) {
		return words, false
	}
	sizes := in[:(count+1)/2]
	in = in[len(sizes):]
	for i := range count {
		n := int(sizes[i/2] >> (halfByte * (i % 2)) & (1<<halfByte - 1))
		if n > min(wordSize, len(in)) {
			return words, false
		}
		w := uint64(0)
		if len(in) >= wordSize {
			w = binary.LittleEndian.Uint64(in) & (1<<(8*n) - 1)
		} else {
			for k := n - 1; k >= 0; k-- {
				w = w<<8 | uint64(in[k])
			}
		}
		words = append(words, w)
		in = in[n:]
	}
	return words, len(in) == 0
}
