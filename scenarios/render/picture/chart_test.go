package picture

import (
	"strconv"
	"testing"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"pgregory.net/rapid"

	"loamcast/scenarios/document"
)

// Ticks are round, begin at zero, end at or above the greatest value, and are
// neither too few nor too many.
func TestValueTicks(t *testing.T) {
	for _, c := range []struct {
		most  float64
		whole bool
		want  []string
	}{
		{16.2, true, []string{"0", "5", "10", "15", "20"}},
		{2, true, []string{"0", "1", "2"}},
		{0, true, []string{"0", "1"}},
		{3030, false, []string{"0", "500", "1,000", "1,500", "2,000", "2,500", "3,000", "3,500"}},
		{0.7, false, []string{"0", "0.1", "0.2", "0.3", "0.4", "0.5", "0.6", "0.7"}},
	} {
		ticks := valueTicks(c.most, c.whole)
		if len(ticks) != len(c.want) {
			t.Errorf("%v: %v", c.most, ticks)
			continue
		}
		for i, tick := range ticks {
			if tick.Label != c.want[i] {
				t.Errorf("%v: tick %d is %q, want %q", c.most, i, tick.Label, c.want[i])
			}
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		most := rapid.Float64Range(1e-3, 1e9).Draw(t, "most")
		ticks := valueTicks(most, false)
		end := ticks[len(ticks)-1].Value
		if ticks[0].Value != 0 || end < most*(1-1e-9) || end > 1.5*most || len(ticks) < 4 || len(ticks) > 9 {
			t.Fatalf("ticks for %v: %v", most, ticks)
		}
	})
}

// Year labels leave a gap between them for any number of years.
func TestYearTicksApart(t *testing.T) {
	style := lettering(textSize, ink)
	for n := 1; n <= 120; n++ {
		years := make([]string, n)
		for i := range years {
			years[i] = strconv.Itoa(2027 + i)
		}
		ticks := labelTicks(years)
		step := axisRoom / vg.Length(n)
		checkApart(t, ticks, step, func(tick plot.Tick) vg.Length { return style.Width(tick.Label) })
	}
}

// Month labels too, from some months of a year that begins in July to decades.
func TestMonthTicksApart(t *testing.T) {
	style := lettering(textSize, ink)
	for _, n := range []int{6, 18, 30, 36, 37, 60, 240, 600} {
		months := make([]document.YearMonth, n)
		for i := range months {
			months[i] = document.YearMonth{Year: 2027 + (6+i)/12, Month: (6+i)%12 + 1}
		}
		ticks := monthTicks(months)
		checkApart(t, ticks, axisRoom/vg.Length(n), func(tick plot.Tick) vg.Length { return style.Width(tick.Label) })
	}
}

func checkApart(t *testing.T, ticks plot.ConstantTicks, step vg.Length, width func(plot.Tick) vg.Length) {
	t.Helper()
	named, end := 0, vg.Length(-1e9)
	for _, tick := range ticks {
		if tick.IsMinor() {
			continue
		}
		named++
		at := vg.Length(tick.Value) * step
		if at-width(tick)/2 < end {
			t.Errorf("%d ticks: label %q overlaps the one before", len(ticks), tick.Label)
		}
		end = at + width(tick)/2
	}
	if named == 0 {
		t.Errorf("%d ticks: none is named", len(ticks))
	}
}

// Labels that fit between the ends do not overlap, stay between them, and
// keep their order.
func TestSpreadLabels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const low, high = 50, 400
		var list []endLabel
		for i := range rapid.IntRange(1, 8).Draw(t, "labels") {
			text := "needed"
			if rapid.Bool().Draw(t, "two lines") {
				text = "needed,\nmedian"
			}
			list = append(list, endLabel{text: text, value: float64(i), y: vg.Length(rapid.Float64Range(low, high).Draw(t, "y"))})
		}
		spreadLabels(list, low, high)
		for i, l := range list {
			if l.y-l.height()/2 < low-0.01 || l.y+l.height()/2 > high+lineHeight+0.01 {
				t.Fatalf("label %d at %v leaves %v…%v", i, l.y, low, high)
			}
			if i > 0 && list[i-1].y+list[i-1].height()/2 > l.y-l.height()/2+0.01 {
				t.Fatalf("labels %d and %d overlap", i-1, i)
			}
		}
	})
}

// Text is folded at spaces to the width asked for.
func TestFold(t *testing.T) {
	style := lettering(textSize, ink)
	lines := fold(style, "cake that found no room and loads that failed", 100)
	if len(lines) < 2 {
		t.Fatalf("not folded: %q", lines)
	}
	for _, line := range lines {
		if w := style.Width(line); w > 100 {
			t.Errorf("%q is %v wide", line, w)
		}
	}
}
