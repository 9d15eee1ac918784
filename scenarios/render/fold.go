package render

import "strings"

// fold divides the columns of a table into strips that fit the screen. What is under one
// heading stays together where it can, and each strip begins with the first columns of
// words, which say what a row is of.
func (s Screen) fold(columns []column) [][]column {
	fits := func(list []column) bool { return width(layOut(list, s.Columns)) <= s.Columns }
	if fits(columns) {
		return [][]column{columns}
	}
	keys := s.keys(columns)
	var strips [][]column
	strip := columns[:keys:keys]
	for _, part := range parts(columns[keys:]) {
		if with := append(strip[:len(strip):len(strip)], part...); fits(with) {
			strip = with
			continue
		}
		if len(strip) > keys {
			strips = append(strips, strip)
			strip = columns[:keys:keys]
		}
		for _, c := range part { // one by one, where not even they fit alone
			if with := append(strip[:len(strip):len(strip)], c); len(strip) > keys && !fits(with) {
				strips = append(strips, strip)
				strip = append(columns[:keys:keys], c)
			} else {
				strip = with
			}
		}
	}
	return append(strips, strip)
}

// keys returns how many of the first columns say what a row is of: words, and as many more
// as it takes to tell the rows apart, on no more than half of the screen; and one, such as
// the year, in any case.
func (s Screen) keys(columns []column) int {
	n := 1
	for n < len(columns) && (columns[n].words || !distinct(columns[:n])) && width(layOut(columns[:n+1], s.Columns)) <= s.Columns/2 {
		n++
	}
	return n
}

// distinct reports whether no two rows have the same cells in some columns.
func distinct(columns []column) bool {
	seen := map[string]bool{}
	for row := range columns[0].cells {
		var cells []string
		for _, c := range columns {
			cells = append(cells, c.cells[row])
		}
		seen[strings.Join(cells, "\x00")] = true
	}
	return len(seen) == len(columns[0].cells)
}

// parts divides columns into those under one heading, and single ones.
func parts(columns []column) [][]column {
	var out [][]column
	for i := 0; i < len(columns); {
		end := i + 1
		for end < len(columns) && columns[i].group != "" && columns[end].group == columns[i].group {
			end++
		}
		out = append(out, columns[i:end])
		i = end
	}
	return out
}
