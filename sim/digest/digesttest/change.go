package digesttest

import (
	"fmt"
	"math"
	"reflect"

	"loamcast/sim/digest"
)

// Changer changes values. Of what is not exported plain data it has others to put in its
// place, by type: for an interface each that implements it, for a [digest.Digested] each
// of its type.
type Changer struct{ Others []any }

// Fill puts something into everything that is empty: an entry into each list, and what it
// leads to into each pointer and interface, all the way down. v must be settable.
func (c Changer) Fill(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			c.Fill(v.Field(i))
		}
	case reflect.Array:
		for i := range v.Len() {
			c.Fill(v.Index(i))
		}
	case reflect.Slice:
		if v.Len() == 0 {
			v.Set(reflect.MakeSlice(v.Type(), 1, 1))
		}
		for i := range v.Len() {
			c.Fill(v.Index(i))
		}
	case reflect.Interface, reflect.Pointer:
		if others := c.others(v.Type()); len(others) > 0 {
			if v.IsNil() {
				v.Set(others[0])
			}
			return
		}
		if v.IsNil() {
			v.Set(reflect.New(v.Type().Elem()))
		}
		c.Fill(v.Elem())
	}
}

// others are those that may stand in a place of a type.
func (c Changer) others(of reflect.Type) (out []reflect.Value) {
	if of.Kind() != reflect.Interface && !of.Implements(reflect.TypeFor[digest.Digested]()) {
		return nil
	}
	for _, other := range c.Others {
		if v := reflect.ValueOf(other); v.Type().AssignableTo(of) {
			out = append(out, v)
		}
	}
	return out
}

// Each changes one thing of a value after the other, and all of it in the end: numbers by
// the least that a number can change, words, lists by an entry, pointers from nothing to
// something and back. It calls changed after each and puts back what was. v must be
// settable.
func (c Changer) Each(v reflect.Value, path string, changed func(path string)) {
	try := func(path string, change func()) {
		before := reflect.New(v.Type()).Elem()
		before.Set(v)
		change()
		changed(path)
		v.Set(before)
	}
	switch v.Kind() {
	case reflect.Bool:
		try(path, func() { v.SetBool(!v.Bool()) })
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		try(path, func() { v.SetInt(v.Int() + 1) })
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		try(path, func() { v.SetUint(v.Uint() + 1) })
	case reflect.Float64:
		try(path, func() { v.SetFloat(math.Nextafter(v.Float(), math.Inf(-1))) })
		if v.Float() == 0 {
			try(path+" (−0)", func() { v.SetFloat(-math.Copysign(0, v.Float())) })
		}
	case reflect.String:
		try(path, func() { v.SetString(v.String() + "x") })
	case reflect.Struct:
		for i := range v.NumField() {
			c.Each(v.Field(i), path+"."+v.Type().Field(i).Name, changed)
		}
	case reflect.Array, reflect.Slice:
		for i := range v.Len() {
			c.Each(v.Index(i), fmt.Sprintf("%s[%d]", path, i), changed)
		}
		if v.Kind() == reflect.Array {
			return
		}
		try(path+" (longer)", func() { v.Set(reflect.Append(v.Slice3(0, v.Len(), v.Len()), reflect.Zero(v.Type().Elem()))) })
		if v.Len() > 0 {
			try(path+" (shorter)", func() { v.Set(v.Slice(0, v.Len()-1)) })
		}
	case reflect.Interface, reflect.Pointer:
		c.eachThrough(v, path, changed, try)
	default:
		changed(path + " is of a kind that the test cannot change")
	}
}

// eachThrough changes where something leads.
func (c Changer) eachThrough(v reflect.Value, path string, changed func(path string), try func(string, func())) {
	others := c.others(v.Type())
	for i, other := range others {
		if v.IsNil() || !reflect.DeepEqual(v.Interface(), other.Interface()) {
			try(fmt.Sprintf("%s (%v, other %d)", path, other.Type(), i), func() { v.Set(other) })
		}
	}
	switch {
	case v.IsNil() && len(others) == 0:
		try(path+" (something)", func() { v.Set(reflect.New(v.Type().Elem())) })
	case v.IsNil():
	default:
		if len(others) == 0 {
			c.Each(v.Elem(), path, changed)
		}
		try(path+" (nothing)", func() { v.Set(reflect.Zero(v.Type())) })
	}
}
