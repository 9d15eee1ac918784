package material

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// What weighs and takes room is linear in the parts of a mix, and gives its mass and
// volume.
func TestMatterOfMixes(t *testing.T) {
	b := DefaultBulk()
	rapid.Check(t, func(t *rapid.T) {
		p, q := richParcel(t), richParcel(t)
		a := rapid.Float64Range(0, 10).Draw(t, "a")
		mix := p.Plus(q.Times(a))
		m := p.Matter().PlusTimes(q.Matter(), a)
		if got, want := m.Total(), mix.Total(); math.Abs(got-want) > 1e-12*want {
			t.Fatalf("a mix of %g kg weighs %g", want, got)
		}
		if got, want := b.VolumeOfMatter(m), b.Volume(mix); math.Abs(got-want) > 1e-9*want {
			t.Fatalf("a mix of %g m3 takes %g", want, got)
		}
	})
}

// What is done in place, for who does it often, is to the last bit what is done with
// parcels that come and go: sums, mixtures, parts taken, and what the ledger books.
func TestInPlaceIsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q, r := richParcel(t), richParcel(t), richParcel(t)
		a := rapid.Float64Range(0, 10).Draw(t, "a")

		sum := p
		if sum.Mix(&q); sum != p.Plus(q) {
			t.Fatalf("%+v mixed with %+v in place is %+v", p, q, sum)
		}
		if f := a / 10; f > 0 && f < 1 {
			left, taken := p, q
			left.TakeTo(&taken, f)
			if want := p.Times(f); taken != want || left != p.Minus(want) {
				t.Fatalf("%g of %+v is %+v, and %+v is left", f, p, taken, left)
			}
		}
		one, other, across := Ledger{}, Ledger{}, Path(0)
		for _, l := range []*Ledger{&one, &other} {
			across = l.Path("across", Outside, l.Account("heap", Components{}))
		}
		for _, x := range []*Parcel{&p, &q, &r} {
			one.Book(across, x.Components())
			other.BookParcel(across, x)
		}
		all := p.Plus(q).Plus(r)
		x, err1 := one.Close([]Components{all.Components()})
		y, err2 := other.Close([]Components{all.Components()})
		if err1 != nil || err2 != nil || x.Flows[across] != y.Flows[across] {
			t.Fatalf("booked %+v and %+v, %v and %v", x.Flows, y.Flows, err1, err2)
		}
	})
}
