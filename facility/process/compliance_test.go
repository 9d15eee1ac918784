package process

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// TestPathogenReductionEdges shows the edges of 55 °C for three consecutive days
// (40 CFR 257 App. II, read; 40 CFR 503 App. B, from memory).
func TestPathogenReductionEdges(t *testing.T) {
	c := PathogenReduction()
	for _, row := range []struct {
		name    string
		history []Reading
		want    Met
	}{
		{"72 h at 55 °C", []Reading{{72, 55}}, Met{72, true}},
		{"71.9 h at 55 °C", []Reading{{71.9, 55}}, Met{}},
		{"100 h at 54.9 °C", []Reading{{100, 54.9}}, Met{}},
		{"interrupted", []Reading{{71, 60}, {1, 54}, {71, 60}}, Met{}},
		{"after an interruption", []Reading{{10, 60}, {2, 54}, {80, 60}}, Met{84, true}},
		{"later", []Reading{{50, 20}, {40, 55}, {40, 58}}, Met{122, true}},
		{"nothing", nil, Met{}},
	} {
		if got := c.Evaluate(row.history); got.OK != row.want.OK || math.Abs(got.Hours-row.want.Hours) > 1e-9 {
			t.Errorf("%s: %+v, want %+v", row.name, got, row.want)
		}
	}
}

// TestShortSteps shows that many short readings count like one long one.
func TestShortSteps(t *testing.T) {
	for _, step := range []float64{0.1, 0.25, 1.0 / 3, 0.5, 2} {
		var history []Reading
		for i := 0; i < int(math.Round(72/step)); i++ {
			history = append(history, Reading{step, 55})
		}
		if got := PathogenReduction().Evaluate(history); !got.OK || math.Abs(got.Hours-72) > 1e-5 {
			t.Errorf("steps of %g h: %+v, want met at 72 h", step, got)
		}
	}
}

// TestVectorAttractionEdges shows 14 days above 40 °C with a mean above 45 °C
// (40 CFR 503.33(b)(5), from memory), and that a mean reached late counts from
// the window that has it.
func TestVectorAttractionEdges(t *testing.T) {
	c := VectorAttractionReduction()
	const day = hoursPerDay
	for _, row := range []struct {
		name    string
		history []Reading
		want    Met
	}{
		{"14 d at 46 °C", []Reading{{14 * day, 46}}, Met{14 * day, true}},
		{"14 d at 45 °C", []Reading{{14 * day, 45}}, Met{}},
		{"13.9 d at 60 °C", []Reading{{13.9 * day, 60}}, Met{}},
		{"40 °C is not above 40 °C", []Reading{{20 * day, 40}}, Met{}},
		{"broken", []Reading{{10 * day, 60}, {1, 39}, {10 * day, 60}}, Met{}},
		// 12 d at 41 then 55: the window's mean is 41 + 14·x/14 with x days at
		// 55, above 45 after 4 d.
		{"late", []Reading{{12 * day, 41}, {10 * day, 55}}, Met{16 * day, true}},
	} {
		if got := c.Evaluate(row.history); got.OK != row.want.OK || math.Abs(got.Hours-row.want.Hours) > 1e-3 {
			t.Errorf("%s: %+v, want %+v", row.name, got, row.want)
		}
	}
	c.Summed = true
	broken := []Reading{{10 * day, 60}, {5, 39}, {10 * day, 60}}
	if got := c.Evaluate(broken); !got.OK || math.Abs(got.Hours-(14*day+5)) > 1e-9 {
		t.Errorf("summed: %+v, want met at %d h", got, 14*day+5)
	}
}

// TestAboveIsNotAt shows that time at the temperature itself does not count where a
// criterion asks for time above it, and counts where it asks for that or more.
func TestAboveIsNotAt(t *testing.T) {
	const day = 24
	at := []Reading{{7 * day, 60}, {1, 40}, {7 * day, 60}} // an hour at 40 °C sharp
	above := VectorAttractionReduction()
	if got := above.Evaluate(at); got.OK {
		t.Errorf("above 40 °C for 14 days, an hour of them at 40 °C: %+v", got)
	}
	at[1].Temperature = math.Nextafter(40, 41)
	if got := above.Evaluate(at); !got.OK {
		t.Error("the least bit above 40 °C does not count as above")
	}
	hold := PathogenReduction()
	if got := hold.Evaluate([]Reading{{72, 55}}); !got.OK {
		t.Error("55 °C or more does not hold at 55 °C")
	}
}

// TestSignificantReduction shows 40 °C for five days with more than 55 °C for
// four hours within them (40 CFR 257 App. II, read).
func TestSignificantReduction(t *testing.T) {
	c := significantReduction()
	for _, row := range []struct {
		name    string
		history []Reading
		want    Met
	}{
		{"with peak", []Reading{{60, 40}, {4, 55.1}, {56, 40}}, Met{120, true}},
		{"short peak", []Reading{{60, 40}, {3.9, 55.1}, {60, 40}}, Met{}},
		{"peak at the limit", []Reading{{60, 40}, {10, 55}, {60, 40}}, Met{}},
		{"peak before the five days", []Reading{{5, 60}, {1, 39}, {130, 41}}, Met{}},
		{"peak after the five days", []Reading{{130, 41}, {5, 60}}, Met{134, true}},
	} {
		if got := c.Evaluate(row.history); got.OK != row.want.OK || math.Abs(got.Hours-row.want.Hours) > 1e-3 {
			t.Errorf("%s: %+v, want %+v", row.name, got, row.want)
		}
	}
}

// TestTimeTemperatureEquation shows the equation's durations against values
// derived from it (15A NCAC 02T .1106, read; 40 CFR 503.32(a)(3), from memory),
// its floors, and that fractions at changing temperature add up.
func TestTimeTemperatureEquation(t *testing.T) {
	for _, row := range []struct {
		c                 Criterion
		temperature, want float64 // °C, h
	}{
		{TimeTemperature(), 50, 13.170 * 24}, {TimeTemperature(), 55, 63.07},
		{TimeTemperature(), 60, 12.583}, {TimeTemperature(), 65, 2.511},
		{TimeTemperature(), 70, 30.06 / 60}, {TimeTemperature(), 71.3, 20.0 / 60},
		{TimeTemperature(), 80, 20.0 / 60},
		{TimeTemperatureThin(), 50, 120.17}, {TimeTemperatureThin(), 55, 23.977},
		{TimeTemperatureThin(), 60, 4.784}, {TimeTemperatureThin(), 80, 0.5},
	} {
		if got := row.c.Required(row.temperature); !within(got, row.want, 5e-4) {
			t.Errorf("%s at %g °C: %.4f h, want %.4f", row.c.Name, row.temperature, got, row.want)
		}
		held := []Reading{{row.c.Required(row.temperature), row.temperature}}
		if got := row.c.Evaluate(held); !got.OK {
			t.Errorf("%s at %g °C: not met by its own duration", row.c.Name, row.temperature)
		}
	}
	c := TimeTemperature()
	if !math.IsInf(c.Required(49.9), 1) {
		t.Error("time below 50 °C counts")
	}
	half := []Reading{{c.Required(55) / 2, 55}, {100, 49}, {c.Required(60) / 2, 60}}
	want := c.Required(55)/2 + 100 + c.Required(60)/2
	if got := c.Evaluate(half); !got.OK || math.Abs(got.Hours-want) > 1e-5 {
		t.Errorf("two halves: %+v, want met at %g h", got, want)
	}
}

// TestCriteriaAgainstReplay shows the trackers against a plain replay in short
// steps, over random histories.
func TestCriteriaAgainstReplay(t *testing.T) {
	criteria := []Criterion{PathogenReduction(), VectorAttractionReduction(), significantReduction()}
	for i := range criteria { // shorter, so that random histories meet them
		criteria[i].Hours /= 12
		criteria[i].PeakHours /= 4
	}
	seen := map[bool]int{}
	rapid.Check(t, func(t *rapid.T) {
		history := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Reading {
			return Reading{
				Hours:       float64(rapid.IntRange(1, 12).Draw(t, "hours")),
				Temperature: float64(rapid.IntRange(35, 62).Draw(t, "temperature")) + 0.5,
			}
		}), 0, 25).Draw(t, "history")
		for _, c := range criteria {
			got, want := c.Evaluate(history), replay(c, history)
			seen[got.OK]++
			if got.OK != want.OK || math.Abs(got.Hours-want.Hours) > 0.1 {
				t.Errorf("%s: %+v, replayed %+v", c.Name, got, want)
			}
		}
	})
	if seen[true] == 0 || seen[false] == 0 {
		t.Errorf("histories met or missed everything: %v", seen)
	}
}

// Shows that a history judged on from one that does not meet the criterion is judged as
// both together, whether the first is read or not; and that it is not where what follows
// begins below what counts.
func TestJudgingOn(t *testing.T) {
	criteria := []Criterion{PathogenReduction(), VectorAttractionReduction(), significantReduction(), TimeTemperature(), VectorAttractionReduction()}
	criteria[4].Name, criteria[4].Summed = "summed", true
	for i := range criteria { // shorter, so that random histories meet them
		criteria[i].Hours /= 16
		criteria[i].PeakHours /= 4
		criteria[i].Factor /= 4
	}
	histories := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Reading {
		return Reading{
			Hours:       float64(rapid.IntRange(1, 12).Draw(t, "hours")),
			Temperature: float64(rapid.IntRange(35, 62).Draw(t, "temperature")) + 0.5,
		}
	}), 0, 25)
	met, unread := map[string]int{}, map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		before, after := histories.Draw(t, "before"), histories.Draw(t, "after")
		hours := 0.0
		for _, r := range before {
			hours += r.Hours
		}
		for _, c := range criteria {
			if c.Evaluate(before).OK {
				continue
			}
			read := false
			got := c.JudgeOn(func(yield func(Reading) bool) {
				read = true
				slices.Values(before)(yield)
			}, hours, slices.Values(after), func(level float64) (most, until float64) {
				passed := 0.0
				for _, r := range after {
					most = max(most, r.Temperature)
					if passed += r.Hours; r.Temperature >= level {
						until = passed
					}
				}
				return most, until
			})
			want := c.Judge(slices.Values(before), slices.Values(after))
			if got.OK != want.OK || math.Abs(got.Hours-want.Hours) > 1e-9 {
				t.Errorf("%s: %+v, together %+v", c.Name, got, want)
			}
			if want.OK {
				met[c.Name]++
			}
			if !read {
				unread[c.Name]++
			}
		}
	})
	for _, c := range criteria {
		if met[c.Name] == 0 || (unread[c.Name] > 0) != (c.Kind != Lethality && !c.Summed) {
			t.Errorf("%s: met %d times, not read %d times", c.Name, met[c.Name], unread[c.Name])
		}
	}
}

// replay judges a history minute by minute from the definitions.
func replay(c Criterion, history []Reading) Met {
	const step = 1.0 / 20 // h
	var minutes []float64
	for _, r := range history {
		for range int(math.Round(r.Hours / step)) {
			minutes = append(minutes, r.Temperature)
		}
	}
	window := int(math.Round(c.Hours / step))
	run, weight := 0, make([]float64, len(minutes)+1)
	for i, temperature := range minutes {
		w, counts := 0.0, temperature >= c.Temperature
		switch c.Kind {
		case MeanAbove:
			w, counts = temperature, temperature > c.Temperature
		case HoldWithPeak:
			if temperature > c.Peak {
				w = 1
			}
		}
		weight[i+1] = weight[i] + w*step
		if run++; !counts {
			run = 0
		}
		if run < window {
			continue
		}
		inside := weight[i+1] - weight[i+1-window]
		met := c.Kind == Hold ||
			c.Kind == MeanAbove && inside > c.Mean*c.Hours+1e-6 ||
			c.Kind == HoldWithPeak && inside >= c.PeakHours-1e-6
		if met {
			return Met{Hours: float64(i+1) * step, OK: true}
		}
	}
	return Met{}
}
