package process

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"loamcast/facility/material"
)

// tippedPad is a plant's pad on which lots begin at what they were tipped with.
func tippedPad() *Model {
	m := DefaultCuringModel()
	m.Criteria = nil
	h := DefaultHandling()
	m.Tipped = &h
	return m
}

// pile is a load that was in a vessel and is tipped onto a pad.
type pile struct {
	vessel []Reading
	stay   float64 // in the vessel, h
	tipped material.Parcel
	month  time.Month
	start  float64 // °C, on the pad
}

// drawPile draws a plant's load, and how long it is in a vessel.
func drawPile(t *testing.T, rng *rand.Rand, pad *Model, leastDays, mostDays float64) *pile {
	t.Helper()
	month := time.Month(1 + rng.IntN(12))
	load := plantLoad(rng, month)
	c := course(t, DefaultVesselModel(), load, month, (leastDays+(mostDays-leastDays)*rng.Float64())*hoursPerDay)
	out := c.Final()
	return &pile{c.History(), out.Hours, out.Parcel, month, pad.Tipped.After(out.Temperature, pad.Site.Temperature[month-1])}
}

// courses returns the history of vessel and pad by integration, and the course on the pad by
// the table.
func (x *pile) courses(t *testing.T, r *Responses) (history []Reading, told Response) {
	t.Helper()
	whole, err := r.m.CourseFrom(x.tipped, x.month, r.maxHours, x.start)
	if err != nil {
		t.Fatal(err)
	}
	if told, err = r.from(x.tipped, x.month, x.start); err != nil {
		t.Fatal(err)
	}
	return append(x.vessel, whole.History()...), told
}

// met judges vessel and pad together by the table.
func (x *pile) met(c Criterion, told *Response) Met {
	return c.Judge(slices.Values(x.vessel), told.Readings(told.table.maxHours))
}

// TestTableKnowsTippedTemperature shows the bound of the table of a pad on which lots
// begin at what they were tipped with, from frozen to hot, still and turned: masses
// within 0.5 %, and the hour at which a period above 40 °C with a mean above 45 °C ends
// within two.
func TestTableKnowsTippedTemperature(t *testing.T) {
	criterion := VectorAttractionReduction()
	turned := tippedPad()
	turned.Turning = DefaultTurning()
	hot := tippedPad()
	hot.Turning = Turning{Above: 45, Apart: DefaultApart, Loses: DefaultHandling()}
	for _, c := range []struct {
		name string
		m    *Model
	}{{"still", tippedPad()}, {"turned by the clock", turned}, {"turned when hot", hot}} {
		t.Run(c.name, func(t *testing.T) {
			r := NewResponses(c.m, 60*hoursPerDay)
			rng := rand.New(rand.NewPCG(31, 32))
			var worst deviation
			off, met := 0.0, 0
			for i := range 60 {
				x := drawPile(t, rng, c.m, 6, 20)
				if i%6 == 0 {
					x.start = -20 + 80*rng.Float64()
				}
				worst = worst.worst(deviationFrom(t, r, x.tipped, x.month, x.start))
				history, told := x.courses(t, r)
				want, got := criterion.Evaluate(history), x.met(criterion, &told)
				if want.OK && got.OK {
					met++
					off = max(off, math.Abs(want.Hours-got.Hours))
				} else if want.OK != got.OK && !nearlySo(criterion, history, got.OK) {
					t.Errorf("load %d of %v from %.1f °C after %g h: met %v, by the table %v", i, x.month, x.start, x.stay, want, got)
				}
			}
			standard, direct := r.integrated()
			t.Logf("worst %+v, criterion off by %.2g h in %d, %d standard loads, %d integrated on their own", worst, off, met, standard, direct)
			if worst.dry > 0.005 || worst.water > 0.005 || off > 2 || met == 0 {
				t.Errorf("the table strays from integration: %+v, %g h", worst, off)
			}
		})
	}
}

// TestTableOverManyPiles shows how often the table of such a pad keeps these bounds, over
// more loads than a plant makes in years, from those that were in a vessel for six days only
// to cold ones: of 1,000 (-wide 1000) four stray by more, by 0.92 % of the water at most, two
// meet the criterion more than two hours sooner or later than integration has it, one of
// which holds a temperature by a hair, and none is judged otherwise.
func TestTableOverManyPiles(t *testing.T) {
	loads := *wide
	if loads == 0 {
		loads = 300
	}
	criterion, r := VectorAttractionReduction(), NewResponses(tippedPad(), 60*hoursPerDay)
	rng := rand.New(rand.NewPCG(131, 32))
	var worst deviation
	broken, off, otherwise := 0, 0, 0
	for i := range loads {
		x := drawPile(t, rng, r.m, 6, 20)
		if i%6 == 0 {
			x.start = -20 + 80*rng.Float64()
		}
		d := deviationFrom(t, r, x.tipped, x.month, x.start)
		if worst = worst.worst(d); d.dry > 0.005 || d.water > 0.005 {
			broken++
		}
		history, told := x.courses(t, r)
		want, got := criterion.Evaluate(history), x.met(criterion, &told)
		switch {
		case want.OK && got.OK && math.Abs(want.Hours-got.Hours) > 2:
			off++
		case want.OK != got.OK && !nearlySo(criterion, history, got.OK):
			otherwise++
		}
	}
	standard, direct := r.integrated()
	t.Logf("%d of %d loads break the bounds of masses, %d that of hours, %d are judged otherwise, worst %+v, %d standard loads, %d integrated on their own",
		broken, loads, off, otherwise, worst, standard, direct)
	if 100*broken > loads || 200*off > loads || 500*otherwise > loads || worst.dry > 0.005 || worst.water > 0.01 {
		t.Error("the table of the pad strays from integration")
	}
}

// TestNoPilePassesByAHair shows that what is asked of a course that a table tells makes none
// pass that integration does not, in many loads on a pad whose air holds just the mean that
// is asked for, where without it some do; and that nearly all pass that do: of 3,000 loads
// 1,952 pass, 56 of which are told not to, none of the others is told to, and 280 would be.
func TestNoPilePassesByAHair(t *testing.T) {
	const loads = 200
	criterion, pad := VectorAttractionReduction(), tippedPad()
	pad.Program[0].Setpoint = criterion.Mean
	r := NewResponses(pad, 60*hoursPerDay)
	rng := rand.New(rand.NewPCG(45, 46))
	passes, kind, kindly, missing := 0, 0, 0, 0
	for range loads {
		x := drawPile(t, rng, pad, 6, 14)
		history, told := x.courses(t, r)
		surely := x.met(criterion.Surely(), &told).OK
		switch {
		case criterion.Evaluate(history).OK:
			passes++
			if !surely {
				missing++
			}
		case surely:
			kindly++
		case x.met(criterion, &told).OK:
			kind++
		}
	}
	t.Logf("%d of %d loads pass, of which %d are told not to; of the others %d are told to, %d but for what is asked of tables", passes, loads, missing, kindly, kind)
	if kindly > 0 || kind == 0 || 20*missing > passes {
		t.Error("piles are judged by a hair")
	}
}
