package facilityfile

import (
	"strings"
	"testing"

	"loamcast/scenarios/examples"
)

// edit parses the demo with some texts replaced, each of which is there.
func edit(t *testing.T, oldNew ...string) (*File, error) {
	t.Helper()
	text := string(examples.Data(examples.Demo))
	for i := 0; i < len(oldNew); i += 2 {
		if !strings.Contains(text, oldNew[i]) {
			t.Fatalf("%q is not in the file", oldNew[i])
		}
		text = strings.Replace(text, oldNew[i], oldNew[i+1], 1)
	}
	return Parse("plant.yaml", []byte(text))
}

// A rate where a form of growth is needed is answered with what to write for it.
func TestGrowthByItself(t *testing.T) {
	for rate, want := range map[string]string{
		"2.2 %/year":        "write growth: {compound: 2.2 %/year}, or another form of growth",
		"2.2 %":             "write growth: {compound: 2.2 %/year}, or another form of growth",
		"2.2":               "write growth: {compound: 2.2 %/year}, or another form of growth",
		"0.4 %/month":       "write growth: {compound: 0.4 %/month}, or another form of growth",
		"as fast as before": "write growth: {compound: 2 %/year}, or another form of growth",
	} {
		for _, at := range []string{"\n  growth: {compound: 2.2 %/year}", ", growth: {logistic: {ceiling: 1.4, rate: 5 %/year}}"} {
			key, _, _ := strings.Cut(at, "{")
			_, err := edit(t, at, key+rate)
			if err == nil || strings.Count(err.Error(), "a single value stands where a group of keys is needed") != 1 || !strings.Contains(err.Error(), want) {
				t.Errorf("%s%s: %v, want %s", key, rate, err, want)
			}
		}
	}
}

// A name that looks like an amount of money does not decide the currency of a file: the
// first amount of a key that is money does.
func TestNamesAreNoMoney(t *testing.T) {
	f, err := edit(t, "name: Fennick Valley compost plant", "name: 5 GBP")
	if err != nil {
		t.Fatal(err)
	}
	if f.Currency != "USD" || f.Name != "5 GBP" {
		t.Errorf("%s is in %s", f.Name, f.Currency)
	}
	if _, err := edit(t, "  price: 11 USD/yd3", "  price: 11 GBP/yd3"); err == nil || !strings.Contains(err.Error(), `is in USD, but the file's money is GBP since line `) {
		t.Errorf("a price in pounds before all others: %v", err)
	}
}
