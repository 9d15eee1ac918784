package digest_test

import (
	"reflect"
	"testing"

	"loamcast/sim/digest"
	"loamcast/sim/digest/digesttest"
)

// shape is what may be of several types.
type shape interface{ area() float64 }

type (
	square struct{ Side float64 }
	circle struct{ Side float64 }
)

func (s square) area() float64 { return s.Side * s.Side }
func (c circle) area() float64 { return 3 * c.Side * c.Side }

// known is a value that knows its digest.
type known struct{ says, keeps int }

func (k *known) Digest() digest.Sum { return digest.Of(k.says) }

// all has something of each kind.
type all struct {
	Yes      bool
	Whole    int
	Small    int8
	Counted  uint64
	Number   float64
	Word     string
	List     []float64
	Nested   [2]struct{ Words []string }
	Pointer  *struct{ Number float64 }
	Several  shape
	Known    *known
	Pointers []*float64
}

// Whatever changes in a value, by the last bit of one number, it has another digest, and no
// two changes have the same; put back, it has the one that it had.
func TestAnyChangeMakesAnother(t *testing.T) {
	c := digesttest.Changer{Others: []any{square{1}, square{2}, circle{1}, &known{1, 1}, &known{2, 1}}}
	var v all
	for _, full := range []bool{false, true} {
		if full {
			c.Fill(reflect.ValueOf(&v).Elem())
		}
		usual := digest.Of(v)
		seen := map[digest.Sum]string{usual: "the value as it is"}
		c.Each(reflect.ValueOf(&v).Elem(), "v", func(path string) {
			sum := digest.Of(v)
			if other, ok := seen[sum]; ok {
				t.Errorf("%s: the same digest as %s", path, other)
			}
			seen[sum] = path
		})
		if least := map[bool]int{false: 16, true: 30}[full]; len(seen) < least {
			t.Errorf("only %d changes", len(seen)-1)
		}
		if digest.Of(v) != usual {
			t.Error("it is not what it was")
		}
	}
}

// Values that could be written alike have digests of their own, and so have fields that are
// not exported; what a value that knows its digest keeps beside it does not count.
func TestNoTwoAlike(t *testing.T) {
	one := 1.0
	hidden := func(n int) any { return struct{ n int }{n} }
	for _, pair := range [][2][]any{
		{{[]string{"ab", "c"}}, {[]string{"a", "bc"}}},
		{{[]int{1, 2}, []int{3}}, {[]int{1}, []int{2, 3}}},
		{{(*float64)(nil)}, {new(float64)}},
		{{&one, 0.0}, {(*float64)(nil), one}},
		{{struct{ shape }{square{1}}}, {struct{ shape }{circle{1}}}},
		{{struct{ shape }{}}, {struct{ shape }{square{}}}},
		{{hidden(1)}, {hidden(2)}},
		{{&known{1, 1}}, {&known{2, 1}}},
	} {
		if digest.Of(pair[0]...) == digest.Of(pair[1]...) {
			t.Errorf("%v and %v have the same digest", pair[0], pair[1])
		}
	}
	if digest.Of(&known{1, 1}) != digest.Of(&known{1, 2}) {
		t.Error("what is kept beside counts")
	}
}

// What has no digest is refused, wherever it lies, rather than left out.
func TestNoDigest(t *testing.T) {
	for _, v := range []any{func() {}, map[string]int{}, make(chan int), []any{1, func() {}}, struct{ f func() }{}} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%T has a digest", v)
				}
			}()
			digest.Of(v)
		}()
	}
}
