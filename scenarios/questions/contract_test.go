package questions_test

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"loamcast/scenarios/expand"
	"loamcast/scenarios/money"
	"loamcast/scenarios/options"
	"loamcast/scenarios/question"
	"loamcast/scenarios/render"
	"loamcast/scenarios/study"
	"loamcast/scenarios/vesselplan"
)

// Every answer that says that a target is kept says what leaves by contract for it, on
// the screen and in files; more vessels are due later than without the contract; and what
// leaves costs something. Files without a contract have none of it.
func TestAnswersTellTheContract(t *testing.T) {
	if testing.Short() {
		t.Skip("asks five questions twice; the round without -short has it")
	}
	data, err := os.ReadFile("../facilityfile/testdata/contract.yaml")
	if err != nil {
		t.Fatal(err)
	}
	s, none := prepared(t, "contract.yaml", data), prepared(t, "none.yaml", withoutContracts(t, string(data)))
	const leave = "leave by contract as they came"
	for name, want := range map[string]struct{ screen, json []string }{
		"check":   {[]string{"a contract takes at most 6.61 short tons wet a month", "the notice is 3 days"}, []string{"contract_takes_dry"}},
		"run":     {[]string{"By contract leaves, of the dry solids that come", "dry hauled by contract", "Contract"}, []string{"contract_dry", "contract_calls", "cake hauled by contract"}},
		"when":    {[]string{"A contract hauls cake that finds no vessel in time"}, []string{"by_contract"}},
		"options": {[]string{leave, "tipping and hauling by contract"}, []string{"contract_share", "present_worth_of_contract"}},
		"expand":  {[]string{leave}, []string{"contract_share", "present_worth_of_contract"}},
	} {
		a, _ := says(t, s, name, want.screen)
		file := inJSON(t, a, s)
		b, screen := says(t, none, name, nil)
		without := inJSON(t, b, none)
		for _, w := range want.json {
			if !strings.Contains(file, w) {
				t.Errorf("the file of %s has no %q", name, w)
			}
		}
		if strings.Contains(screen, "contract") || strings.Contains(without, "contract") {
			t.Errorf("%s tells of a contract that the file has not:\n%s", name, screen)
		}
	}
	with, plain := asked[*vesselplan.Answer](t, s, "when").All.Rows[0], asked[*vesselplan.Answer](t, none, "when").All.Rows[0]
	if with.LastKept <= plain.LastKept {
		t.Errorf("with a contract the vessels last through year %d, without through %d", with.LastKept, plain.LastKept)
	}
	for _, c := range asked[*options.Answer](t, s, "options").Choices {
		hauls := c.All.Contract > 0
		if paid := c.All.ByPart[money.Contract] > 0; paid != hauls || !hauls && c.AsIs {
			t.Errorf("%s hauls %g kg by contract for %g USD", c.Name, c.All.Contract, c.All.ByPart[money.Contract])
		}
	}
	for _, p := range asked[*expand.Answer](t, s, "expand").Plans {
		if hauls := p.Contract > 0; hauls != (p.ByPart[money.Contract] > 0) {
			t.Errorf("%v hauls %g kg by contract for %g USD", p.InWords(), p.Contract, p.ByPart[money.Contract])
		}
	}
}

// inJSON is the file of an answer.
func inJSON(t *testing.T, a question.Answer, s *study.Study) string {
	t.Helper()
	var out bytes.Buffer
	if err := render.JSON(&out, a.Document(), s.File.Units); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// withoutContracts removes the contracts of the test plant.
func withoutContracts(t *testing.T, text string) []byte {
	t.Helper()
	cut := func(from, to string) {
		before, rest, found := strings.Cut(text, from)
		_, after, closed := strings.Cut(rest, to)
		if !found || !closed {
			t.Fatalf("no %q", from)
		}
		text = before + after
	}
	cut("hauling_contract:", "price: 110 USD/t\n")
	cut("  - name: a second landfill\n", "1,200 USD/year\"}\n")
	cut("  - {name: another plant", "1,200 USD/year\"}\n")
	return []byte(text)
}
