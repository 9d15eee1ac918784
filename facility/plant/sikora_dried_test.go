package plant

import (
	"math"
	"testing"
	"time"

	"loamcast/facility/material"
	"loamcast/facility/process"
	"loamcast/facility/release"
)

// The published whole balance again (see [TestPublishedWholeBalance]), dried by the
// plant's own air on the pad: all outputs are within 10 % of the published ones, wet and
// dry product and its volume included, by the rates that a file has by default and by
// those of a curve that rises and falls. It is dried to the moisture that the published
// figures have: 10.4 t of product with the dry mass of 27.2 t of cake of 23 % solids
// (derived; the solids are the test's assumption) hold 40 % of water.
//
// It takes some 46 days with 200 m3/t·h in spring, the most that blowers give in
// practice: little heat is left after 21 days, and the air has to bring what evaporates
// the water. The plants of those years spread the compost out in the sun instead. The
// charge of chips is the one free parameter.
func TestPublishedWholeBalanceDriedByThePlant(t *testing.T) {
	if testing.Short() {
		t.Skip("runs in the round without -short; dries lots for weeks of their own courses")
	}
	for _, c := range []struct {
		name    string
		rates   process.Kinetics
		rapidly float64
	}{{"lively", process.LivelyKinetics(), 0.12}, {"rise and fall", process.DefaultKinetics(), 0}} {
		t.Run(c.name, func(t *testing.T) {
			days := 0.0
			driedByAir := func(t *testing.T, pile *process.Model, composted material.Parcel) (product material.Parcel) {
				product, days = driedByAir(t, pile, composted)
				return product
			}
			best, worst := 0.0, math.Inf(1)
			for ratio := 1.4; ratio < 1.75; ratio += 0.015 {
				if w := sikora(t, ratio, c.rates, c.rapidly, driedByAir).worst(); w < worst {
					best, worst = ratio, w
				}
			}
			got := sikora(t, best, c.rates, c.rapidly, driedByAir)
			t.Logf("chips charged: %.2f volumes per volume of cake; dried for %.0f days", best, days)
			for _, o := range got {
				off := o.got/o.published - 1
				t.Logf("%-42s published %6.2f, simulated %6.2f (%+.1f %%)", o.name, o.published, o.got, 100*off)
				if math.Abs(off) > 0.10 {
					t.Errorf("%s: %.3g, published %.3g", o.name, o.got, o.published)
				}
			}
		})
	}
}

// driedByAir cures a batch, and dries it on the pad until it is as dry as the product
// of the published plant. It returns the days that this takes, too.
func driedByAir(t *testing.T, pile *process.Model, composted material.Parcel) (material.Parcel, float64) {
	const (
		air     = 200      // m3/h per dry tonne
		enough  = 1 - 0.60 // published, see above
		longest = 90 * 24  // h
		load    = 18000    // kg
	)
	n := composted.Total() / load
	cured, err := pile.Course(composted.Times(1/n), time.May, curedDays*24)
	if err != nil {
		t.Fatal(err)
	}
	end := cured.Final()
	drying := pile.Dries(air)
	follow := func(hours float64) *process.Course {
		c, err := drying.CourseFrom(end.Parcel, time.May, hours, drying.DriesFrom(end.Temperature))
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	hours, ok := release.Dry(follow(longest).MoistureAt, enough, longest)
	if !ok {
		t.Fatalf("not dry after %d h", longest)
	}
	return follow(hours).Final().Parcel.Times(n), hours / 24
}
