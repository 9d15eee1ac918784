package drivers_test

import (
	"context"
	"errors"
	"os"
	"strings"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/drivers"
	"loamcast/scenarios/facilityfile"
)

// priced returns the plant of testdata in which what is built may cost a tenth less to
// three tenths more, and whose pad may grow.
func priced(t *testing.T) *facilityfile.File {
	t.Helper()
	data, err := os.ReadFile("testdata/hand.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(data), "uncertain:\n", "uncertain:\n  - {input: money.capital, uniform: [-10 %, 30 %]}\n", 1) + `
options:
  - name: larger pad
    steps:
      - {date: 2028-01-01, pad: 100 m3, cost: "40,000 USD", life: 8 year}
catalogue:
  - {name: one vessel, vessels: 1, cost: "90,000 USD"}
`
	f, err := facilityfile.Parse("priced.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	f.Model.Years = 4
	return f
}

// What capital does to an option, by hand: a pad for 40,000 USD that lasts 8 years is used
// for the last 3 of 4 and is worth five eighths of its cost at the end, so that it costs
// 15,000 USD, of which the range of 40 points of capital is 6,000. The plant as it is
// spends nothing on it, and the cost in the mean is that much lower: by 15,000 USD at the
// median of 10 % more, 16,500. The search builds nothing, for the plant keeps its target:
// its growth is level in the scenario of most weight, and eight vessels carry a third more.
func TestCapitalOfAnOptionByHand(t *testing.T) {
	f := priced(t)
	f.Planning.Growths = f.Planning.Growths[1:2]
	cost := func(option string) *drivers.Answer {
		return plan(t, f, drivers.Options{Output: drivers.PresentWorth, Replications: 1, Option: option})
	}
	asIs, pad := cost(""), cost("larger pad")
	within(t, "capital of the plant as it is", keyed(asIs)["money.capital"].Effect.MuStar.Estimate, 0, 0)
	within(t, "capital", keyed(pad)["money.capital"].Effect.MuStar.Estimate, 6000, 1e-6)
	within(t, "cost over that of the plant as it is", pad.Mean-asIs.Mean, 16500, 1500)
	if best := cost(drivers.Best); !best.Of.Found || best.Mean != asIs.Mean {
		t.Errorf("the best of the catalogue, found: %v, costs %g, the plant as it is %g", best.Of.Found, best.Mean, asIs.Mean)
	}
}

// An option that the file does not have is refused with those that it has, and so is one
// for an answer that it does not count for.
func TestOptionsRefused(t *testing.T) {
	bare := handFile(t, level, "solids.dry_per_day")
	for _, c := range []struct {
		file *facilityfile.File
		o    drivers.Options
		want string
	}{
		{priced(t), drivers.Options{Output: drivers.PresentWorth, Option: "pad"}, `the file has "larger pad", "best"`},
		{priced(t), drivers.Options{Output: drivers.VesselYear, Option: "larger pad"}, "ask for --answer cost or chips"},
		{bare, drivers.Options{Output: drivers.PresentWorth, Option: drivers.Best}, "neither options nor a catalogue"},
	} {
		_, err := ask(context.Background(), t, c.file, 0, c.o)
		if !errors.As(err, new(*answer.OptionError)) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: %v", c.o, err)
		}
	}
}
