package document

import (
	"fmt"
	"time"

	"loamcast/scenarios/answer"
	"loamcast/sim/stats"
)

// Columns for files: a name, a quantity, and where the value comes from.

// Key is a column that tells rows apart.
func Key[T any](name string, of func(*T) any) Col[T] {
	return Col[T]{Column{Name: name, Quantity: Count, Key: true}, of}
}

// ByMonth is the column of a table by month of the calendar: "2027-07", which
// spreadsheets take for a date. A month of any year has its number, from 1 to 12.
func ByMonth[T any](of func(*T) (year int, month time.Month)) Col[T] {
	return Key("month", func(t *T) any {
		year, month := of(t)
		return fmt.Sprintf("%d-%02d", year, month)
	}).Means("month of the calendar, its year first")
}

// Spared is a column that may be spared, as [Column.Spare] has it.
func Spared[T any](spare int, c Col[T]) Col[T] {
	c.Spare = spare
	return c
}

// Val is a column of plain numbers.
func Val[T any](name string, q Quantity, of func(*T) float64) Col[T] {
	return Col[T]{Column{Name: name, Quantity: q}, func(t *T) any { return of(t) }}
}

// Spr is a column of spreads.
func Spr[T any](name string, q Quantity, of func(*T) answer.Spread) Col[T] {
	return Col[T]{Column{Name: name, Quantity: q, Form: Spread}, func(t *T) any { return of(t) }}
}

// Est is a column of estimates with their intervals.
func Est[T any](name string, q Quantity, of func(*T) stats.Interval) Col[T] {
	return Col[T]{Column{Name: name, Quantity: q, Form: Interval}, func(t *T) any { return of(t) }}
}

// In is a column of records or tables within the rows.
func In[T any](name string, of func(*T) any) Col[T] {
	return Col[T]{Column{Name: name, Form: Inner}, of}
}

// Any is a column of anything else: words, dates, lists.
func Any[T any](name string, of func(*T) any) Col[T] {
	return Col[T]{Column{Name: name, Quantity: Count}, of}
}

// Columns for the screen: headings and how the number is written.

// Left is a column of words, aligned left.
func Left[T any](heads []string, of func(*T) any) Col[T] {
	return Col[T]{Column{Heads: heads, Quantity: Count, Decimals: leftAligned}, of}
}

// leftAligned marks columns of words.
const leftAligned = -2

// LeftAligned reports whether a column's cells are words, aligned left.
func (c *Column) LeftAligned() bool { return c.Decimals == leftAligned }

// Num is a column of numbers with a fixed number of decimals.
func Num[T any](group string, heads []string, q Quantity, decimals int, of func(*T) float64) Col[T] {
	return Col[T]{Column{Group: group, Heads: heads, Quantity: q, Decimals: decimals}, func(t *T) any { return of(t) }}
}

// Txt is a column of text that is aligned as numbers are.
func Txt[T any](group string, heads []string, q Quantity, of func(*T) any) Col[T] {
	return Col[T]{Column{Group: group, Heads: heads, Quantity: q}, of}
}
