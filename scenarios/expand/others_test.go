package expand

import (
	"context"
	"math"
	"slices"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/units"
)

// Plans are compared for the first place that are dearer than the first by no more than a
// hundredth of the present worth, here of 1,000,000 USD of running and 200,000 USD of
// steps: 12,000 USD. They are four at most, and as many are shown as are asked for.
func TestContenders(t *testing.T) {
	e := &expansion{running: 1e6, shown: 2}
	costing := func(costs ...float64) (out []path) {
		for _, c := range costs {
			out = append(out, path{cost: c})
		}
		return out
	}
	for _, x := range []struct {
		costs []float64
		want  int
	}{
		{nil, 0}, {[]float64{200e3}, 1}, {[]float64{200e3, 212.1e3, 213e3}, 1}, {[]float64{200e3, 211.9e3, 212.1e3}, 2},
		{[]float64{200e3, 201e3, 202e3, 203e3, 204e3}, mostContenders},
	} {
		if got := len(e.contenders(costing(x.costs...))); got != x.want {
			t.Errorf("%v: %d contenders, want %d", x.costs, got, x.want)
		}
		if got := len(e.toShow(costing(x.costs...))); got != min(2, len(x.costs)) {
			t.Errorf("%v: %d to show, want 2", x.costs, got)
		}
	}
}

// The plan that Cheapest returns stays the first when others are looked at to be shown
// beside it, and these come in order of their cost. One that whole runs contradict is
// not shown, and the first is still the same.
func TestOthersGoBesideTheFirst(t *testing.T) {
	ctx := context.Background()
	e := screened(t)
	c, through, err := e.settle(ctx)
	if err != nil {
		t.Fatal(err)
	}
	first := c.plans[0]
	all, err := e.others(ctx, c, through)
	if err != nil {
		t.Fatal(err)
	}
	if all.plans[0] != first || len(all.plans) < 2 || len(all.plans) > e.shown {
		t.Fatalf("%d plans, the first %v, found %v", len(all.plans), all.plans[0].configs, first.configs)
	}
	over := math.Inf(-1)
	for _, w := range all.plans[1:] {
		if w.over(first) < over {
			t.Errorf("%v costs %g more than the first, the one before %g", w.configs, w.over(first), over)
		}
		over = w.over(first)
	}
	next := all.plans[1]
	year := slices.IndexFunc(next.configs, func(config int) bool { return config != 0 && !slices.Contains(first.configs, config) })
	if year < 0 {
		t.Fatalf("%v has nothing that %v has not", next.configs, first.configs)
	}
	for rep := range next.runs {
		next.runs[rep].missed[year] = true
	}
	all, err = e.others(ctx, c, through)
	if err != nil {
		t.Fatal(err)
	}
	if all.plans[0] != first || slices.Contains(all.plans, next) {
		t.Errorf("%v is shown beside %v, although all its runs miss year %d", next.configs, all.plans[0].configs, year)
	}
}

// Whoever asks for the plan alone, or for any number of plans, is told the same first, at the
// same cost.
func TestOnePlanIsTheFirstOfMore(t *testing.T) {
	s := screened(t).study
	found, err := Cheapest(context.Background(), s, answer.Setup{}, Options{Replications: 10})
	if err != nil {
		t.Fatal(err)
	}
	words := found.InWords().Plain(units.SI)
	for _, plans := range []int{1, 3} {
		a, err := Ask(context.Background(), s, answer.Setup{}, Options{Replications: 10, Plans: plans})
		if err != nil {
			t.Fatal(err)
		}
		if len(a.Plans) > plans {
			t.Errorf("%d plans shown, %d asked for", len(a.Plans), plans)
		}
		if got := a.Plans[0].InWords().Plain(units.SI); got != words {
			t.Errorf("of %d plans the first is %s, asked for alone %s", plans, got, words)
		}
		if got := a.Plans[0].Present; got != found.Present {
			t.Errorf("of %d plans the first costs %+v, asked for alone %+v", plans, got, found.Present)
		}
	}
}
