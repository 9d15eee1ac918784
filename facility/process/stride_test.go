package process

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// tight is the step of the reference, h: halving it once more changes no mass by
// more than 0.001 %.
const tight = 1. / 16

// TestTableStepsAgainstTightSteps shows what the comment on tableSteps says of steps that
// follow the course: how far they are, over random loads and all months, from
// short equal ones.
func TestTableStepsAgainstTightSteps(t *testing.T) {
	m, rng := DefaultVesselModel(), rand.New(rand.NewPCG(1, 2))
	var dry, water, moisture, hours float64
	steps := 0
	const loads = 60
	for i := range loads {
		p, month := randomLoad(rng), time.Month(1+i%12)
		got, want := m.start(p, month, math.NaN(), tableSteps), m.start(p, month, math.NaN(), fixed(tight))
		a, b := got.reduce(tableHours, even(tablePace)), want.reduce(tableHours, even(tablePace))
		dry = max(dry, math.Abs(got.parcel.Dry()-want.parcel.Dry())/p.Dry())
		water = max(water, math.Abs(got.parcel.Water-want.parcel.Water)/p.Water)
		moisture = max(moisture, math.Abs(got.parcel.Moisture()-want.parcel.Moisture()))
		for j := range a.met {
			if a.met[j].OK != b.met[j].OK {
				t.Errorf("load %d: %s %+v, want %+v", i, m.Criteria[j].Name, a.met[j], b.met[j])
			}
			hours = max(hours, math.Abs(a.met[j].Hours-b.met[j].Hours))
		}
		m.start(p, month, math.NaN(), tableSteps).advance(tableHours, func(*state) { steps++ })
	}
	t.Logf("dry %.4f %%, water %.4f %%, moisture %.4f points, %.2f h, %d steps a load", 100*dry, 100*water, 100*moisture, hours, steps/loads)
	if dry > 0.00004 || water > 0.0002 || moisture > 0.00011 || hours > 0.3 {
		t.Error("steps that follow the course stray further than their comment says")
	}
	if steps > 80*loads {
		t.Errorf("%d steps a load", steps/loads)
	}
}

// TestPileStepsAgainstTightSteps shows what the comment on tippedSteps says, of lots out of
// vessels at every twelve hours up to the longest that a plant keeps a lot: how far steps
// that follow the course, with straight lines between them, are from short equal ones.
func TestPileStepsAgainstTightSteps(t *testing.T) {
	const hours, loads = 120 * hoursPerDay, 30
	type off struct{ dry, water, moisture, temperature float64 }
	m, vessel, rng := tippedPad(), DefaultVesselModel(), rand.New(rand.NewPCG(41, 42))
	r := NewResponses(m, hours)
	r.levels = 0 // every lot is integrated
	var early, late off
	steps := 0
	for range loads {
		month := time.Month(1 + rng.IntN(12))
		out := course(t, vessel, plantLoad(rng, month), month, (6+14*rng.Float64())*hoursPerDay).Final()
		p, start := out.Parcel, m.Tipped.After(out.Temperature, m.Site.Temperature[month-1])
		s, err := r.from(p, month, start)
		if err != nil {
			t.Fatal(err)
		}
		m.start(p, month, start, fixed(0.25)).advance(hours, func(now *state) {
			if math.Mod(now.hours, 12) != 0 {
				return
			}
			q, o := p, &early
			if now.hours > brisk {
				o = &late
			}
			s.Apply(&q, 0, now.hours)
			o.dry = max(o.dry, math.Abs(q.Dry()-now.parcel.Dry())/p.Dry())
			o.water = max(o.water, math.Abs(q.Water-now.parcel.Water)/p.Water)
			o.moisture = max(o.moisture, math.Abs(q.Moisture()-now.parcel.Moisture()))
			o.temperature = max(o.temperature, math.Abs(s.Temperature(now.hours)-now.temperature))
		})
		m.start(p, month, start, tippedSteps).advance(hours, func(*state) { steps++ })
	}
	t.Logf("up to ten days %+v, later %+v, %d steps a lot", early, late, steps/loads)
	if early.dry > 0.0004 || early.water > 0.0045 || early.moisture > 0.0012 || early.temperature > 1.1 ||
		late.dry > 0.00018 || late.water > 0.0012 || late.moisture > 0.00035 || late.temperature > 0.4 {
		t.Error("steps of piles stray further than their comment says")
	}
	if steps > 75*loads {
		t.Errorf("%d steps a lot", steps/loads)
	}
}

// TestStrideFillsTheCourse shows that steps of any stride add up to the course, end where
// segments do and piles are or may be turned, keep within their bounds but where they are
// cut there or a segment may be over, at most double from one to the next, and are longer
// by half at most where they end at the setpoint.
func TestStrideFillsTheCourse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, p := drawModel(t), drawLoad(t)
		least := rapid.Float64Range(0.2, 1).Draw(t, "least, h")
		s := stride{least, rapid.Float64Range(least, 24).Draw(t, "most, h")}
		course := rapid.Float64Range(1, 400).Draw(t, "course, h")
		ends := map[float64]bool{course: true}
		hours := 0.0
		for _, segment := range m.Program[:len(m.Program)-1] {
			hours += segment.Hours
			ends[hours] = true
		}
		turned := map[float64]bool{}
		for _, at := range m.Turning.At {
			ends[at], turned[at] = true, true
		}
		r := m.start(p, time.May, math.NaN(), s)
		sum, from, before := 0.0, 0.0, stepInfo{length: s.least / growing, segment: -1}
		lay := 0.0
		r.advance(course, func(now *state) {
			rested := lay + m.Turning.Apart // when it may be turned for its heat
			h := now.last.length
			sum += h
			longest := max(min(s.most, growing*before.length), s.least)
			switch {
			case before.segment != now.last.segment || turned[from]:
				longest = s.least
			case s.most > s.least:
				longest *= stretched
			}
			if h > longest+2*sliver || h < s.least-sliver && !ends[now.hours] && !m.waits() && now.hours != rested {
				t.Fatalf("a step of %g h to hour %g after one of %g h", h, now.hours, before.length)
			}
			from, before, lay = now.hours, now.last, r.lay
		})
		if math.Abs(sum-course) > 1e-9*course || r.hours != course {
			t.Errorf("steps of %g h to hour %g in a course of %g", sum, r.hours, course)
		}
	})
}

// TestDriftLooksAhead shows that a rate which changes evenly is continued, whatever the
// lengths of the steps, and one that jumps is kept between half and twice itself.
func TestDriftLooksAhead(t *testing.T) {
	d := drift{rate: 4}.to(6, 2) // by 1 per h2
	for _, c := range []struct{ hours, want float64 }{{0, 6}, {1, 7}, {3, 9}, {100, 12}, {-100, 3}} {
		if got := d.ahead(c.hours); got != c.want {
			t.Errorf("%g h ahead: %g, want %g", c.hours, got, c.want)
		}
	}
	if got := (drift{rate: 4}).to(6, math.Inf(1)).ahead(5); got != 6 {
		t.Errorf("nothing known before: %g, want 6", got)
	}
}
