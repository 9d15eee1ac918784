package report

import (
	"fmt"

	"loamcast/scenarios/simulate"
)

// How many years the screen's table shows: as many as usually fit, and never
// fewer than the first, the last and the first short of vessels.
const (
	mostYears  = 8
	leastYears = 3
)

// yearColumn is one column of the screen's table: a heading over one or more
// columns, a heading of its own, a unit, and the cell.
type yearColumn struct {
	group, name string
	unit        quantity
	cell        func(*simulate.Year) string
}

// columns lists the table's columns.
func (s summary) columns() []yearColumn {
	high := quantileName(s.a.Level.High)
	whole := func(v float64) string { return fmt.Sprintf("%.0f", v) }
	tenth := func(v float64) string {
		if v >= 100 {
			return whole(v)
		}
		return fmt.Sprintf("%.1f", v)
	}
	need := func(of func(*simulate.Year) float64) func(*simulate.Year) string {
		return func(y *simulate.Year) string {
			if y.OtherShort {
				return "-"
			}
			return whole(of(y))
		}
	}
	return []yearColumn{
		{"", "Year", count, func(y *simulate.Year) string { return y.Label }},
		{"Cake", "dry", mass, func(y *simulate.Year) string { return s.number(y.FeedDry.P50, mass) }},
		{"In use", "mean", count, func(y *simulate.Year) string { return tenth(y.VesselsMean.P50) }},
		{"In use", "peak", count, func(y *simulate.Year) string { return whole(y.VesselsPeak.P50) }},
		{"Needed", "P50", count, need(func(y *simulate.Year) float64 { return y.VesselsNeeded.P50 })},
		{"Needed", high, count, need(func(y *simulate.Year) float64 { return y.VesselsNeeded.P90 })},
		{"", "Installed", count, func(y *simulate.Year) string { return fmt.Sprint(y.Installed) }},
		{"Handbook", "mean", count, func(y *simulate.Year) string { return tenth(y.StaticAverage) }},
		{"Handbook", "peak", count, func(y *simulate.Year) string { return tenth(y.StaticPeak) }},
		{"Chips", "fresh", volume, func(y *simulate.Year) string { return s.number(y.ChipsBought.P50, volume) }},
		{"Chips", "recovered", volume, func(y *simulate.Year) string { return s.number(y.ChipsRecovered.P50, volume) }},
		{"", "Product", volume, func(y *simulate.Year) string { return s.number(y.ProductVolume.P50, volume) }},
		{"", "Diverted", share, func(y *simulate.Year) string { return tenth(share.in(y.DivertedShare.P50, s.sys)) }},
	}
}

// table shows chosen years, at most so many.
func (s summary) table(years int) []string {
	chosen := chooseYears(s.a, years)
	if len(chosen) == 0 {
		return nil
	}
	var columns []column
	for _, c := range s.columns() {
		col := column{group: c.group, headings: []string{c.name, c.unit.label(s.sys)}}
		for _, y := range chosen {
			col.cells = append(col.cells, c.cell(y))
		}
		columns = append(columns, col)
	}
	return layOut(columns, screenColumns)
}

// chooseYears picks at most n years: the first, the last, the first that misses
// the service target, and others evenly between.
func chooseYears(a *simulate.Answer, n int) []*simulate.Year {
	last := len(a.Years) - 1
	if last < n {
		n = last + 1
	}
	index := make([]int, n)
	for i := range index {
		if n > 1 {
			index[i] = (i*last + (n-1)/2) / (n - 1)
		}
	}
	if missed := a.Headline().FirstMissed; missed != nil {
		for i := range a.Years {
			if &a.Years[i] == missed {
				replaceNearest(index, i)
			}
		}
	}
	chosen := make([]*simulate.Year, n)
	for i, at := range index {
		chosen[i] = &a.Years[at]
	}
	return chosen
}

// replaceNearest puts want in place of the nearest inner element of an
// ascending list, unless it is there; the order stays.
func replaceNearest(index []int, want int) {
	best := -1
	for i, at := range index {
		if at == want {
			return
		}
		inner := i > 0 && i < len(index)-1
		if inner && (best < 0 || abs(at-want) < abs(index[best]-want)) {
			best = i
		}
	}
	if best >= 0 {
		index[best] = want
	}
}

func abs(n int) int { return max(n, -n) }
