package process

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"hash"
	"math"
	"reflect"
)

// Physics identifies what the courses of a table follow from: tables of the same physics
// hold the same courses at the same points, as long as the program is the same.
type Physics [sha256.Size]byte

// Physics returns that of the table: a hash of every field of its model, to the last bit,
// and of how closely its courses are followed and where its points lie.
func (r *Responses) Physics() Physics {
	h := sha256.New()
	digest(h, reflect.ValueOf(r.m))
	for _, v := range []any{r.maxHours, r.steps, r.levels, r.grid, r.spacing, r.tipped, r.sized, r.asTheyAre} {
		digest(h, reflect.ValueOf(v))
	}
	return Physics(h.Sum(nil))
}

// digest adds a value and all that it is made of to a hash. Lists say how long they are
// and pointers whether there is anything, so that no two values are written alike.
func digest(h hash.Hash, v reflect.Value) {
	number := func(u uint64) { h.Write(binary.LittleEndian.AppendUint64(nil, u)) }
	switch {
	case v.Kind() == reflect.Bool:
		number(map[bool]uint64{true: 1}[v.Bool()])
	case v.CanInt():
		number(uint64(v.Int()))
	case v.CanUint():
		number(v.Uint())
	case v.CanFloat():
		number(math.Float64bits(v.Float()))
	case v.Kind() == reflect.String:
		number(uint64(v.Len()))
		h.Write([]byte(v.String()))
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			digest(h, v.Field(i))
		}
	case v.Kind() == reflect.Slice, v.Kind() == reflect.Array:
		number(uint64(v.Len()))
		for i := range v.Len() {
			digest(h, v.Index(i))
		}
	case v.Kind() == reflect.Pointer:
		number(map[bool]uint64{true: 1}[!v.IsNil()])
		if !v.IsNil() {
			digest(h, v.Elem())
		}
	default:
		panic(fmt.Sprintf("process: a model holds a %v, which has no hash", v.Type()))
	}
}
