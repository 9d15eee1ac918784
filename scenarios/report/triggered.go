package report

import (
	"fmt"
	"strings"

	"loamcast/scenarios/simulate"
)

// triggeredTable has a row for each change that waits for a trigger.
func triggeredTable(a *simulate.Answer) [][]string {
	rows := [][]string{{"change", "decided_median", "runs_percent"}}
	for _, t := range a.Triggered {
		decided := ""
		if t.Decided.Valid() {
			decided = t.Decided.String()
		}
		rows = append(rows, []string{t.Change, decided, plainNumber(100 * t.Share)})
	}
	return rows
}

func jsonTriggered(changes []simulate.Triggered) []object {
	list := make([]object, len(changes))
	for i, t := range changes {
		list[i] = object{{"change", t.Change}, {"decided_median", nil}, {"runs_percent", number(100 * t.Share)}}
		if t.Decided.Valid() {
			list[i][1].value = t.Decided.String()
		}
	}
	return list
}

// namedChanges is how many changes that wait for a trigger the screen names.
const namedChanges = 2

// triggered says how often changes came about.
func (s summary) triggered() []string {
	if len(s.a.Triggered) == 0 {
		return nil
	}
	var parts []string
	for _, t := range s.a.Triggered[:min(namedChanges, len(s.a.Triggered))] {
		part := fmt.Sprintf("%s in %.0f"+noBreak+"%% of runs", shorten(printable(t.Change), 24), 100*t.Share)
		if t.Decided.Valid() {
			part += fmt.Sprintf(" (median %v)", t.Decided)
		}
		parts = append(parts, part)
	}
	if more := len(s.a.Triggered) - namedChanges; more > 0 {
		parts = append(parts, fmt.Sprintf("%d more", more))
	}
	return wrap(strings.Join(parts, "; "), label("Triggered"), label(""))
}
