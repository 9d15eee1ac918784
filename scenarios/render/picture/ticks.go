package picture

import (
	"fmt"
	"math"
	"time"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"

	"loamcast/scenarios/document"
	"loamcast/scenarios/units"
)

// valueTicks divides 0…most into four to eight round steps and returns the
// ticks; the last is at or above most. Whole asks for whole numbers.
func valueTicks(most float64, whole bool) plot.ConstantTicks {
	if !(most > 0) || math.IsInf(most, 0) {
		most = 1
	}
	step := roundStep(most / 8)
	if whole {
		step = math.Max(1, step)
	}
	var ticks plot.ConstantTicks
	for i := 0; ; i++ {
		v := float64(i) * step
		ticks = append(ticks, plot.Tick{Value: v, Label: units.FormatNumber(v)})
		if v >= most*(1-1e-9) {
			return ticks
		}
	}
}

// roundStep returns the least 1, 2 or 5 times a power of ten that is not less
// than x.
func roundStep(x float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(x)))
	for _, m := range []float64{1, 2, 5} {
		if m*power >= x*(1-1e-9) {
			return m * power
		}
	}
	return 10 * power
}

// axisRoom is about the length of the horizontal axis, and labelGap the least
// space between two of its labels.
const (
	axisRoom vg.Length = 660
	labelGap vg.Length = 14
)

// every returns how many of n labels to skip from one to the next so that they
// fit: 1, 2, 5, 10, …
func every(n int, width vg.Length) int {
	most := float64(axisRoom / (width + labelGap))
	if float64(n) <= most {
		return 1
	}
	return int(roundStep(float64(n) / most))
}

// labelTicks marks label i at i, and names as many as fit.
func labelTicks(labels []string) plot.ConstantTicks {
	style := lettering(textSize, ink)
	var widest vg.Length
	for _, l := range labels {
		widest = max(widest, style.Width(l))
	}
	step := every(len(labels), widest)
	ticks := make(plot.ConstantTicks, len(labels))
	for i, l := range labels {
		ticks[i].Value = float64(i)
		if i%step == 0 {
			ticks[i].Label = l
		}
	}
	return ticks
}

// longestByMonth is the greatest number of months that are named themselves.
const longestByMonth = 36

// monthTicks marks the beginning of months, month i at i: quarters by name over a
// few years, each January with its year over longer times.
func monthTicks(months []document.YearMonth) plot.ConstantTicks {
	if len(months) <= longestByMonth {
		return quarterTicks(months)
	}
	width := lettering(textSize, ink).Width("2000")
	step := every((len(months)+11)/12, width)
	var ticks plot.ConstantTicks
	named := 0
	for i, m := range months {
		if time.Month(m.Month) != time.January {
			continue
		}
		t := plot.Tick{Value: float64(i)}
		if named%step == 0 {
			t.Label = fmt.Sprint(m.Year)
		}
		named++
		ticks = append(ticks, t)
	}
	return ticks
}

func quarterTicks(months []document.YearMonth) plot.ConstantTicks {
	ticks := make(plot.ConstantTicks, len(months))
	for i, m := range months {
		ticks[i].Value = float64(i)
		if (m.Month-1)%3 != 0 {
			continue
		}
		ticks[i].Label = time.Month(m.Month).String()[:3]
		if time.Month(m.Month) == time.January || i < 3 {
			ticks[i].Label += fmt.Sprintf(" %d", m.Year)
		}
	}
	return ticks
}

// roundTicks marks round numbers: each, or each second, fifth, … so that some
// twenty fit.
func roundTicks(from, to float64) plot.ConstantTicks {
	step := max(1, roundStep((to-from)/20))
	var ticks plot.ConstantTicks
	for v := math.Ceil(from/step) * step; v <= to*(1+1e-9); v += step {
		ticks = append(ticks, plot.Tick{Value: v, Label: fmt.Sprintf("%g", v)})
	}
	return ticks
}
