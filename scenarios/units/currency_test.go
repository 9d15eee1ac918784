package units

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Money may be written in any currency, by its code or where it has one by its sign;
// to the parser they are one unit.
func TestCurrencies(t *testing.T) {
	for _, c := range []struct {
		text string
		dim  Dimension
		code string
		want float64
	}{
		{"42,000 EUR", Money, "EUR", 42000},
		{"€42,000", Money, "EUR", 42000},
		{"-€ 5", Money, "EUR", -5},
		{"10 euros", Money, "EUR", 10},
		{"£0.35/m3", MoneyPerVolume, "GBP", 0.35},
		{"1 CAD/t", MoneyPerMass, "CAD", 0.001},
		{"36 NZD/kWh", MoneyPerEnergy, "NZD", 0.01},
		{"$7", Money, "USD", 7},
		{"7 usd", Money, "USD", 7},
		{"7 KGS", Money, "KGS", 7},
		{"0.35 /m3", MoneyPerVolume, "", 0.35},
		{"7 kgs", Mass, "", 7},
		{"3 MGD", VolumePerTime, "", 3 * 3785.411784},
		{"3 EUR/EUR", Ratio, "", 3},
	} {
		got, err := Parse(c.text, c.dim)
		if err != nil || !nearly(got, c.want) || CurrencyOf(c.text) != c.code {
			t.Errorf("%q is %.12g in %q (%v), want %.12g in %q", c.text, got, CurrencyOf(c.text), err, c.want, c.code)
		}
	}
	for _, text := range []string{"", "EUR", "12 m3", "12 XYQ", "plain words"} {
		if code := CurrencyOf(text); code != "" {
			t.Errorf("%q is in %s", text, code)
		}
	}
}

// No code is a unit of another kind, no two are the same, and each is written as the
// standard has it.
func TestCodesAreCodes(t *testing.T) {
	if n := len(currencies); n < 150 || currencies[0] != USD {
		t.Errorf("%d currencies, the first %s", n, currencies[0])
	}
	for i, code := range currencies {
		if len(code) != 3 || strings.Trim(code, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" || slices.Contains(currencies[:i], code) {
			t.Errorf("%s is no code, or twice there", code)
		}
		if u := exactNames[code]; u == nil || u.powers != money || u.currency != code {
			t.Errorf("%s is %+v", code, u)
		}
	}
}

// What is shown in a currency reads as the same amount in that currency, names in
// files end in it, and units without money are as ever.
func TestShownInACurrency(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		code := rapid.SampledFrom(currencies).Draw(t, "code")
		dim := rapid.SampledFrom(Dimensions()).Draw(t, "dimension")
		base := rapid.SampledFrom([]System{US, SI}).Draw(t, "system")
		s := base.With(code)
		if s.Currency() != code || s.Metric() != base.Metric() || s.With(USD) != base {
			t.Fatalf("%v with %s is %v", base, code, s)
		}
		value, label := Convert(1, dim, s)
		plainValue, plainLabel := Convert(1, dim, base)
		if value != plainValue || label != strings.ReplaceAll(plainLabel, "USD", code) {
			t.Fatalf("%g %s and %g %s", value, label, plainValue, plainLabel)
		}
		if want := strings.ReplaceAll(FieldSuffix(dim, base), "usd", strings.ToLower(code)); FieldSuffix(dim, s) != want {
			t.Fatalf("suffix %s, want %s", FieldSuffix(dim, s), want)
		}
		text := FormatDigits(1234.5, dim, s, 12)
		if strings.Contains(text, "USD") != (code == USD && strings.Contains(plainLabel, "USD")) {
			t.Fatalf("%s in %s", text, code)
		}
		read, err := Parse(text, dim)
		if err != nil || math.Abs(read-1234.5) > 1e-6 {
			t.Fatalf("%q reads as %g (%v)", text, read, err)
		}
		if got := CurrencyOf(text); strings.Contains(plainLabel, "USD") != (got == code) {
			t.Fatalf("%q is in %q", text, got)
		}
	})
}

// The currency of a message is that of the text it answers.
func TestSystemOfCurrency(t *testing.T) {
	if s := SystemOf("5 EUR/yd3"); s != US.With("EUR") {
		t.Errorf("%v", s)
	}
	if s := SystemOf("5 GBP/m3"); s != SI.With("GBP") {
		t.Errorf("%v", s)
	}
}
