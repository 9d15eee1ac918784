package expand

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func drawProgram(t *rapid.T) *program {
	most := rapid.SliceOfN(rapid.IntRange(0, 2), 1, 3).Draw(t, "most")
	years := rapid.IntRange(1, 4).Draw(t, "years")
	p := &program{lattice: newLattice(most), years: years}
	for range most {
		p.cost = append(p.cost, rapid.SliceOfN(rapid.Float64Range(-3, 10), years, years).Draw(t, "cost"))
	}
	p.lasts = rapid.SliceOfN(rapid.IntRange(-1, years-1), p.size, p.size).Draw(t, "lasts")
	p.barred = rapid.SliceOfN(rapid.Map(rapid.IntRange(0, 9), func(n int) bool { return n == 0 }), p.size, p.size).Draw(t, "barred")
	if rapid.Bool().Draw(t, "costs by the year") {
		for range p.size {
			p.yearly = append(p.yearly, rapid.SliceOfN(rapid.Float64Range(0, 5), years, years).Draw(t, "in each year"))
		}
	}
	return p
}

// inYear is what a configuration costs beside in a year.
func (p *program) inYear(config, year int) float64 {
	if p.yearly == nil {
		return 0
	}
	return p.yearly[config][year]
}

// tryAll walks through every sequence of configurations that keeps the target, and
// returns how far the furthest gets, and the least cost of getting so far by the
// configuration that it ends with.
func (p *program) tryAll() (through int, least []float64) {
	best := make([][]float64, p.years)
	for y := range best {
		best[y] = p.infinite()
	}
	var walk func(year, config int, cost float64)
	walk = func(year, config int, cost float64) {
		if year == p.years {
			return
		}
		for next := range p.size {
			if !p.within(config, next) || p.lasts[next] < year || p.barred[next] {
				continue
			}
			sum := cost + p.inYear(next, year)
			for i := range p.most {
				sum += float64(p.count(next, i)-p.count(config, i)) * p.cost[i][year]
			}
			best[year][next] = min(best[year][next], sum)
			walk(year+1, next, sum)
		}
	}
	walk(0, 0, 0)
	for y := p.years - 1; y >= 0; y-- {
		for _, cost := range best[y] {
			if finite(cost) {
				return y, best[y]
			}
		}
	}
	return -1, p.infinite()
}

// The program gets as far as trying every sequence of configurations does, and
// finds the same least cost for each end; it proposes exactly the ends that no
// step can be left out of; its plans keep the target, never shrink, and cost what
// it says.
func TestProgramAgainstAllSequences(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProgram(t)
		wantThrough, least := p.tryAll()
		through, plans := p.solve()
		if through != wantThrough {
			t.Fatalf("keeps through %d, by trying all %d", through, wantThrough)
		}
		proposed := map[int]bool{}
		for i, plan := range plans {
			end := plan.configs[len(plan.configs)-1]
			proposed[end] = true
			if !near(plan.cost, least[end]) || !near(plan.cost, p.check(t, plan)) {
				t.Fatalf("plan %v costs %v; by its steps %v, at least %v", plan.configs, plan.cost, p.check(t, plan), least[end])
			}
			if i > 0 && plan.cost < plans[i-1].cost {
				t.Fatalf("plan %d is cheaper than the one before", i)
			}
		}
		for c, cost := range least {
			if needed := finite(cost) && p.needsAllOf(least, c); needed != proposed[c] {
				t.Fatalf("configuration %v: proposed %v, but no step can be left out: %v", p.counts(c), proposed[c], needed)
			}
		}
	})
}

// check adds up what the steps of a plan cost, and sees to it that it can be.
func (p *program) check(t *rapid.T, plan path) float64 {
	sum, before := 0.0, 0
	for y, c := range plan.configs {
		if !p.within(before, c) || p.lasts[c] < y || p.barred[c] {
			t.Fatalf("plan %v cannot be in year %d", plan.configs, y)
		}
		for i := range p.most {
			sum += float64(p.count(c, i)-p.count(before, i)) * p.cost[i][y]
		}
		sum += p.inYear(c, y)
		before = c
	}
	return sum
}

// needsAllOf reports whether the cost rises clearly when any step is left out.
func (p *program) needsAllOf(least []float64, config int) bool {
	for i := range p.most {
		if p.count(config, i) > 0 && least[config-p.strides[i]] <= least[config] {
			return false
		}
	}
	return true
}

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*(1+math.Abs(a)+math.Abs(b)) }

// Among plans of the same cost steps come as late as they may: a step that costs
// the same in every year comes when the plant is short, not before.
func TestStepsComeLate(t *testing.T) {
	p := program{
		lattice: newLattice([]int{1}), years: 4,
		cost: [][]float64{{5, 5, 5, 5}}, lasts: []int{1, 3}, barred: make([]bool, 2),
	}
	_, plans := p.solve()
	if want := []int{0, 0, 1, 1}; len(plans) != 1 || plans[0].configs[1] != want[1] || plans[0].configs[2] != want[2] {
		t.Errorf("plans %v, want %v", plans, want)
	}
}

// Configurations are numbered without gaps, and counts and strides agree.
func TestLattice(t *testing.T) {
	l := newLattice([]int{2, 0, 1})
	if l.size != 6 {
		t.Fatalf("%d configurations, want 6", l.size)
	}
	for c := range l.size {
		sum := 0
		for i, n := range l.counts(c) {
			sum += n * l.strides[i]
		}
		if sum != c {
			t.Errorf("configuration %d has counts %v", c, l.counts(c))
		}
	}
	if !l.within(1, 5) || l.within(2, 4) {
		t.Error("which configuration contains which is wrong")
	}
}

// Plans that differ only by what comes in the last tenth of the horizon are one,
// the cheapest: of three ways to last the twenty years, the two that begin alike
// and differ in the last year are not both proposed.
func TestPlansDifferBeforeTheEnd(t *testing.T) {
	flat := func(cost float64) []float64 {
		out := make([]float64, 20)
		for y := range out {
			out[y] = cost
		}
		return out
	}
	// A lasts to the 19th year; B or C takes it through the 20th; D does all alone.
	p := program{lattice: newLattice([]int{1, 1, 1, 1}), years: 20, cost: [][]float64{flat(5), flat(1), flat(2), flat(9)}, barred: make([]bool, 16)}
	for c := range p.size {
		last := 4
		switch {
		case p.count(c, 3) == 1 || p.count(c, 0) == 1 && p.count(c, 1)+p.count(c, 2) > 0:
			last = 19
		case p.count(c, 0) == 1:
			last = 18
		}
		p.lasts = append(p.lasts, last)
	}
	_, plans := p.solve()
	if len(plans) != 2 || plans[0].cost != 6 || plans[1].cost != 9 {
		t.Errorf("plans %v", plans)
	}
}

// counts returns how often each step has been taken.
func (l *lattice) counts(config int) []int {
	out := make([]int, len(l.most))
	for i := range out {
		out[i] = l.count(config, i)
	}
	return out
}
