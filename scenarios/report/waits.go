package report

import (
	"fmt"
	"sort"
	"strconv"
	"strings"

	"loamcast/scenarios/simulate"
	"loamcast/scenarios/units"
)

// leastShare is the share of the waiting below which the screen does not name a
// cause.
const leastShare = 0.005

// waiting says what solids waited for in the last year, the longest first.
func (s summary) waiting() []string {
	last := len(s.a.Years) - 1
	if last < 0 || len(s.a.Waits) == 0 {
		return nil
	}
	shares := simulate.Shares(s.a.Waits, last)
	order := make([]int, len(shares))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return shares[order[i]] > shares[order[j]] })
	var parts []string
	for _, i := range order {
		if shares[i] >= leastShare {
			parts = append(parts, fmt.Sprintf("%s %.0f"+noBreak+"%%", strings.ReplaceAll(s.a.Waits[i].Cause, " ", noBreak), 100*shares[i]))
		}
	}
	if len(parts) == 0 {
		return nil
	}
	return wrap(fmt.Sprintf("in %s solids wait for: %s", s.a.Years[last].Label, strings.Join(parts, ", ")), label("Waiting"), label(""))
}

// waitsTable has a row for each month and a column for each cause.
func waitsTable(a *simulate.Answer, sys units.System) [][]string {
	header := []string{"year", "month"}
	for _, w := range a.Waits {
		header = append(header, causeKey(w.Cause)+mass.suffix(sys)+"_day")
	}
	rows := [][]string{header}
	for i, m := range a.Months {
		row := []string{strconv.Itoa(m.Year), strconv.Itoa(int(m.Month))}
		for _, w := range a.Waits {
			row = append(row, plainNumber(mass.in(w.Months[i], sys)))
		}
		rows = append(rows, row)
	}
	return rows
}

// jsonWaits gives the waiting of every year by cause, dry mass × days.
func jsonWaits(a *simulate.Answer, sys units.System) []object {
	list := make([]object, len(a.Years))
	for y := range a.Years {
		list[y] = object{{"year", a.Years[y].Label}}
		for _, w := range a.Waits {
			list[y] = append(list[y], member{causeKey(w.Cause) + mass.suffix(sys) + "_day", number(mass.in(w.Years[y], sys))})
		}
	}
	return list
}

func causeKey(cause string) string { return strings.ReplaceAll(cause, " ", "_") }
