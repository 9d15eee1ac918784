package workbook

import (
	"fmt"
	"io"
	"regexp"
	"strings"

	"github.com/xuri/excelize/v2"

	"loamcast/scenarios/document"
	"loamcast/scenarios/plaintext"
	"loamcast/scenarios/render/prose"
	"loamcast/scenarios/units"
)

// Write writes a report as a workbook.
func Write(w io.Writer, r *document.Report, sys units.System) error {
	b := &book{file: excelize.NewFile(), sys: sys.With(r.Basis.Currency), report: r, styles: map[look]int{}}
	defer b.file.Close()
	b.properties()
	b.summary(prose.Of(r, sys))
	for i := range tables {
		b.table(&tables[i])
	}
	if m := b.reckoning(); m != nil {
		b.money(m)
	}
	b.table(&inputs)
	b.table(&accounts)
	b.fillIn()
	b.failed(b.file.DeleteSheet("Sheet1"))
	b.file.SetActiveSheet(0)
	if b.err != nil {
		return fmt.Errorf("report.xlsx: %w", b.err)
	}
	return b.write(w)
}

// book is a workbook in the making. The first error stays.
type book struct {
	file     *excelize.File
	sys      units.System
	report   *document.Report
	styles   map[look]int
	formulas []place
	err      error
}

// place is a cell.
type place struct{ sheet, cell string }

func (b *book) failed(err error) {
	if b.err == nil {
		b.err = err
	}
}

// properties are the same whenever the book is written. The day is that on which the
// horizon begins: a book without one is stamped with the time of writing.
func (b *book) properties() {
	day := b.report.Basis.Start.String() + "T00:00:00Z"
	b.failed(b.file.SetDocProps(&excelize.DocProperties{
		Title: b.words(b.report.Basis.Facility), Creator: "loamcast " + b.report.Basis.Version, LastModifiedBy: "loamcast",
		Created: day, Modified: day, Description: b.whose(),
	}))
	whole := true
	b.failed(b.file.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: &whole}))
}

// whose says once on each sheet whether its figures are invented.
func (b *book) whose() string {
	name := document.Name(b.report.Basis.Facility, 60)
	if b.report.Basis.Invented {
		return b.words(name + " · " + document.Invented)
	}
	return b.words(fmt.Sprintf("%s · figures of the facility file %s, seed %d", name, document.Name(b.report.Basis.Source, 80), b.report.Basis.Seed))
}

// reckoning is that of the answer that compares costs; nil if none does.
func (b *book) reckoning() *document.Reckoning {
	for _, c := range b.report.Chapters {
		for _, p := range c.Parts {
			if p.Money != nil {
				return p.Money
			}
		}
	}
	return nil
}

// mostCharacters is what a cell holds.
const mostCharacters = 32_000

// escape is how a cell writes a character by its number. A word that looks like one is
// written so that it is not.
var escape = regexp.MustCompile(`_x[0-9A-Fa-f]{4}_`)

// words makes a text fit for a cell, where it stays text whatever it begins with.
func (b *book) words(s string) string {
	s = document.Shorten(plaintext.XML(document.PlainSpaces(s)), mostCharacters)
	return escape.ReplaceAllStringFunc(s, func(e string) string { return "_x005F" + e })
}

// said is a text in the book's units.
func (b *book) said(t document.Text) string { return b.words(t.In(b.sys)) }

// fillIn gives every formula the value that it has now, for programs that show a book
// without reckoning it.
func (b *book) fillIn() {
	if b.err != nil {
		return
	}
	values := make([]string, len(b.formulas))
	for i, p := range b.formulas {
		v, err := b.file.CalcCellValue(p.sheet, p.cell, excelize.Options{RawCellValue: true})
		if err != nil {
			b.failed(fmt.Errorf("%s!%s: %w", p.sheet, p.cell, err))
			return
		}
		values[i] = v
	}
	for i, p := range b.formulas {
		formula, err := b.file.GetCellFormula(p.sheet, p.cell)
		b.failed(err)
		b.failed(b.file.SetCellDefault(p.sheet, p.cell, values[i]))
		b.failed(b.file.SetCellFormula(p.sheet, p.cell, formula))
	}
}

// quoted is a sheet's name as formulas write it.
func quoted(name string) string { return "'" + strings.ReplaceAll(name, "'", "''") + "'" }
