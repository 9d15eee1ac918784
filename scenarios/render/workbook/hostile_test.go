package workbook_test

import (
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
)

// hostile are names that a spreadsheet might take for something else, or a file cannot
// hold, and what becomes of them.
var hostile = map[string]string{
	"=1+1":                      "=1+1",
	"@SUM(A1)":                  "@SUM(A1)",
	"+1":                        "+1",
	"-2":                        "-2",
	"'quoted":                   "'quoted",
	"=HYPERLINK(\"x\",\"y\")":   "=HYPERLINK(\"x\",\"y\")",
	"bell\x07 and \x00 nothing": "bell and  nothing",
	"<b>&amp;</b>":              "<b>&amp;</b>",
	"_x0041_":                   "_x0041_",
	"1e5":                       "1e5",
	"TRUE":                      "TRUE",
	"2027-01-01":                "2027-01-01",
	strings.Repeat("é", 40_000): strings.Repeat("é", 31_999) + "…",
}

// Words of a file stay words in every sheet, whatever they look like.
func TestWordsStayWords(t *testing.T) {
	for name, want := range hostile {
		text := func(v string) any { return v }
		table := document.TableOf(document.Table{In: document.Files, File: "options-growth"}, []string{name},
			document.Key("growth", func(s *string) any { return text(*s) }),
			document.Any("said", func(s *string) any { return []string{*s} }),
			document.Val("cost", document.Money, func(*string) float64 { return 12.5 }))
		r := &document.Report{Basis: answer.Basis{Facility: name, Source: name, Start: calendar.Date{Year: 2027, Month: time.July, Day: 1}}}
		d := document.New("options", r.Basis, document.Words(name))
		d.Add(table)
		money := *reckoning(t, shared(t))
		money.Choices = append([]document.ReckonedChoice{}, money.Choices...)
		for i := range money.Choices {
			money.Choices[i].Name = name
			steps := append([]document.ReckonedStep{}, money.Choices[i].Steps...)
			for k := range steps {
				steps[k].Name = name
			}
			money.Choices[i].Steps = steps
		}
		d.Money = &money
		r.Add("options", "Options", document.ReportPart{Document: d})
		f := open(t, written(t, r, units.US))
		seen := 0
		for _, sheet := range f.GetSheetList() {
			rows, err := f.GetRows(sheet)
			if err != nil {
				t.Fatal(err)
			}
			for i, row := range rows {
				for k, cell := range row {
					if cell != want {
						continue
					}
					at, err := excelize.CoordinatesToCellName(k+1, i+1)
					if err != nil {
						t.Fatal(err)
					}
					kind, err := f.GetCellType(sheet, at)
					if formula, also := f.GetCellFormula(sheet, at); err != nil || also != nil || formula != "" || kind != excelize.CellTypeSharedString {
						t.Errorf("%.30q in %s!%s is of type %v with formula %q", name, sheet, at, kind, formula)
					}
					seen++
				}
			}
		}
		if seen < 8 {
			t.Errorf("%.30q stands in %d cells", name, seen)
		}
	}
}
