package vesselplan

import (
	"bytes"
	"context"
	"slices"
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
	"loamcast/sim/stats"
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
// tell it. An answer after looks is to the last byte that of a study that was not looked
// at, and its runs are theirs and those that were still to come.
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
	looks, err := Looks(file)
	if err != nil || len(looks) != 4 || looks[0] != (Look{Runs: 16}) || looks[1] != (Look{Runs: 32}) || looks[3] != (Look{Runs: 64, More: true}) {
		t.Fatalf("the looks are %+v, %v", looks, err)
	}
	quick := ask(base, Options{Look: looks[0]})
	more := ask(base, Options{Look: Look{Runs: runs, More: true}})
	found := ask(base, Options{})
	if quick.Look != looks[0] || quick.Runs != firstRuns || found.Look != (Look{}) {
		t.Errorf("a first look is not told from the answer: %+v", quick.Basis)
	}
	if len(quick.All.Rows) != 1 || len(more.All.Rows) != len(found.All.Rows) || more.Check.Runs > 0 || more.Sign != nil || more.Batch.Vessels != found.Batch.Vessels {
		t.Errorf("the looks have %d and %d rows, the answer %d", len(quick.All.Rows), len(more.All.Rows), len(found.All.Rows))
	}
	apart, err := base.For(file)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := json(t, found), json(t, ask(apart, Options{})); got != want {
		t.Errorf("looks change the answer:\n%s", got)
	}
	if q, c := quick.All.Rows[0], found.All.Rows[0]; width(q.Shares) <= width(c.Shares) {
		t.Errorf("a look by %d runs is as sure as the answer: %v, %v", quick.Runs, q.Shares, c.Shares)
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
	quick = ask(lent, Options{Look: LentLook(runs)})
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

// width is the sum of the ranges of shares.
func width(shares []stats.Interval) float64 {
	sum := 0.0
	for _, in := range shares {
		sum += in.High - in.Low
	}
	return sum
}

// Where years hang together, a few whole horizons are a first look, with the range that so
// few leave: none of six runs that misses is not 0 %. The answer by more is to the last byte
// that of a study that was not looked at, whether it is made of whole horizons or not.
func TestLooksAtWholeHorizons(t *testing.T) {
	grows := []string{"growth: {linear: 1.2 %/year}", "growth: {linear: 6 %/year}", "horizon: 20 year", "horizon: 6 year"}
	for _, c := range []struct {
		name  string
		edits []string
		looks []Look
	}{
		{"leaning", append(grows, "capacity_dry: 2.6 t", "capacity_dry: 15 t"), []Look{{Runs: 6}, {Runs: 12}, {Runs: 24}, {Runs: 48}}},
		{"pulses", append(grows, "  cake_solids: 23 %\n", "  cake_solids: 23 %\n  pulses: [{from: 2029-05-01, for: 14 day, dry_per_day: 0.05 t/day}]\n"), []Look{{Runs: 6}}},
	} {
		file := dunmarrow(t, c.edits...)
		looks, err := Looks(file)
		if err != nil || !slices.Equal(looks, c.looks) {
			t.Fatalf("%s: the looks are %+v, %v", c.name, looks, err)
		}
		s, err := study.New(file, 0)
		if err != nil {
			t.Fatal(err)
		}
		ask := func(s *study.Study, l Look) *Answer {
			t.Helper()
			a, err := Ask(context.Background(), s, answer.Setup{Source: "plant.yaml"}, Options{Look: l, UpTo: 3, Runs: capability.Fewest})
			if err != nil {
				t.Fatal(err)
			}
			return a
		}
		quick := ask(s, looks[0])
		for _, in := range quick.All.Rows[0].Shares {
			if in.High-in.Low < 0.3 || in.Estimate < in.Low || in.Estimate > in.High {
				t.Errorf("%s: six runs tell a share as %+v", c.name, in)
			}
		}
		if text := rendertest.Text(t, quick.Document(), units.SI); !strings.Contains(text, "A first look by 6 runs") || strings.Contains(text, "in 2031 (0 to 0") {
			t.Errorf("%s: the look is told as\n%s", c.name, text)
		}
		closer := ask(s, Look{Runs: 12})
		if closer.Simulated <= quick.Simulated {
			t.Errorf("%s: a closer look has %d years, the first %d", c.name, closer.Simulated, quick.Simulated)
		}
		near(t, c.name, quick, closer)
		apart, err := s.For(file)
		if err != nil {
			t.Fatal(err)
		}
		found := ask(s, Look{})
		if got, want := json(t, found), json(t, ask(apart, Look{})); got != want {
			t.Errorf("%s: looks change the answer", c.name)
		}
		if found.Look.Runs != 0 || found.Calendar == "" {
			t.Errorf("%s: the answer is %+v", c.name, found.Look)
		}
	}
}

// Where no more vessels than those installed are to be tried, a first year that is missed
// is told and not looked into for ever.
func TestFirstYearMissedWithoutMore(t *testing.T) {
	file := dunmarrow(t, "dry_per_day: 0.18 t/day", "dry_per_day: 0.4 t/day", "horizon: 20 year", "horizon: 4 year", "capacity_dry: 2.6 t", "capacity_dry: 40 t")
	s, err := study.New(file, 0)
	if err != nil {
		t.Fatal(err)
	}
	a, err := Ask(context.Background(), s, answer.Setup{}, Options{Look: Look{Runs: firstWhole}})
	if err != nil {
		t.Fatal(err)
	}
	if r := a.All.Rows[0]; r.FirstMissed != 0 || len(a.All.Rows) != 1 {
		t.Errorf("the row is %+v", r)
	}
}
