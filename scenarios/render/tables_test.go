package render_test

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/render"
	"loamcast/scenarios/units"
	"loamcast/sim/stats"
)

// nested is a table with every form of cell, and in its rows another table.
func nested() *document.Document {
	inner := func(depths ...float64) document.Table {
		return document.TableOf(document.Table{In: document.Files, Name: "piles", File: "piles"}, depths,
			document.Val("depth", document.Length, func(x *float64) float64 { return *x }))
	}
	type row struct {
		yard  string
		mass  answer.Spread
		share stats.Interval
		left  float64
		piles document.Table
	}
	rows := []row{
		{"north", answer.Spread{Mean: 1, P10: 2, P50: 3, P90: 4}, stats.Interval{Estimate: 0.5, Low: 0.25, High: 0.75}, 1.23456789, inner(1, 2)},
		{"south", answer.Spread{Mean: 5, P10: 6, P50: 7, P90: 8}, stats.Interval{Estimate: 0.1, Low: 0, High: 0.2}, math.NaN(), inner(3)},
	}
	d := document.New("sample", answer.Basis{Facility: "Wren Hollow"}, document.Words("All is well."))
	d.Add(document.TableOf(document.Table{In: document.Files, Name: "yards", File: "yards"}, rows,
		document.Key("yard", func(r *row) any { return r.yard }),
		document.Spr("load", document.Mass, func(r *row) answer.Spread { return r.mass }),
		document.Est("full", document.Share, func(r *row) stats.Interval { return r.share }),
		document.Val("left", document.Length, func(r *row) float64 { return r.left }),
		document.In("piles", func(r *row) any { return r.piles })))
	return d
}

// A file names each column with its unit, keeps the order of the parts of a
// spread and of an interval, leaves what is unknown empty, and puts before each
// row of an inner table the keys of the row that it is in.
func TestCSVOfEveryForm(t *testing.T) {
	files, err := render.CSV(nested(), units.SI)
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]string{
		"yards.csv": "yard,load_t_mean,load_t_p10,load_t_p50,load_t_p90,full_percent,full_low_percent,full_high_percent,left_m\n" +
			"north,0.001,0.002,0.003,0.004,50,25,75,1.23457\n" +
			"south,0.005,0.006,0.007,0.008,10,0,20,\n",
		"piles.csv": "yard,depth_m\nnorth,1\nnorth,2\nsouth,3\n",
	}
	if len(files) != len(want) {
		t.Errorf("%d files, want %d", len(files), len(want))
	}
	for _, f := range files {
		if got := string(f.Data); got != want[f.Name] {
			t.Errorf("%s is\n%swant\n%s", f.Name, got, want[f.Name])
		}
	}
}

// JSON says the same, and null for what is unknown.
func TestJSONOfEveryForm(t *testing.T) {
	var b bytes.Buffer
	if err := render.JSON(&b, nested(), units.SI); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		`{"yard":"north","load_t":{"mean":0.001,"p10":0.002,"p50":0.003,"p90":0.004},"full_percent":50,"full_low_percent":25,"full_high_percent":75,"left_m":1.23457,"piles":[{"depth_m":1},{"depth_m":2}]}`,
		`"full_percent":10,"full_low_percent":0,"full_high_percent":20,"left_m":null,"piles":[{"depth_m":3}]}`,
	} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("there is no %s in\n%s", want, b.String())
		}
	}
}
