package picture

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"time"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"

	"loamcast/facility/process"
	"loamcast/scenarios/cycleplan"
	"loamcast/scenarios/units"
)

// cycleAnswer is a course with invented figures: up to 60 °C, then down to frost.
func cycleAnswer() *cycleplan.Answer {
	l := cycleplan.Load{
		Month: time.January, CuringMonth: time.February, Stay: 240, Cured: 240, Complies: true,
		Criteria: []cycleplan.Criterion{
			{Criterion: process.PathogenReduction(), Met: cycleplan.Moment{OK: true, Hours: 120}},
			{Criterion: process.VectorAttractionReduction()},
		},
		Passes: cycleplan.Moment{OK: true, Hours: 48},
		Segments: []cycleplan.Segment{
			{Name: "hold", To: 240, Setpoint: 60}, {Name: "cure", From: 240, To: 480, Setpoint: math.Inf(1)},
		},
	}
	for h := 1.0; h <= 480; h++ {
		t := 60 - math.Abs(h-150)/5
		l.Samples = append(l.Samples, cycleplan.Row{Hours: h, OnPad: h > 240, Temperature: t,
			Moisture: 0.6 - h/5000, DryLeft: 1 - h/3000, Flow: 100 + h, Oxygen: 15})
	}
	return &cycleplan.Answer{Facility: "Fennick Valley", Invented: true, Landmark: 55, Loads: []cycleplan.Load{l, l}}
}

// The pictures of a course and of months say in words what they show, in the
// units asked for, and come out the same twice.
func TestCyclePictures(t *testing.T) {
	a := cycleAnswer()
	for _, c := range []struct {
		sys   units.System
		words []string // one set for each picture
	}{
		{units.US, []string{"131 °F, pathogen|setpoint|to the pad|113 °F, mean|invented data", "dry solids left|moisture", "air flow, cfm|oxygen, % by volume", "first 131 °F|leaves the vessel"}},
		{units.SI, []string{"55 °C, pathogen|setpoint|to the pad|45 °C, mean|invented data", "dry solids left|moisture", "air flow, m³/h|oxygen, % by volume", "first 55 °C|leaves the vessel"}},
	} {
		list := append(Cycle(a, c.sys), CycleMonths(a, c.sys)...)
		again := append(Cycle(a, c.sys), CycleMonths(a, c.sys)...)
		if len(list) != len(c.words) {
			t.Fatalf("%d pictures", len(list))
		}
		for i, p := range list {
			svg, err := p.SVG()
			if err != nil {
				t.Fatal(err)
			}
			for _, word := range strings.Split(c.words[i], "|") {
				if !bytes.Contains(svg, []byte(word)) {
					t.Errorf("%s %v: %q is not in it", p.Name, c.sys, word)
				}
			}
			if twice, _ := again[i].SVG(); !bytes.Equal(svg, twice) {
				t.Errorf("%s differs when drawn again", p.Name)
			}
			png, err := p.PNG()
			if err != nil || !bytes.HasPrefix(png, []byte("\x89PNG")) {
				t.Errorf("%s: no PNG (%v)", p.Name, err)
			}
		}
	}
}

// A pile that freezes lies within the axis, and thresholds that criteria share
// are drawn once.
func TestCycleAxisAndThresholds(t *testing.T) {
	c := course{a: cycleAnswer(), sys: units.SI}
	c.l = &c.a.Loads[0]
	if least := c.temperature().least(); math.Abs(least-(-6)) > 1e-9 {
		t.Errorf("least %g °C, want -6", least)
	}
	same := append(c.l.Criteria, cycleplan.Criterion{Criterion: process.Criterion{
		Kind: process.HoldWithPeak, Temperature: 40, Hours: 120, Peak: 55, PeakHours: 4}}) // 40 and 55 °C again
	if got := thresholds(same); len(got) != 3 {
		t.Errorf("thresholds %v", got)
	}
}

// A curve breaks where a value is not a number.
func TestCurveBreaks(t *testing.T) {
	var r recorder.Canvas
	p := plot.New()
	p.X.Max, p.Y.Max = 4, 4
	l := curve{x: []float64{0, 1, 2, 3, 4}, y: []float64{1, 2, math.NaN(), 2, 1}, style: stroke(black, 1, solid)}
	l.Plot(draw.NewCanvas(&r, vg.Length(100), vg.Length(100)), p)
	strokes := 0
	for _, action := range r.Actions {
		if _, ok := action.(*recorder.Stroke); ok {
			strokes++
		}
	}
	if strokes != 2 {
		t.Errorf("%d strokes, want 2", strokes)
	}
}

// Twenty or so days are named, however long the course.
func TestDayTicks(t *testing.T) {
	for _, end := range []float64{0.5, 3, 18, 63, 200, 700} {
		ticks := dayTicks(end)
		if n := len(ticks); n < 1 || n > 22 || ticks[n-1].Value > end+1e-6 {
			t.Errorf("%g days: %d ticks up to %g", end, n, ticks[n-1].Value)
		}
	}
}
