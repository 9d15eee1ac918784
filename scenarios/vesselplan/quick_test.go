package vesselplan

import (
	"bytes"
	"context"
	"errors"
	"strings"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/render"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
)

// dunmarrow is the invented plant of three vessels after edits: old, new, old, new …
func dunmarrow(t *testing.T, edits ...string) *facilityfile.File {
	t.Helper()
	text := string(examples.Data("dunmarrow"))
	for i := 0; i < len(edits); i += 2 {
		if strings.Count(text, edits[i]) != 1 {
			t.Fatalf("%q is not there once", edits[i])
		}
		text = strings.Replace(text, edits[i], edits[i+1], 1)
	}
	f, err := facilityfile.Parse("plant.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func json(t *testing.T, a *Answer) string {
	t.Helper()
	var b bytes.Buffer
	if err := render.JSON(&b, a.Document(), units.SI); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// What a study is lent saves its runs. With other prices alone the answer is to the last
// byte that of a study of its own. With other growth a first look is within the range of
// what is then found closely, and says that it is one; where nothing was lent few runs
// tell it.
func TestQuickLooks(t *testing.T) {
	ctx, runs := context.Background(), capability.Fewest
	file := dunmarrow(t, "growth: {linear: 1.2 %/year}", "growth: {linear: 2.4 %/year}", "horizon: 20 year", "horizon: 12 year")
	base, err := study.New(file, 0)
	if err != nil {
		t.Fatal(err)
	}
	ask := func(s *study.Study, o Options) *Answer {
		t.Helper()
		o.Runs = runs
		a, err := Ask(ctx, s, answer.Setup{Source: "plant.yaml"}, o)
		if err != nil {
			t.Fatal(err)
		}
		return a
	}
	quick := ask(base, Options{Quick: true})
	found := ask(base, Options{})
	if !quick.Quick || quick.Runs != quickRuns || found.Quick {
		t.Errorf("a first look is not told from the answer: %+v", quick.Basis)
	}
	near(t, "by few runs", quick, found)
	if text := rendertest.Text(t, quick.Document(), units.SI); !strings.Contains(text, "A first look") {
		t.Errorf("it does not say that it is a first look:\n%s", text)
	}

	dearer := dunmarrow(t, "growth: {linear: 1.2 %/year}", "growth: {linear: 2.4 %/year}", "horizon: 20 year", "horizon: 12 year", "lead_time: 10 day", "lead_time: 10 day\n  price: 19 USD/m3")
	if kin := capability.Kin(file, dearer); kin != capability.ByPrices {
		t.Errorf("with another price the plants are %v", kin)
	}
	lent, err := base.For(dearer)
	if err != nil {
		t.Fatal(err)
	}
	if err := capability.Lend(ctx, base, lent, runs); err != nil {
		t.Fatal(err)
	}
	own, err := base.For(dearer)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := json(t, ask(lent, Options{})), json(t, ask(own, Options{})); got != want {
		t.Error("what was lent changes the answer")
	}

	faster := dunmarrow(t, "growth: {linear: 1.2 %/year}", "growth: {linear: 3.2 %/year}", "horizon: 20 year", "horizon: 12 year")
	if kin := capability.Kin(file, faster); kin != capability.ByGrowth {
		t.Errorf("with another growth the plants are %v", kin)
	}
	if lent, err = base.For(faster); err != nil {
		t.Fatal(err)
	}
	if err := capability.Lend(ctx, base, lent, runs); err != nil {
		t.Fatal(err)
	}
	quick = ask(lent, Options{Quick: true})
	if quick.Simulated >= found.Simulated || quick.Check.Runs > 0 {
		t.Errorf("what was lent saves no runs: %d years, closely %d", quick.Simulated, found.Simulated)
	}
	if own, err = base.For(faster); err != nil {
		t.Fatal(err)
	}
	closely := ask(own, Options{})
	near(t, "by what was lent", quick, closely)
	if closely.All.Rows[0].Short >= found.All.Rows[0].Short {
		t.Error("faster growth does not move the order")
	}
}

// near compares the quarters in which the vessels installed run short.
func near(t *testing.T, what string, quick, closely *Answer) {
	t.Helper()
	const apart = 8 // quarters
	q, c := quick.All.Rows[0], closely.All.Rows[0]
	t.Logf("%s: short in quarter %d to %d, closely %d to %d", what, q.Short, q.ShortTo, c.Short, c.ShortTo)
	if c.Short > q.ShortTo+apart || c.ShortTo < q.Short-apart {
		t.Errorf("%s: quarter %d to %d, closely %d to %d", what, q.Short, q.ShortTo, c.Short, c.ShortTo)
	}
}

// Files whose plants may carry different amounts are told from those that carry the same.
func TestKin(t *testing.T) {
	plain := dunmarrow(t)
	for _, c := range []struct {
		old, new string
		want     capability.Kinship
	}{
		{"name: Dunmarrow compost plant", "name: Another", capability.ByPrices},
		{"linear: 1.2 %/year", "compound: 1.2 %/year", capability.ByGrowth},
		{"installed: 3", "installed: 4", capability.Apart},
		{"cake_solids: 23 %", "cake_solids: 24 %", capability.Apart},
		{"seed: 1", "seed: 2", capability.Apart},
		{"dry_per_day: 0.18 t/day", "dry_per_day: 0.19 t/day", capability.Apart},
		{"horizon: 20 year", "horizon: 19 year", capability.Apart},
	} {
		other := dunmarrow(t, c.old, c.new)
		if got := capability.Kin(plain, other); got != c.want {
			t.Errorf("%s: %v, want %v", c.new, got, c.want)
		}
		if c.want == capability.Apart {
			a, _ := study.New(plain, 1)
			b, _ := study.New(other, 1)
			if err := capability.Lend(context.Background(), a, b, capability.Replications); err == nil {
				t.Errorf("%s: something is lent", c.new)
			}
		}
	}
}

// Where years lean on those before, there is no quick look.
func TestNoQuickLook(t *testing.T) {
	s, err := study.New(dunmarrow(t, "capacity_dry: 2.6 t", "capacity_dry: 40 t"), 1)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Ask(context.Background(), s, answer.Setup{}, Options{Quick: true}); !errors.Is(err, ErrNoQuickLook) {
		t.Errorf("the error is %v", err)
	}
}
