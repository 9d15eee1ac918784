package report

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/report/internal/sample"
	"loamcast/scenarios/units"
)

// numbered fills every number under v with another value, 3, 4, 5, …, as kg,
// m3 and so on, and returns how many there are.
func numbered(v reflect.Value, next float64) float64 {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			next = numbered(v.Field(i), next)
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		next = numbered(v.Elem(), next)
	case reflect.Float64:
		v.SetFloat(next)
		next++
	case reflect.Int:
		if v.Type() == reflect.TypeFor[int]() {
			v.SetInt(int64(next))
			next++
		}
	}
	return next
}

// countNumbers counts the numbers in a record's rendered fields.
func countNumbers[T any](fields []field[T]) int {
	n := 0
	for _, f := range fields {
		if f.spread != nil {
			n += 4
		} else {
			n++
		}
	}
	return n
}

// checkComplete proves that the fields of a record render each of its numbers
// exactly once: each number is different, and each is found.
func checkComplete[T any](t *testing.T, fields []field[T], keys int) {
	t.Helper()
	var r T
	total := int(numbered(reflect.ValueOf(&r).Elem(), 3)) - 3 - keys
	if got := countNumbers(fields); got != total {
		t.Errorf("%T: %d numbers are rendered, it has %d", r, got, total)
	}
	seen := map[float64]string{}
	names := map[string]bool{}
	for _, f := range fields {
		if names[f.name] {
			t.Errorf("%T: two fields are named %s", r, f.name)
		}
		names[f.name] = true
		values := []float64{}
		if f.spread != nil {
			s := f.spread(&r)
			values = append(values, s.Mean, s.P10, s.P50, s.P90)
		} else {
			values = append(values, f.value(&r))
		}
		for _, v := range values {
			if other, twice := seen[v]; twice {
				t.Errorf("%T: %s and %s show the same number", r, f.name, other)
			}
			seen[v] = f.name
		}
	}
}

// Nothing in the answer is left out of JSON and CSV or shown under two names.
// The numbers of dates and months are keys, not fields.
func TestFieldsAreComplete(t *testing.T) {
	checkComplete(t, loadFields, 0)
	checkComplete(t, yearFields, 2)  // From.Year, From.Day
	checkComplete(t, monthFields, 1) // Year
	checkComplete(t, flowFields, 0)
	checkComplete(t, balanceFields, 0)
	checkComplete(t, toolFields, 0)
	checkComplete(t, broughtFields, 0)
	checkComplete(t, sustainFields, 0)
}

// JSON decodes, and its values are the answer's, converted: a short ton is
// 907.18474 kg and a cubic yard 0.764554857984 m3 (NIST SP 811, from memory).
func TestJSONValues(t *testing.T) {
	a := sample.Answer(2)
	y := &a.Years[1]
	for _, c := range []struct {
		sys        units.System
		mass       string
		kg         float64
		volume     string
		cubicMetre float64
	}{
		{units.US, "_short_ton", 907.18474, "_yd3", 0.764554857984},
		{units.SI, "_t", 1000, "_m3", 1},
	} {
		var b bytes.Buffer
		if err := JSON(&b, a, c.sys); err != nil {
			t.Fatal(err)
		}
		var got struct {
			Invented bool
			Seed     uint64
			Headline struct{ Text string }
			Load     map[string]json.RawMessage
			Years    []map[string]any
			Months   []map[string]any
			Balance  struct{ Worst float64 }
		}
		if err := json.Unmarshal(b.Bytes(), &got); err != nil {
			t.Fatal(err)
		}
		if !got.Invented || got.Seed != a.Seed || got.Headline.Text != a.Headline().String() || got.Balance.Worst != a.Balance.Worst {
			t.Errorf("head of the answer: %+v", got)
		}
		if len(got.Years) != 2 || len(got.Months) != 24 {
			t.Fatalf("%d years, %d months", len(got.Years), len(got.Months))
		}
		spread := func(name string) map[string]any { return got.Years[1][name].(map[string]any) }
		for _, v := range []struct {
			got, want float64
		}{
			{spread("feed_dry" + c.mass)["p50"].(float64), y.FeedDry.P50 / c.kg},
			{spread("chips_bought" + c.volume)["p90"].(float64), y.ChipsBought.P90 / c.cubicMetre},
			{spread("diverted_share_percent")["mean"].(float64), y.DivertedShare.Mean * 100},
			{spread("cake_wait_day")["p10"].(float64), y.CakeWait.P10},
			{got.Years[1]["vessels_installed"].(float64), float64(y.Installed)},
		} {
			if math.Abs(v.got-v.want) > 5.1e-6*math.Abs(v.want) {
				t.Errorf("%v: got %v, want %v", c.sys, v.got, v.want)
			}
		}
	}
}

// What is not a number is null in JSON and empty in CSV, never text that a
// reader could not take.
func TestNotANumber(t *testing.T) {
	a := sample.Answer(1)
	a.Years[0].DivertedShare = answer.Spread{Mean: math.NaN(), P10: math.Inf(1), P50: math.Inf(-1), P90: 0.5}
	var b bytes.Buffer
	if err := JSON(&b, a, units.US); err != nil {
		t.Fatal(err)
	}
	const want = `"diverted_share_percent":{"mean":null,"p10":null,"p50":null,"p90":50}`
	if !json.Valid(b.Bytes()) || !strings.Contains(b.String(), want) {
		t.Errorf("JSON does not hold %s", want)
	}
	files, err := CSV(a, units.US)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(files[0].Data), ",,,,50,") {
		t.Errorf("years.csv:\n%s", files[0].Data)
	}
}

// Every CSV file has a row for each record, and every column but the keys
// holds plain numbers in both systems.
func TestCSVRows(t *testing.T) {
	a := sample.Answer(3)
	want := map[string]struct{ rows, keys int }{
		"years.csv":     {3, 2},
		"months.csv":    {36, 2},
		"waits.csv":     {36, 2},
		"tools.csv":     {2 * 3, 2},
		"capacity.csv":  {5 * 3, 2},
		"triggered.csv": {len(a.Triggered), 2},
		"flows.csv":     {len(a.Flows), 3},
		"balance.csv":   {len(a.Balance.Components), 1},
	}
	for _, sys := range systems {
		files, err := CSV(a, sys)
		if err != nil {
			t.Fatal(err)
		}
		if len(files) != len(want) {
			t.Fatalf("%d files", len(files))
		}
		for _, f := range files {
			rows, err := csv.NewReader(bytes.NewReader(f.Data)).ReadAll()
			if err != nil {
				t.Fatalf("%s: %v", f.Name, err)
			}
			if len(rows) != want[f.Name].rows+1 {
				t.Errorf("%s: %d rows, want %d", f.Name, len(rows)-1, want[f.Name].rows)
			}
			for _, row := range rows[1:] {
				for i, cell := range row[want[f.Name].keys:] {
					if _, err := strconv.ParseFloat(cell, 64); err != nil {
						t.Errorf("%s, %s: %v", f.Name, rows[0][i+want[f.Name].keys], err)
					}
				}
			}
		}
	}
}

// Numbers keep six digits and never use separators of thousands.
func TestPlainNumber(t *testing.T) {
	for _, c := range []struct {
		x    float64
		want string
	}{
		{0, "0"},
		{math.Copysign(0, -1), "0"},
		{1234567.8, "1234570"},
		{-0.123456789, "-0.123457"},
		{999999.5, "1000000"},
		{3.14159e-14, "3.14159e-14"},
		{2.5e20, "2.5e+20"},
		{math.MaxFloat64, "1.79769e+308"},
		{math.NaN(), ""},
		{math.Inf(-1), ""},
	} {
		if got := plainNumber(c.x); got != c.want {
			t.Errorf("plainNumber(%v) = %q, want %q", c.x, got, c.want)
		}
	}
}

// Everything is rendered under different names, and twice the same.
func TestFilesAreReproducible(t *testing.T) {
	for _, sys := range systems {
		first, err := Files(sample.Answer(4), sys)
		if err != nil {
			t.Fatal(err)
		}
		second, err := Files(sample.Answer(4), sys)
		if err != nil {
			t.Fatal(err)
		}
		names := map[string]bool{}
		for i, f := range first {
			if names[f.Name] || len(f.Data) == 0 {
				t.Errorf("%s is there twice or empty", f.Name)
			}
			names[f.Name] = true
			if !bytes.Equal(f.Data, second[i].Data) {
				t.Errorf("%s differs from one rendering to the next", f.Name)
			}
		}
		for _, name := range []string{"summary.txt", "cautions.txt", "answer.json", "years.csv", "mass-flow.png", "mass-flow.svg"} {
			if !names[name] {
				t.Errorf("%s is missing", name)
			}
		}
	}
}

// A failing writer's error comes back.
func TestWriterErrors(t *testing.T) {
	a := sample.Answer(1)
	for name, err := range map[string]error{
		"Terminal": Terminal(full{}, a, units.US),
		"JSON":     JSON(full{}, a, units.US),
		"Cautions": Cautions(full{}, a),
	} {
		if err == nil {
			t.Errorf("%s hides the error", name)
		}
	}
}

// full is a writer without room.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, fmt.Errorf("no room") }
