package plant

import (
	"context"
	"fmt"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"loamcast/sim/random"
)

// addFigures adds all figures of a month to sums, by their names.
func addFigures(sums map[string]float64, name string, v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		sums[name] += v.Float()
	case reflect.Int:
		sums[name] += float64(v.Int())
	case reflect.Struct:
		for i := range v.NumField() {
			addFigures(sums, name+"."+v.Type().Field(i).Name, v.Field(i))
		}
	case reflect.Array, reflect.Slice:
		for i := range v.Len() {
			addFigures(sums, fmt.Sprintf("%s[%d]", name, i), v.Index(i))
		}
	}
}

// Random facilities of which the air is asked by the year do what they do otherwise, event
// by event: every figure of a month is the same to the last bit but those of the air, which
// are the same over the year (expected values from the runs by month).
func TestAirByYear(t *testing.T) {
	const enough = 40 // of them at a time, or as many as are asked for: each runs twice
	maker := newFacilityMaker(t)
	tried := 0
	rapid.Check(t, func(t *rapid.T) {
		if tried++; tried > enough && !askedFor {
			return
		}
		p := maker.plant(t)
		key := random.Key{Seed: rapid.Uint64().Draw(t, "seed")}
		year := func(p *Plant) (*Record, map[string]float64) {
			rec, err := p.Run(context.Background(), key)
			if err != nil {
				t.Fatal(err)
			}
			air := map[string]float64{}
			for i := range rec.Months {
				m := &rec.Months[i]
				addFigures(air, "losses", reflect.ValueOf(m.Losses))
				air["blowers"] += m.Work.BlowerEnergy
				m.Losses, m.Work.BlowerEnergy = MonthlyLosses{}, 0
			}
			return rec, air
		}
		want, wantAir := year(p)
		got, air := year(p.AirByYear())
		if got.Fingerprint != want.Fingerprint || !reflect.DeepEqual(got.Months, want.Months) {
			t.Errorf("%d events, want %d; months %+v, want %+v", got.Events, want.Events, got.Months, want.Months)
		}
		for name, want := range wantAir {
			if got := air[name]; !(math.Abs(got-want) <= 1e-9*math.Abs(want)+1e-6) {
				t.Errorf("%s: %g in the year, want %g", name, got, want)
			}
		}
	})
}
