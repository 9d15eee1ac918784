package main

import (
	"context"
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"
)

// `chips` and `product` refuse what makes no sense with status 2 and say what
// would be right.
func TestFiscalMistakes(t *testing.T) {
	for _, c := range []struct {
		want string
		args []string
	}{
		{"--years 0: ask for 1 or more", []string{"chips", "--years", "0"}},
		{"--years 21: from 2027 on, the file's horizon holds 20", []string{"product", "--years", "21"}},
		{"--years 20: from 2027/28 on, the file's horizon holds 19", []string{"product", "--years", "20", "--fiscal-year", "jul"}},
		{"--from 2050: whole years of the file's horizon are 2027 to 2046", []string{"chips", "--from", "2050"}},
		{`--fiscal-year "summer": write a month such as jan, july or 7`, []string{"chips", "--fiscal-year", "summer"}},
		{`--growth "wild": the file's scenarios are`, []string{"product", "--growth", "wild"}},
		{"--replications 0: it must be from 1 to", []string{"chips", "--replications", "0"}},
		{"--workers -1: must not be negative", []string{"product", "--workers", "-1"}},
		{`--budget: "5000" has no unit`, []string{"chips", "--budget", "5000"}},
		{"--budget 0 USD: it must be more than nothing", []string{"chips", "--budget", "0 USD"}},
		{"--stockout 0 %: it must be above 0 % and below 100 %", []string{"chips", "--stockout", "0 %"}},
		{`--stockout: "5" has no unit`, []string{"chips", "--stockout", "5"}},
		{"--budget: the file has no price of chips", []string{"chips", "dunmarrow", "--budget", "5000 USD"}},
		{"--order-cost: the cost of orders can be weighed", []string{"chips", "dunmarrow", "--order-cost", "50 USD"}},
	} {
		status, stdout, stderr := program(t.Context(), c.args...)
		if status != exitBadInput || stdout != "" || !strings.HasPrefix(stderr, "loamcast: "+c.want) {
			t.Errorf("%v: status %d, standard output %q, got\n%q, want\n%q", c.args, status, stdout, stderr, c.want)
		}
	}
}

// Both print their answer first, leave all of their files, give the same bytes
// with another number of workers, and do what their flags say.
func TestFiscalPlans(t *testing.T) {
	for _, c := range []struct {
		name, first string
		more        []string
		files       []string
	}{
		{"chips", "Buy ", []string{"--stockout", "20 %"},
			[]string{"cautions.txt", "chips-months.csv", "chips-months.png", "chips-months.svg", "chips-orders.csv", "chips-years.csv", "chips.json", "chips.txt"}},
		{"product", "Expect ", nil,
			[]string{"cautions.txt", "product-months.csv", "product-months.png", "product-months.svg", "product-years.csv", "product.json", "product.txt"}},
	} {
		args := append([]string{c.name, "dunmarrow", "--replications", "3", "--years", "1", "--fiscal-year", "oct", "--from", "2029", "--seed", "4"}, c.more...)
		stdout, files := reproduced(t, args, withWorkers...)
		if !strings.HasPrefix(stdout, c.first) || !strings.Contains(stdout, "fiscal year 2029/30") {
			t.Errorf("%v: %.300s", args, stdout)
		}
		leaves(t, files, c.files)
		var got struct {
			Seed, Replications int
			Begins             int `json:"fiscal_year_begins_month"`
			Years, Months      []any
			Ordering           struct {
				Limit float64 `json:"limit_percent"`
			}
		}
		if err := json.Unmarshal([]byte(files[c.name+".json"]), &got); err != nil {
			t.Fatal(err)
		}
		if got.Seed != 4 || got.Replications != 3 || got.Begins != 10 || len(got.Years) != 1 || len(got.Months) != 12 {
			t.Errorf("%s: %+v", c.name, got)
		}
		if c.name == "chips" && got.Ordering.Limit != 20 {
			t.Errorf("a limit of %g %%", got.Ordering.Limit)
		}
	}
}

// An interrupted plan leaves with status 130 and writes nothing.
func TestFiscalInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	for _, name := range []string{"chips", "product"} {
		dir := filepath.Join(t.TempDir(), "out")
		status, stdout, stderr := program(ctx, name, "--out", dir)
		if status != exitInterrupted || stdout != "" || !strings.Contains(stderr, "interrupted") || exists(dir) {
			t.Errorf("%s: status %d, %q, %q, folder there: %v", name, status, stdout, stderr, exists(dir))
		}
	}
}
