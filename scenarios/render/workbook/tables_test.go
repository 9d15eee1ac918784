package workbook_test

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"loamcast/scenarios/render"
	"loamcast/scenarios/units"
)

// filed reads a table as the files of the report have it.
func filed(t *testing.T, name string, sys units.System) [][]string {
	t.Helper()
	files, err := render.Tables(shared(t), sys)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if f.Name == name {
			rows, err := csv.NewReader(bytes.NewReader(f.Data)).ReadAll()
			if err != nil {
				t.Fatal(err)
			}
			return rows
		}
	}
	t.Fatalf("there is no %s", name)
	return nil
}

// A table on its side has the numbers of its file, figure by figure and year by year.
func TestYearsSayWhatTheirFileSays(t *testing.T) {
	for _, sys := range []units.System{units.US, units.SI} {
		book := open(t, written(t, shared(t), sys))
		rows, err := book.GetRows("plant by year", raw)
		if err != nil {
			t.Fatal(err)
		}
		head := rowOf(t, book, "plant by year", "The plant", "figure")
		years, cells := map[string]int{}, map[[3]string][]string{}
		for k, name := range rows[head-1] {
			years[name] = k
		}
		for _, row := range rows[head:] {
			cells[[3]string{row[0], row[1], row[2]}] = row
		}
		compared := 0
		for _, line := range filed(t, "years.csv", sys)[1:] { // year, figure, unit, value, P10, P50, P90, perhaps low and high
			name := strings.ReplaceAll(line[1], "_", " ")
			for k, is := range []string{"mean", "P10", "P50", "P90"} {
				row, ok := cells[[3]string{name, line[2], is}]
				want, err := strconv.ParseFloat(line[3+k], 64)
				if !ok || err != nil {
					continue
				}
				got, err := strconv.ParseFloat(row[years[line[0]]], 64)
				if err != nil || math.Abs(got-want) > 1e-5*math.Abs(want)+1e-9 {
					t.Errorf("%s, %s, %s: %v, and the file has %v", line[0], name, is, got, want)
				}
				compared++
			}
		}
		if compared < 500 {
			t.Errorf("%d numbers were compared", compared)
		}
	}
}

// A table with its columns abreast has the numbers and words of its file.
func TestAccountsSayWhatTheirFileSays(t *testing.T) {
	want := filed(t, "balance.csv", units.SI)
	book := open(t, written(t, shared(t), units.SI))
	rows, err := book.GetRows("accounts", raw)
	if err != nil {
		t.Fatal(err)
	}
	at := rowOf(t, book, "accounts", "Accounts", want[1][0])
	for i, line := range want[1:] {
		for k, cell := range line {
			got := rows[at-1+i][k]
			a, err := strconv.ParseFloat(cell, 64)
			if err != nil {
				if got != cell {
					t.Errorf("%q, and the file has %q", got, cell)
				}
				continue
			}
			if b, err := strconv.ParseFloat(got, 64); err != nil || math.Abs(a-b) > 1e-5*math.Abs(a) {
				t.Errorf("%s: %q, and the file has %q", line[0], got, cell)
			}
		}
	}
	if len(want) != 7 {
		t.Errorf("%d rows", len(want))
	}
}

// lineOf is where the file has some words first, as the book says it.
func lineOf(t *testing.T, words string) string {
	t.Helper()
	before, _, ok := strings.Cut(plan(t), words)
	if !ok {
		t.Fatalf("%q is not there", words)
	}
	return "line " + strconv.Itoa(1+strings.Count(before, "\n"))
}

// Months are dates, and values of the file numbers beside their units; what is no quantity
// stays as it is written.
func TestNativeCells(t *testing.T) {
	book := open(t, written(t, shared(t), units.US))
	months := filed(t, "chips-months.csv", units.US)
	rows, err := book.GetRows("chips by month", raw)
	if err != nil {
		t.Fatal(err)
	}
	head := rowOf(t, book, "chips by month", "Chips", "month")
	serial, err := strconv.ParseFloat(rows[head][0], 64)
	if err != nil {
		t.Fatal(err)
	}
	day, err := excelize.ExcelDateToTime(serial, false)
	if err != nil || day.Format("2006-01-02") != months[1][0]+"-01" {
		t.Errorf("the first month is %v, %v", day, err)
	}
	for key, want := range map[string][3]string{
		"chips.price":                {"11", "USD/yd3", lineOf(t, "price: 11 USD/yd3")},
		"money.overhead":             {"40000", "USD/year", lineOf(t, "overhead: 40,000")},
		"money.escalation.labour":    {"3.1", "%/year", lineOf(t, "labour: 3.1 %/year")},
		"start":                      {"2027-07-01", "", lineOf(t, "start: 2027")},
		"vessels.shortest_residence": {"12", "day", lineOf(t, "shortest_residence:")},
		"curing.time":                {"21", "day", lineOf(t, "time: 21 day")},
		"name":                       {"Small invented plan", "", lineOf(t, "name: Small")},
		"money.missing":              {"none; then regret is over what keeps the target", "", "default"},
	} {
		row := rowOf(t, book, "inputs", "key", key)
		for k, column := range []string{"B", "C", "D"} {
			if got, err := book.GetCellValue("inputs", column+strconv.Itoa(row), raw); err != nil || got != want[k] {
				t.Errorf("%s: %q, want %q", key, got, want[k])
			}
		}
	}
}

// What is folded away can be brought back.
func TestFolded(t *testing.T) {
	data := written(t, shared(t), units.US)
	book := open(t, data)
	at := rowOf(t, book, "chips by month", "Chips", "month")
	rows, err := book.GetRows("chips by month", raw)
	if err != nil {
		t.Fatal(err)
	}
	folded := 0
	for k, head := range rows[at-1] {
		name, err := excelize.ColumnNumberToName(k + 1)
		if err != nil {
			t.Fatal(err)
		}
		seen, err := book.GetColVisible("chips by month", name)
		level, also := book.GetColOutlineLevel("chips by month", name)
		away := regexp.MustCompile("P10|P50|P90|low|high").MatchString(head)
		if err != nil || also != nil || seen == away || (level == 1) != away {
			t.Errorf("%q is seen: %v, on level %d", head, seen, level)
		}
		if away {
			folded++
		}
	}
	if folded < 30 {
		t.Errorf("%d columns are folded away", folded)
	}
	in, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	room := 0
	for _, f := range in.File {
		if !strings.HasPrefix(f.Name, "xl/worksheets/sheet") {
			continue
		}
		from, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(from)
		if err != nil {
			t.Fatal(err)
		}
		if bytes.Contains(text, []byte(`outlineLevelCol="1"`)) {
			room++
		}
	}
	if room != 1 {
		t.Errorf("%d sheets have room for what brings columns back", room)
	}
}

var referred = regexp.MustCompile(`<f>([^<]*)</f>`)

// Charts say what they show, name all their colours, and draw cells that hold something.
func TestCharts(t *testing.T) {
	data := written(t, shared(t), units.SI)
	book := open(t, data)
	in, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	var all strings.Builder
	charts, drawn := 0, 0
	for _, f := range in.File {
		if !strings.HasPrefix(f.Name, "xl/charts/chart") {
			continue
		}
		charts++
		from, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(from)
		if err != nil {
			t.Fatal(err)
		}
		all.Write(text)
		for _, found := range referred.FindAllStringSubmatch(string(text), -1) {
			drawn++
			sheet, cells, ok := strings.Cut(strings.NewReplacer("&#39;", "", "'", "", "$", "").Replace(found[1]), "!")
			if !ok {
				t.Errorf("%s draws %q", f.Name, found[1])
				continue
			}
			first, last, _ := strings.Cut(cells, ":")
			for _, cell := range []string{first, last} {
				if v, err := book.GetCellValue(sheet, cell, raw); err != nil || v == "" {
					t.Errorf("%s draws %s!%s, which is empty: %v", f.Name, sheet, cell, err)
				}
			}
		}
	}
	for _, want := range []string{"Fresh chips by month", "fresh chips mixed, m3", "Costs by part of the options", "present worth, USD of 2026"} {
		if !strings.Contains(all.String(), want) {
			t.Errorf("no chart says %q", want)
		}
	}
	if drawn < 30 {
		t.Errorf("the charts draw %d rows of cells", drawn)
	}
	if charts != 2 || strings.Contains(all.String(), "schemeClr val=\"accent") {
		t.Errorf("%d charts, or colours that depend on who shows them", charts)
	}
}
