package process

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

// eachChange changes one thing of a value after the other, and all of it in the end:
// numbers by the least that a number can change, words, lists by an entry, pointers from
// nothing to something and back. It calls changed after each and puts back what was.
func eachChange(v reflect.Value, path string, changed func(path string)) {
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
	case reflect.Int, reflect.Int8, reflect.Int64:
		try(path, func() { v.SetInt(v.Int() + 1) })
	case reflect.Float64:
		try(path, func() { v.SetFloat(math.Nextafter(v.Float(), math.Inf(-1))) })
		if v.Float() == 0 {
			try(path+" (−0)", func() { v.SetFloat(-math.Copysign(0, v.Float())) })
		}
	case reflect.String:
		try(path, func() { v.SetString(v.String() + "x") })
	case reflect.Struct:
		for i := range v.NumField() {
			eachChange(v.Field(i), path+"."+v.Type().Field(i).Name, changed)
		}
	case reflect.Array:
		for i := range v.Len() {
			eachChange(v.Index(i), fmt.Sprintf("%s[%d]", path, i), changed)
		}
	case reflect.Slice:
		for i := range v.Len() {
			eachChange(v.Index(i), fmt.Sprintf("%s[%d]", path, i), changed)
		}
		try(path+" (longer)", func() { v.Set(reflect.Append(v.Slice3(0, v.Len(), v.Len()), reflect.Zero(v.Type().Elem()))) })
		if v.Len() > 0 {
			try(path+" (shorter)", func() { v.Set(v.Slice(0, v.Len()-1)) })
		}
	case reflect.Pointer:
		if v.IsNil() {
			try(path+" (something)", func() { v.Set(reflect.New(v.Type().Elem())) })
			return
		}
		eachChange(v.Elem(), path, changed)
		try(path+" (nothing)", func() { v.Set(reflect.Zero(v.Type())) })
	default:
		changed(path + " is of a kind that the test cannot change")
	}
}

// Whatever changes in a model, by the last bit of one number, makes other physics, and no
// two changes the same; put back, it is the same again.
func TestAnyChangeMakesOtherPhysics(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawModel(t)
		r := NewResponses(m, 400)
		usual := r.Physics()
		seen, before := map[Physics]string{usual: "the model as it is"}, ""
		eachChange(reflect.ValueOf(m).Elem(), "Model", func(path string) {
			physics := r.Physics()
			if other, ok := seen[physics]; ok {
				t.Fatalf("%s: the same physics as %s", path, other)
			}
			seen[physics], before = path, path
		})
		if len(seen) < 80 {
			t.Fatalf("only %d changes", len(seen)-1)
		}
		if r.Physics() != usual {
			t.Fatalf("after %s the physics are not what they were", before)
		}
	})
}

// Tables of one model that reach farther, or are for drying, have other courses, and so
// have other physics; two tables of models that are alike have the same.
func TestPhysicsOfTables(t *testing.T) {
	seen := map[Physics]string{}
	for name, r := range map[string]*Responses{
		"20 days": NewResponses(DefaultVesselModel(), 480), "30 days": NewResponses(DefaultVesselModel(), 720),
		"drying": NewDryingResponses(DefaultVesselModel(), 100, 480), "more air": NewDryingResponses(DefaultVesselModel(), 101, 480),
		"dries as any other": NewResponses(DefaultVesselModel().Dries(100), 480),
	} {
		if other, ok := seen[r.Physics()]; ok {
			t.Errorf("%s and %s have the same physics", name, other)
		}
		seen[r.Physics()] = name
	}
	if seen[NewResponses(DefaultVesselModel(), 480).Physics()] != "20 days" {
		t.Error("a table of a model that is alike has other physics")
	}
}
