package report_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"html"
	"math"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/render"
	htmlpage "loamcast/scenarios/render/html"
	"loamcast/scenarios/render/pdf"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/render/workbook"
	"loamcast/scenarios/units"
)

// headline is a number that people take from a report, and where each kind of file has it.
// What is a date or a quarter is compared as a word.
type headline struct {
	what string
	// says finds it in running text; its group is the number.
	question, says string
	json           string // members and places from the answer's object down, parted by blanks
	file, row      string // a CSV file, and the first cells of the row, parted by commas
	column         string
	sheet, line    string // a sheet of the workbook, and the first cells of the row
	heading        string // of the column
	scale          float64
}

var quarters = map[string]string{"first": "Q1", "second": "Q2", "third": "Q3", "fourth": "Q4"}

var headlines = []headline{
	{"order by the end of", "when", `by the end of the (\w+ quarter of \d+), to be in use`, "order_by_end_of", "when.csv", "all by weight,100,2", "order_by_end_of", "vessels", "all by weight,100,2", "order by end of", 1},
	{"in use by", "when", `to be in use by (\d+ \w+ \d+)`, "growths 0 vessels 0 needed_by", "when.csv", "all by weight,100,2", "needed_by", "vessels", "all by weight,100,2", "needed by", 1},
	{"chance of being late, %", "when", `the service target before then is (\d+) %`, "orders 3 late_percent", "when-orders.csv", "Q2 2028", "late_percent", "vessel orders", "Q2 2028", "late %", 1},
	{"chance two years later, %", "when", `Waiting until .*?: (\d+) %`, "orders 11 late_percent", "when-orders.csv", "Q2 2030", "late_percent", "vessel orders", "Q2 2030", "late %", 1},
	{"chips to buy", "chips", `Buy (\d+) yd3 of fresh chips in 2028`, "years 0 chips_bought_yd3 mean", "chips-years.csv", "2028,chips_bought", "value", "chips by year", "chips bought,yd3,mean", "2028", 1},
	{"chips, one run in ten below", "chips", `fresh chips in 2028 \(eight runs in ten between (\d+) and`, "years 0 chips_bought_yd3 p10", "chips-years.csv", "2028,chips_bought", "p10", "chips by year", "chips bought,yd3,P10", "2028", 1},
	{"chips, nine runs in ten below", "chips", `fresh chips in 2028 \(eight runs in ten between \d+ and (\d+)\)`, "years 0 chips_bought_yd3 p90", "chips-years.csv", "2028,chips_bought", "p90", "chips by year", "chips bought,yd3,P90", "2028", 1},
	{"truckloads", "chips", `(\d+) truckloads, about`, "years 0 truckloads mean", "chips-years.csv", "2028,truckloads", "value", "chips by year", "truckloads,,mean", "2028", 1},
	{"spend on chips", "chips", `truckloads, about (\d+) USD`, "years 0 spend_usd mean", "chips-years.csv", "2028,spend", "value", "chips by year", "spend,USD,mean", "2028", 1},
	{"budget for chips", "chips", `budget (\d+) USD`, "years 0 budget_usd", "chips-years.csv", "2028,budget", "value", "chips by year", "budget,USD", "2028", 1},
	{"compost to expect", "product", `Expect (\d+) yd3 of compost in 2028`, "years 0 product_yd3 mean", "product-years.csv", "2028,product", "value", "compost by year", "product,yd3,mean", "2028", 1},
	{"compost, nine runs in ten below", "product", `compost in 2028 \(eight runs in ten between \d+ and (\d+)\)`, "years 0 product_yd3 p90", "product-years.csv", "2028,product", "p90", "compost by year", "product,yd3,P90", "2028", 1},
	{"compost as weighed", "product", `(\d+) short tons wet; about`, "years 0 product_wet_short_ton mean", "product-years.csv", "2028,product_wet", "value", "compost by year", "product wet,short ton,mean", "2028", 1},
	{"revenue", "product", `is taken, for (\d+) USD`, "years 0 revenue_usd mean", "product-years.csv", "2028,revenue", "value", "compost by year", "revenue,USD,mean", "2028", 1},
	{"present worth, thousands", "options", `1 one vessel, then another (\d+) - \d+ \d+ 0\.0`, "choices 0 present_worth_usd", "options.csv", "1,one vessel\\, then another,present_worth", "value", "options", "present worth,USD", "1 one vessel, then another", 1000},
	{"each year, thousands", "options", `1 one vessel, then another \d+ - (\d+) \d+ 0\.0`, "choices 0 equivalent_annual_cost_usd_per_year", "options.csv", "1,one vessel\\, then another,equivalent_annual_cost", "value", "options", "equivalent annual cost,USD/year", "1 one vessel, then another", 1000},
	{"for each dry ton", "options", `1 one vessel, then another \d+ - \d+ (\d+) 0\.0`, "choices 0 cost_per_dry_solids_usd_per_short_ton", "options.csv", "1,one vessel\\, then another,cost_per_dry_solids", "value", "options", "cost per dry solids,USD/short ton", "1 one vessel, then another", 1},
	{"cake of the first year, wet", "run", `2027/28 in (\d+) short tons wet cake`, "years 0 feed_wet_short_ton p50", "years.csv", "2027/28,feed_wet", "p50", "plant by year", "feed wet,short ton,P50", "2027/28", 1},
	{"cake of the first year, dry", "run", `short tons wet cake, ([\d.]+) dry`, "years 0 feed_dry_short_ton p50", "years.csv", "2027/28,feed_dry", "p50", "plant by year", "feed dry,short ton,P50", "2027/28", 1},
	{"compost of the first year", "run", `2027/28 out (\d+) yd3 product`, "years 0 product_yd3 p50", "years.csv", "2027/28,product", "p50", "plant by year", "product,yd3,P50", "2027/28", 1},
}

// order is the file of the planning answers with more cake, so that vessels must be
// ordered, and a shorter horizon, without what would take longest to answer.
func order(t *testing.T) *facilityfile.File {
	t.Helper()
	data, err := os.ReadFile("../facilityfile/testdata/planning.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for _, cut := range [][2]string{{"catalogue:", "# How loads hold air"}, {"correlations:", "money:\n"}} {
		text = text[:strings.Index(text, cut[0])] + text[strings.Index(text, cut[1]):]
	}
	for _, change := range [][2]string{
		{"horizon: 10 year", "horizon: 6 year"}, {"per_person: 0.05 kg/day", "per_person: 0.0765 kg/day"}, {"  pad: 60 yd3", "  pad: 140 yd3"},
		{"demand_per_day: 1.5 yd3", "demand_per_day: 4 yd3"}, {"factor: 1.2}", "factor: 1.35}"},
	} {
		if strings.Count(text, change[0]) != 1 {
			t.Fatalf("%q is not there once", change[0])
		}
		text = strings.Replace(text, change[0], change[1], 1)
	}
	f, err := facilityfile.Parse("order.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// The numbers that people take from a report are the same on the screen, in JSON, in the
// CSV files, on the page, on paper and in the workbook, each to the digits that it shows.
func TestTwentyNumbers(t *testing.T) {
	sys := units.US
	r, err := ask(t, order(t), "when", "chips", "product", "options", "run")
	if err != nil {
		t.Fatal(err)
	}
	answers := map[string]*document.Document{}
	for _, c := range r.Chapters {
		for _, p := range c.Parts {
			answers[p.Name] = p.Document
		}
	}
	files, err := render.Tables(r, sys)
	if err != nil {
		t.Fatal(err)
	}
	tables := map[string][][]string{}
	for _, f := range files {
		if tables[f.Name], err = csv.NewReader(bytes.NewReader(f.Data)).ReadAll(); err != nil {
			t.Fatal(err)
		}
	}
	var page, paper, book bytes.Buffer
	for _, err := range []error{htmlpage.Write(&page, r, sys), pdf.Write(&paper, r, sys), workbook.Write(&book, r, sys)} {
		if err != nil {
			t.Fatal(err)
		}
	}
	sheets, err := excelize.OpenReader(&book)
	if err != nil {
		t.Fatal(err)
	}
	defer sheets.Close()
	onPage := flat(html.UnescapeString(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(page.String(), " ")))
	onPaper := flat(strings.Join(rendertest.Pages(t, paper.Bytes()), " "))

	if len(headlines) != 20 {
		t.Errorf("there are %d numbers", len(headlines))
	}
	for _, h := range headlines {
		d := answers[h.question]
		exact := member(t, rendertest.JSON(t, d, sys), h.json)
		for where, text := range map[string]string{
			"screen": flat(rendertest.Text(t, d, sys)), "page": onPage, "paper": onPaper,
		} {
			found := regexp.MustCompile(h.says).FindStringSubmatch(text)
			if found == nil {
				t.Errorf("%s: not on the %s", h.what, where)
				continue
			}
			if got := dated(found[1]); !same(got, exact, h.scale) {
				t.Errorf("%s: %s on the %s, %s in JSON", h.what, got, where, exact)
			}
		}
		if got := cellOf(tables[h.file], h.row, h.column); !same(got, exact, 1) {
			t.Errorf("%s: %q in %s, %s in JSON", h.what, got, h.file, exact)
		}
		rows, err := sheets.GetRows(h.sheet, excelize.Options{RawCellValue: true})
		if err != nil {
			t.Fatal(err)
		}
		got := cellOf(rows, h.line, h.heading)
		if v, err := strconv.ParseFloat(got, 64); err == nil && strings.Count(exact, "-") == 2 { // a day is a number there
			day, err := excelize.ExcelDateToTime(v, false)
			if err != nil {
				t.Fatal(err)
			}
			got = day.Format("2006-01-02")
		}
		if v, err := strconv.ParseFloat(got, 64); err == nil { // to the six digits of JSON
			got = strconv.FormatFloat(v, 'g', 6, 64)
		}
		if !same(got, exact, 1) {
			t.Errorf("%s: %q on the sheet %q, %s in JSON", h.what, got, h.sheet, exact)
		}
	}
}

// flat is a text on one line, without separators of thousands.
func flat(text string) string {
	text = strings.Join(strings.Fields(strings.ReplaceAll(text, document.NoBreak, " ")), " ")
	return regexp.MustCompile(`(\d),(\d{3})`).ReplaceAllString(text, "$1$2")
}

// dated writes quarters and days as files do, and leaves other texts as they are.
func dated(text string) string {
	if q, year, ok := strings.Cut(text, " quarter of "); ok {
		return quarters[q] + " " + year
	}
	var day, year int
	var month string
	if n, _ := fmt.Sscanf(text, "%d %s %d", &day, &month, &year); n == 3 {
		months := "January February March April May June July August September October November December"
		return fmt.Sprintf("%d-%02d-%02d", year, 1+slices.Index(strings.Fields(months), month), day)
	}
	return text
}

// same reports whether a text says a number to the digits that it has, or the word.
func same(got, exact string, scale float64) bool {
	want, err := strconv.ParseFloat(exact, 64)
	if err != nil {
		return got == exact
	}
	v, err := strconv.ParseFloat(got, 64)
	if err != nil {
		return false
	}
	_, decimals, _ := strings.Cut(got, ".")
	half := 0.5 * math.Pow(10, -float64(len(decimals)))
	return math.Abs(v-want/scale) <= half*(1+1e-9)
}

// member is one of the answer's object.
func member(t *testing.T, data []byte, path string) string {
	t.Helper()
	var at any
	decoder := json.NewDecoder(bytes.NewReader(data))
	decoder.UseNumber()
	if err := decoder.Decode(&at); err != nil {
		t.Fatal(err)
	}
	for _, step := range strings.Fields(path) {
		switch v := at.(type) {
		case map[string]any:
			at = v[step]
		case []any:
			n, err := strconv.Atoi(step)
			if err != nil || n >= len(v) {
				t.Fatalf("there is no %s of %s", step, path)
			}
			at = v[n]
		}
	}
	return fmt.Sprint(at)
}

// cellOf finds a cell by the first cells of its row and by its heading, which is the last
// one above it.
func cellOf(rows [][]string, row, heading string) string {
	begins := strings.Split(row, ",")
	if strings.Contains(row, `\,`) {
		parts := strings.Split(strings.ReplaceAll(row, `\,`, "\x00"), ",")
		for i := range parts {
			parts[i] = strings.ReplaceAll(parts[i], "\x00", ",")
		}
		begins = parts
	}
	column := -1
	for _, cells := range rows {
		for k := range cells {
			if strings.Join(strings.Fields(cells[k]), " ") == heading {
				column = k
			}
		}
		if column >= 0 && column < len(cells) && len(cells) >= len(begins) && slices.Equal(cells[:len(begins)], begins) {
			return cells[column]
		}
	}
	return ""
}
