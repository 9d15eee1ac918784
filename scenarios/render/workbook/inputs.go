package workbook

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// quantity is a number with a unit as a file writes it.
var quantity = regexp.MustCompile(`^(-?[0-9][0-9,]*(?:\.[0-9]+)?(?:[eE][-+]?[0-9]+)?)(?: ([^0-9,;\[{][^,;\[{]*))?$`)

// split makes of the list of values one with native numbers beside their units, and says
// of each whether the file gives it.
func (g *grid) split() {
	value, line := g.place("value"), g.place("line")
	if value < 0 || line < 0 {
		return
	}
	g.columns[line].name = "given"
	g.columns = insert(g.columns, value+1, column{name: "unit"})
	for i, row := range g.rows {
		if n, ok := row[line].(int); ok {
			row[line] = fmt.Sprintf("line %d", n)
		} else {
			row[line] = "default"
		}
		var unit any
		if text, ok := row[value].(string); ok {
			row[value], unit = measured(text)
		}
		g.rows[i] = insert(row, value+1, unit)
	}
}

// measured takes a text apart into a number and its unit, if it is no more than these.
func measured(text string) (value, unit any) {
	parts := quantity.FindStringSubmatch(strings.TrimSpace(text))
	if parts == nil {
		return text, nil
	}
	v, err := strconv.ParseFloat(strings.ReplaceAll(parts[1], ",", ""), 64)
	if err != nil {
		return text, nil
	}
	if parts[2] == "" {
		return v, nil
	}
	return v, parts[2]
}

// place finds a column by its name, −1 if there is none.
func (g *grid) place(name string) int {
	for i := range g.columns {
		if g.columns[i].name == name {
			return i
		}
	}
	return -1
}

func insert[T any](list []T, at int, v T) []T {
	out := append([]T{}, list[:at]...)
	return append(append(out, v), list[at:]...)
}
