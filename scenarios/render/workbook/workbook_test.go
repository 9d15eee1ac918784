package workbook_test

import (
	"bytes"
	"context"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/xuri/excelize/v2"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/render/workbook"
	"loamcast/scenarios/report"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
)

// plan is the file of the planning answers, with something changed, and without the
// catalogue, of which the search would take most of the time.
func plan(t testing.TB, replace ...string) string {
	t.Helper()
	data, err := os.ReadFile("../../facilityfile/testdata/planning.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	from, to := strings.Index(text, "catalogue:"), strings.Index(text, "# How loads hold air")
	text = text[:from] + text[to:]
	for i := 0; i < len(replace); i += 2 {
		if strings.Count(text, replace[i]) != 1 {
			t.Fatalf("%q is not there once", replace[i])
		}
		text = strings.Replace(text, replace[i], replace[i+1], 1)
	}
	return text
}

func ask(t testing.TB, text string, only ...string) *document.Report {
	t.Helper()
	f, err := facilityfile.Parse("plan.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	r, err := report.Ask(context.Background(), s, answer.Setup{Source: "plan.yaml", Version: "test"}, only)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// asked is a report that tests share and do not change.
var asked struct {
	sync.Once
	*document.Report
}

func shared(t testing.TB) *document.Report {
	t.Helper()
	asked.Do(func() { asked.Report = ask(t, plan(t), "options", "run", "chips") })
	if asked.Report == nil {
		t.Fatal("there is no report")
	}
	return asked.Report
}

func written(t testing.TB, r *document.Report, sys units.System) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := workbook.Write(&b, r, sys); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func open(t *testing.T, data []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

var raw = excelize.Options{RawCellValue: true}

// reckoned is the value of a cell as its formula gives it.
func reckoned(t *testing.T, f *excelize.File, sheet, cell string) float64 {
	t.Helper()
	text, err := f.CalcCellValue(sheet, cell, raw)
	if err != nil {
		t.Fatalf("%s!%s: %v", sheet, cell, err)
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatalf("%s!%s is %q", sheet, cell, text)
	}
	return v
}

// rowOf finds the row of a sheet that begins with words, after one that begins with
// others.
func rowOf(t *testing.T, f *excelize.File, sheet, after, words string) int {
	t.Helper()
	rows, err := f.GetRows(sheet, raw)
	if err != nil {
		t.Fatal(err)
	}
	seen := false
	for i, row := range rows {
		switch {
		case len(row) == 0:
		case seen && row[0] == words:
			return i + 1
		default:
			seen = seen || strings.HasPrefix(row[0], after)
		}
	}
	t.Fatalf("%s: no row %q after %q", sheet, words, after)
	return 0
}

func near(got, want, relative float64) bool { return math.Abs(got-want) <= relative*math.Abs(want) }

// costs compares what the sheet of money comes to with a reckoning of the program, choice
// by choice.
func costs(t *testing.T, f *excelize.File, want *document.Reckoning) {
	t.Helper()
	first := want.Choices[0].Present
	base := 0.0
	for i, c := range want.Choices {
		row := strconv.Itoa(rowOf(t, f, "money", "What each choice costs", c.Name))
		present := reckoned(t, f, "money", "B"+row)
		if !near(present, c.Present, 1e-9) {
			t.Errorf("%s: present worth %.12g, and the program has %.12g", c.Name, present, c.Present)
		}
		if annual := reckoned(t, f, "money", "C"+row); !near(annual, c.Annual, 1e-9) {
			t.Errorf("%s: each year %.12g, and the program has %.12g", c.Name, annual, c.Annual)
		}
		if i == 0 {
			base = reckoned(t, f, "money", "D"+row)
		}
		if over := reckoned(t, f, "money", "D"+row) - base; math.Abs(over-(c.Present-first)) > 1e-9*c.Present {
			t.Errorf("%s: over the first %.12g, and the program has %.12g", c.Name, over, c.Present-first)
		}
		parts, err := f.GetRows("money", raw)
		if err != nil {
			t.Fatal(err)
		}
		at := rowOf(t, f, "money", "Cost by part", c.Name)
		sum := 0.0
		for k := 1; k < len(parts[at-1]); k++ {
			cell, err := excelize.CoordinatesToCellName(k+1, at)
			if err != nil {
				t.Fatal(err)
			}
			sum += reckoned(t, f, "money", cell)
		}
		if !near(sum, c.Present, 1e-9) {
			t.Errorf("%s: its parts come to %.12g, and the program has %.12g", c.Name, sum, c.Present)
		}
	}
}

func reckoning(t *testing.T, r *document.Report) *document.Reckoning {
	t.Helper()
	for _, c := range r.Chapters {
		for _, p := range c.Parts {
			if p.Money != nil {
				return p.Money
			}
		}
	}
	t.Fatal("the report has no money")
	return nil
}

// The formulas come to the program's means, in both systems of units, with a tipping fee
// that is drawn for each run and a step that waits for a sign.
func TestFormulasComeToTheCosts(t *testing.T) {
	want := reckoning(t, shared(t))
	if len(want.Drawn) != 1 || len(want.Choices) != 3 || len(want.Decided) != 1 {
		t.Fatalf("drawn %v, %d choices, %d steps decided", want.Drawn, len(want.Choices), len(want.Decided))
	}
	for _, sys := range []units.System{units.US, units.SI} {
		costs(t, open(t, written(t, shared(t), sys)), want)
	}
}

// Other prices, rates and costs of steps written into the book come to what the program
// says of a file with these. No price of it is drawn.
func TestChangedCellsComeToTheCostsOfAChangedFile(t *testing.T) {
	const drawn = "  - {input: money.tipping, empirical: [95 USD/short ton, 68 USD/short ton, 75 USD/short ton]}\n"
	const correlated = "  - {between: [solids.growth, money.tipping], rank: 0.5}\n"
	before := ask(t, plan(t, drawn, "", correlated, ""), "options")
	after := ask(t, plan(t, drawn, "", correlated, "",
		"labour: 38 USD/h", "labour: 51.5 USD/h",
		"price: 11 USD/yd3", "price: 17 USD/yd3",
		"tipping: 75 USD/short ton", "tipping: 140 USD/short ton",
		"overhead: 40,000 USD/year", "overhead: 30,000 USD/year",
		"discount: 5 %/year", "discount: 3.25 %/year",
		"inflation: 2.5 %/year", "inflation: 1.75 %/year",
		"paid: end of year", "paid: mid year",
		"    capital: 3.7 %/year", "    capital: 2.2 %/year",
		"    labour: 3.1 %/year", "    labour: 2 %/year",
		"        cost: 180,000 USD\n        life: 20 year", "        cost: 210,000 USD\n        life: 3 year",
		"cost: \"90,000 USD\", life: 15 year, salvage: 10 %, upkeep: 3 %/year, running: \"-2,000 USD/year\"", "cost: \"120,000 USD\", life: 2 year, salvage: 30 %, upkeep: 4 %/year, running: \"2,500 USD/year\"",
		"    cost: 30,000 USD\n    life: 25 year\n    salvage: 5 %", "    cost: 45,000 USD\n    life: 6 year\n    salvage: 25 %",
	), "options")
	f := open(t, written(t, before, units.US))
	costs(t, f, reckoning(t, before))
	set := func(sheet string, row int, column string, v any) {
		if err := f.SetCellValue(sheet, column+strconv.Itoa(row), v); err != nil {
			t.Fatal(err)
		}
	}
	price := func(name string) int { return rowOf(t, f, "money", "price of", name) }
	rate := func(name string) int { return rowOf(t, f, "money", "rate", name) }
	set("money", price("labour"), "B", 51.5)
	set("money", price("labour"), "D", 2)
	set("money", price("fresh chips"), "B", 17)
	set("money", price("hauling and tipping"), "B", 140)
	set("money", price("overhead"), "B", 30_000)
	set("money", rate("discount"), "B", 3.25)
	set("money", rate("inflation"), "B", 1.75)
	set("money", rate("running costs count at"), "B", "mid year")
	set("money", rate("what is built rises by"), "B", 2.2)
	roof := rowOf(t, f, "steps", "choice", "all choices")
	set("steps", roof, "F", 45_000)
	set("steps", roof, "H", 6)
	set("steps", roof, "I", 25)
	vessel := rowOf(t, f, "steps", "choice", "one vessel, then another")
	set("steps", vessel, "F", 210_000)
	set("steps", vessel, "H", 3)
	cake := rowOf(t, f, "steps", "choice", "thicker cake")
	for column, v := range map[string]float64{"F": 120_000, "H": 2, "I": 30, "J": 4, "K": 2500} {
		set("steps", cake, column, v)
	}
	want := reckoning(t, after)
	if near(want.Choices[0].Present, reckoning(t, before).Choices[0].Present, 0.01) {
		t.Fatal("the changes do not move the costs")
	}
	// The first choice may be another one.
	costs(t, f, want)
}

// Every formula has the value that it comes to, as a number, for programs that show a book
// without reckoning; and a program that reckons is asked to.
func TestValuesBesideFormulas(t *testing.T) {
	f := open(t, written(t, shared(t), units.US))
	n := 0
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet, raw)
		if err != nil {
			t.Fatal(err)
		}
		for i, row := range rows {
			for k := range row {
				cell, err := excelize.CoordinatesToCellName(k+1, i+1)
				if err != nil {
					t.Fatal(err)
				}
				formula, err := f.GetCellFormula(sheet, cell)
				if err != nil {
					t.Fatal(err)
				}
				if formula == "" {
					continue
				}
				n++
				kind, err := f.GetCellType(sheet, cell)
				if err != nil || kind != excelize.CellTypeUnset {
					t.Fatalf("%s!%s is of type %v, %v", sheet, cell, kind, err)
				}
				if v, err := strconv.ParseFloat(row[k], 64); err != nil || !near(v, reckoned(t, f, sheet, cell), 1e-12) {
					t.Fatalf("%s!%s is %q, and comes to %v", sheet, cell, row[k], reckoned(t, f, sheet, cell))
				}
			}
		}
	}
	if n < 300 {
		t.Errorf("%d formulas", n)
	}
	props, err := f.GetCalcProps()
	if err != nil || props.FullCalcOnLoad == nil || !*props.FullCalcOnLoad {
		t.Errorf("reckoning is not asked for: %v", err)
	}
}

// A report without an answer on options has no sheet on money; one of the whole has all.
func TestSheets(t *testing.T) {
	bare := open(t, written(t, ask(t, plan(t), "run"), units.SI))
	if got, want := bare.GetSheetList(), []string{"summary", "plant by year", "inputs", "accounts"}; !slices.Equal(got, want) {
		t.Errorf("the sheets are %v", got)
	}
	full := open(t, written(t, shared(t), units.US))
	if got, want := full.GetSheetList(), []string{"summary", "chips by month", "chips by year", "plant by year", "options", "options by growth", "money", "steps", "quantities", "steps worked out", "inputs", "accounts"}; !slices.Equal(got, want) {
		t.Errorf("the sheets are %v", got)
	}
}

// The same report gives the same bytes.
func TestReproducible(t *testing.T) {
	if !bytes.Equal(written(t, shared(t), units.US), written(t, shared(t), units.US)) {
		t.Error("the bytes differ")
	}
}

// Writing the book beside the rest of a report.
func BenchmarkWrite(b *testing.B) {
	r := shared(b)
	for b.Loop() {
		written(b, r, units.US)
	}
}
