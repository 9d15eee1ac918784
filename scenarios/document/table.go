package document

// Medium is where something is shown.
type Medium int

// Media: a person's eyes, or programs that read files.
const (
	Screen Medium = 1 << iota
	Files
	Both = Screen | Files
)

// On reports whether m includes a medium.
func (m Medium) On(medium Medium) bool { return m&medium != 0 }

// Table is rows of cells in typed columns. A table for files is a list of
// objects in JSON, under Name, and a CSV file, under File; either may be empty
// and keeps it out. On the screen a table has a title.
type Table struct {
	In         Medium
	Name, File string
	Title      Text
	// More follows the title where a renderer left rows out for want of room: a
	// text with one %d for their number. Least is how many rows it must show.
	More    string
	Least   int
	Columns []Column
	Rows    []Row
}

// Row is one row. Where there is no room for all, the rows of the highest rank
// are left out first, in all tables at once and with the paragraphs of that rank;
// those of rank 0 stay.
type Row struct {
	Cells []any
	Rank  int
}

// Column says what a column's cells are.
type Column struct {
	// Name is that of the JSON member and of the CSV column, without the unit.
	Name string
	// Meaning says what the cells are, for the dictionary of the files; without the unit,
	// and without what the form adds, such as quantiles. Basis is that of masses.
	Meaning string
	Basis   Basis
	// Group stands over like neighbours on the screen, and Heads over the
	// column, one a line; "{unit}" in either is the unit of Quantity, and
	// "{units}" its plural.
	Group string
	Heads []string
	// Quantity and Decimals are those of cells that are plain numbers.
	Quantity Quantity
	Decimals int
	// Mark, in the unit of Quantity and without decimals, is what "{mark}" in a
	// heading stands for.
	Mark float64
	// Form is that of the cells.
	Form Form
	// Key marks the columns that tell rows apart: in CSV the rows of a table
	// within a cell begin with the keys of the row that holds it.
	Key bool
	// Shrink is to how few characters a renderer may cut the cells of words
	// where the table is too wide; 0 is not at all.
	Shrink int
	// Spare is that of a [Paragraph], for columns that stand below the others on a
	// screen that is too narrow: they go if all beside them may.
	Spare int
}

// Form says what the cells of a column are, where they are more than one value.
type Form int

// Forms of cells.
const (
	Single   Form = iota
	Spread        // answer.Spread
	Interval      // stats.Interval
	Inner         // Record or Table
)

// Basis says what a mass is of.
type Basis int

// Bases of masses. What is not a mass, or per mass, has none.
const (
	NoBasis   Basis = iota
	Dry             // solids without their water
	Wet             // as it lies on a scale
	Substance       // of the substance that is named, such as water or carbon
)

// String is the basis in files.
func (b Basis) String() string { return [...]string{"", "dry", "wet", "substance"}[b] }

// A cell is one of
//
//	nil                 nothing, or unknown
//	float64, int        a number; one that is not finite is unknown
//	answer.Spread       mean and quantiles over the replications
//	stats.Interval      an estimate with the ends of its interval
//	Measured            a number with a quantity of its own, for JSON
//	bool, string        in files as they stand
//	calendar.Date       a day
//	[]string, []int, []float64, []Text   a list
//	Text, Number, Part  words with numbers, for the screen, or in files without units
//	Record              an object of JSON; CSV leaves it out
//	Table               a list of objects within JSON, and in CSV a file of its own

// Measured is a number in a column whose quantity differs from row to row. In JSON
// the unit in the member's name is its own; a CSV file, with one heading for all
// rows, cannot hold it.
type Measured struct {
	Value    float64
	Quantity Quantity
}

// Record is one object with typed members.
type Record []Field

// Field is a member of a record, or a number that an answer states by itself.
type Field struct {
	Name     string
	Quantity Quantity
	Value    any
}

// Facts are members of the answer's own object in JSON.
type Facts Record

// Col is a column of records of type T and where its cells come from.
type Col[T any] struct {
	Column
	Of func(*T) any
}

// Means is the column with what its cells are, in words, and the basis of a mass.
func (c Col[T]) Means(words string, basis ...Basis) Col[T] {
	c.Meaning = words
	for _, b := range basis {
		c.Basis = b
	}
	return c
}

// TableOf fills a table from records.
func TableOf[T any](t Table, records []T, cols ...Col[T]) Table {
	for _, c := range cols {
		t.Columns = append(t.Columns, c.Column)
	}
	for i := range records {
		row := Row{Cells: make([]any, len(cols))}
		for k, c := range cols {
			row.Cells[k] = c.Of(&records[i])
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// RecordOf makes an object from one record.
func RecordOf[T any](r *T, cols ...Col[T]) Record {
	var out Record
	for _, c := range cols {
		out = append(out, Field{c.Name, c.Quantity, c.Of(r)})
	}
	return out
}

// Lift takes columns of a part as columns of the whole.
func Lift[A, B any](part func(*A) *B, cols ...Col[B]) []Col[A] {
	out := make([]Col[A], len(cols))
	for i, c := range cols {
		out[i] = Col[A]{c.Column, func(a *A) any { return c.Of(part(a)) }}
	}
	return out
}
