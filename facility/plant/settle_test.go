package plant

import (
	"context"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"loamcast/facility/material"
	"loamcast/sim/random"
)

// settleByTrying is settle without any knowledge of what can enable what: all stages are
// tried anew after each that has moved.
func (p *plant) settleByTrying() {
	p.syncHolding()
	for {
		p.again = false
		if !(p.storeCured() || p.startScreening() || p.takeOff() || p.toPlace() || p.bringBack() || p.startLoading() || p.startBatch() || p.again) {
			break
		}
	}
	p.explainWaits()
}

// Random facilities that try all stages after each that has moved, whenever a batch or a
// lot is done, a time is over or a shift opens, do what they do otherwise, event by event
// and to the last bit of every figure. In half of them product is mixed in and fills its
// store: taking it is what makes room for stages before.
func TestSettlesAsByTryingAll(t *testing.T) {
	const enough = 16 // of them at a time, or as many as are asked for: each runs twice
	maker := newFacilityMaker(t)
	tried, blocked := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		if tried++; tried > enough && !askedFor {
			return
		}
		p := maker.plant(t)
		if rapid.Bool().Draw(t, "too much product") {
			m := p.Model
			m.Product.Capacity = rapid.Float64Range(30, 100).Draw(t, "little room for it")
			m.Amendments = []Amendment{{Material: material.Spec{Name: "product"}, Source: FromProduct, Without: true, PerCake: repeat12(0.2)}}
			m.Opening = nil // without stores of other amendments
			var err error
			if p, err = p.With(m); err != nil {
				t.Fatal(err)
			}
		}
		key := random.Key{Seed: rapid.Uint64().Draw(t, "seed")}
		run := func(prepare func(*plant)) *Record {
			rec, err := p.play(context.Background(), 0, key, prepare)
			if err != nil {
				t.Fatal(err)
			}
			return rec
		}
		got := run(func(*plant) {})
		want := run(func(s *plant) {
			s.wake = func() {
				was := s.product.blocked
				s.settleByTrying()
				if was && !s.product.blocked {
					blocked++
				}
			}
			for i := range s.mixers.units {
				s.mixers.units[i].mixed = func() {
					s.releaseCrew(Loaders, Operators)
					s.dischargeBatch(s.loading, i)
					s.wake()
				}
			}
			for i := range s.screens.units {
				s.screens.units[i].screened = func() {
					s.releaseCrew(Loaders, Operators)
					s.emptyScreen(i)
					s.wake()
				}
			}
		})
		if got.Events != want.Events || got.Fingerprint != want.Fingerprint {
			t.Fatalf("%d events of trace %x, want %d of %x", got.Events, got.Fingerprint, want.Events, want.Fingerprint)
		}
		if !reflect.DeepEqual(got, want) {
			t.Errorf("%+v, want %+v", got, want)
		}
	})
	t.Logf("%d facilities, in which product mixed in let lots go on %d times", tried, blocked)
	if tried >= 100 && askedFor && blocked == 0 { // a short round may have none
		t.Error("no room was ever made")
	}
}
