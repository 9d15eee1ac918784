package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"loamcast/scenarios/outfile"
)

func readPlanning(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile(planningFile)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// fileHash is what must differ between files that differ.
var fileHash = regexp.MustCompile(`[0-9a-f]{64}`)

// Every answer of a file in euros is that of the same file in dollars, word for word
// and number for number, with the currency's own name in headings, in the names of
// columns and members and in pictures; and none calls its years otherwise than the
// file does.
func TestAnswersAreInTheFilesCurrency(t *testing.T) {
	dollars := strings.Replace(readPlanning(t), "\nmoney:\n", "\nfiscal_year: {begins: 07-01}\n\nmoney:\n", 1)
	euros := strings.ReplaceAll(dollars, "USD", "EUR")
	for _, args := range [][]string{
		{"chips", "--replications", "4", "--budget", "3,000 %s", "--order-cost", "50 %s"},
		{"product", "--replications", "4"},
		{"mix", "--sweep"},
		{"run"},
		{"when"},
		{"options"},
		{"expand"},
		{"drivers", "--answer", "cost"},
		{"setback", "--replications", "10"},
	} {
		if testing.Short() && strings.Contains("when options expand drivers setback", args[0]) {
			continue
		}
		t.Run(args[0], func(t *testing.T) {
			t.Chdir(t.TempDir())
			inDollars, inEuros := answered(t, args, "USD", dollars), answered(t, args, "EUR", euros)
			if len(inDollars) != len(inEuros) || len(inEuros) < 3 {
				t.Fatalf("%d files and %d", len(inDollars), len(inEuros))
			}
			drawn := ""
			for name, text := range inEuros {
				if strings.Contains(text, "USD") || strings.Contains(text, "usd") {
					t.Errorf("%s names dollars", name)
				}
				if strings.Contains(text, "2027/28") {
					t.Errorf("%s calls FY2028 otherwise", name)
				}
				if filepath.Ext(name) == ".svg" { // whose words lie otherwise, since letters have widths
					drawn += text
					continue
				}
				same := strings.NewReplacer("EUR", "USD", "eur", "usd")
				if same.Replace(text) != same.Replace(inDollars[name]) {
					t.Errorf("%s differs by more than its currency:\n%s\n%s", name, text, inDollars[name])
				}
			}
			if inMoney := strings.Contains("options expand drivers", args[0]); inMoney != strings.Contains(drawn, "EUR") {
				t.Errorf("pictures name euros: %t, want %t", !inMoney, inMoney)
			}
		})
	}
}

// answered asks a question of a file's content and returns the files that the answer
// leaves, but for pixels, the list of the files and the hash of the file asked about. A %s among the arguments is the
// currency.
func answered(t *testing.T, args []string, code, content string) map[string]string {
	t.Helper()
	write(t, "plant.yaml", content)
	asked := []string{args[0], "plant.yaml"}
	for _, a := range args[1:] {
		asked = append(asked, strings.ReplaceAll(a, "%s", code))
	}
	if status, _, stderr := program(t.Context(), append(asked, "--out", code)...); status != exitOK {
		t.Fatalf("%v: status %d: %s", asked, status, stderr)
	}
	entries, err := os.ReadDir(code)
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]string{}
	for _, e := range entries {
		if filepath.Ext(e.Name()) == ".png" || e.Name() == outfile.ListName {
			continue
		}
		data, err := os.ReadFile(filepath.Join(code, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		files[e.Name()] = fileHash.ReplaceAllString(string(data), "")
	}
	return files
}

// An amount on the command line is in the file's currency, or names none.
func TestAmountsInAnotherCurrency(t *testing.T) {
	plan := strings.ReplaceAll(readPlanning(t), "USD", "EUR")
	t.Chdir(t.TempDir())
	write(t, "plant.yaml", plan)
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"--budget", "3,000 USD"}, `--budget: "3,000 USD" is in USD, but the file's money is EUR; write it in EUR, for nothing is converted`},
		{[]string{"--order-cost", "£5"}, `--order-cost: "£5" is in GBP, but the file's money is EUR`},
		{[]string{"--budget", "3,000 EUX"}, `--budget: no unit is called "EUX"; did you mean EUR?`},
		{[]string{"--budget", "-3 EUR"}, `--budget -3 EUR: it must be more than nothing`},
	} {
		status, stdout, stderr := program(t.Context(), append([]string{"chips", "plant.yaml", "--replications", "2"}, c.args...)...)
		if status != exitBadInput || stdout != "" || !strings.Contains(stderr, c.want) {
			t.Errorf("%v: status %d, %q, want %q", c.args, status, stderr, c.want)
		}
	}
}

// What the command says of fiscal years wins over the file, which names them all the
// same; years of the calendar are not called fiscal.
func TestFiscalYearOfFileAndCommand(t *testing.T) {
	plan := readPlanning(t)
	t.Chdir(t.TempDir())
	with := func(group string) string {
		return strings.Replace(plan, "\nmoney:\n", "\n"+group+"money:\n", 1)
	}
	for _, c := range []struct {
		group string
		args  []string
		want  string
		not   string
	}{
		{"", nil, " in 2028 (", "iscal"},
		{"", []string{"--fiscal-year", "jul"}, "in fiscal year 2027/28 (", "FY"},
		{"fiscal_year: {begins: 07-01}\n", nil, "in FY2028 (", "2027/28"},
		{"fiscal_year: {begins: 07-01, named: by its beginning}\n", nil, "in FY2027 (", "2027/28"},
		{"fiscal_year: {begins: 07-01}\n", []string{"--fiscal-year", "oct"}, "in FY2028 (", "2027/28"},
		{"fiscal_year: {begins: 07-01}\n", []string{"--fiscal-year", "oct"}, "FY2028 is October 2027 to September 2028.", "July"},
		{"fiscal_year: {begins: 07-01}\n", []string{"--fiscal-year", "jan"}, "in 2028 (", "FY"},
		{"fiscal_year: {begins: 01-01}\n", nil, " in 2028 (", "iscal"},
	} {
		write(t, "plant.yaml", with(c.group))
		for _, question := range []string{"chips", "product"} {
			status, stdout, stderr := program(t.Context(), append([]string{question, "plant.yaml", "--replications", "2"}, c.args...)...)
			text := strings.Join(strings.Fields(stdout), " ")
			if status != exitOK || !strings.Contains(text, c.want) || strings.Contains(stdout, c.not) {
				t.Errorf("%s, %q, %v: status %d, no %q, or %q in\n%s%s", question, c.group, c.args, status, c.want, c.not, stdout, stderr)
			}
		}
	}
}
