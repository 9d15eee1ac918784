package fiscal

import doc "loamcast/scenarios/document"

// What the screen has room for: the months of the first year where there are
// few years, and otherwise years alone.
const (
	mostYearsWithMonths = 2
	mostYears           = 14
)

// Row is a month or a year of a plan in a table for the screen, with what flows
// in it.
type Row[F any] struct {
	Name  string
	Flows *F
	Month bool
}

// Rows are the months of the first year and the years that the screen shows.
func Rows[M, Y, F any](n int, months []M, years []Y, month func(*M) (string, *F), year func(*Y) (string, *F)) []Row[F] {
	var rows []Row[F]
	if n <= mostYearsWithMonths {
		for i := range months[:len(months)/n] {
			name, flows := month(&months[i])
			rows = append(rows, Row[F]{name, flows, true})
		}
	}
	for i := range years[:min(n, mostYears)] {
		name, flows := year(&years[i])
		rows = append(rows, Row[F]{name, flows, false})
	}
	return rows
}

// RowNames is the column of the rows' names.
func RowNames[F any]() doc.Col[Row[F]] {
	return doc.Left([]string{"", ""}, func(r *Row[F]) any { return r.Name })
}

// InRow takes a number of the flows as one of the row.
func InRow[F any](of func(*F) float64) func(*Row[F]) float64 {
	return func(r *Row[F]) float64 { return of(r.Flows) }
}
