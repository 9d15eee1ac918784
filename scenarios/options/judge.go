package options

import (
	"cmp"
	"math"
	"slices"

	"loamcast/sim/compare"
)

// judge ranks the choices by the runs made so far.
func (c *comparison) judge() (*Answer, error) {
	a := &Answer{Basis: c.setup.Basis(c.file).Replicated(c.compared()), Missing: c.file.Planning.Economy.Prices.Missing.Amount}
	var worth [][]float64 // by choice and replication, over the growth scenarios
	for i, name := range c.names {
		if c.odds[i] != nil && c.contradicted(i) {
			c.odds[i] = nil
		}
		service, err := c.service(i, c.everywhere())
		if err != nil {
			return nil, err
		}
		a.Choices = append(a.Choices, Choice{Name: name, AsIs: i == asIs, Replications: c.replications(i), Judged: c.judged(i), Service: service})
		if i == c.found {
			a.Choices[i].Found, a.Choices[i].Words = true, c.plan.InWords()
			a.Choices[i].Told, a.Choices[i].ToldRuns = c.plan.Present.Estimate, c.plan.Replications
		}
		worth = append(worth, c.worth(i, c.everywhere()))
		a.Order = append(a.Order, i)
	}
	means := make([]float64, len(worth))
	for i := range worth {
		means[i] = c.expected(i, slices.Index(c.out, false), c.everywhere(), presentWorth)
	}
	a.place()
	slices.SortStableFunc(a.Order, func(i, j int) int {
		return cmp.Or(cmp.Compare(a.Choices[i].Standing, a.Choices[j].Standing), cmp.Compare(means[i], means[j]))
	})
	if err := a.decide(worth); err != nil {
		return nil, err
	}
	if err := c.summarise(a); err != nil {
		return nil, err
	}
	a.Settled = a.Chance >= enough && !slices.ContainsFunc(a.Order, a.inDoubt) && !slices.ContainsFunc(a.Order, a.yearInDoubt)
	return a, nil
}

// place sorts the choices by how well they serve.
func (a *Answer) place() {
	least := math.Inf(1)
	for i := range a.Choices {
		if s := &a.Choices[i].Service; !s.Keeps {
			least = min(least, s.YearsMissed)
		}
	}
	for i := range a.Choices {
		switch s := &a.Choices[i].Service; {
		case s.Keeps:
			a.Choices[i].Standing = Keeps
		case s.YearsMissed <= least+1:
			a.Choices[i].Standing = Nearest
		default:
			a.Choices[i].Standing = Misses
		}
	}
}

// decide works out the chance that the first is the cheapest of those that serve
// as well.
func (a *Answer) decide(worth [][]float64) error {
	var rivals [][]float64
	for _, i := range a.Order {
		if a.Choices[i].Standing == a.First().Standing {
			rivals = append(rivals, worth[i])
		}
	}
	a.Chance = 1
	if len(rivals) == 1 {
		return nil
	}
	n := len(rivals[0])
	for _, xs := range rivals {
		n = min(n, len(xs))
	}
	for i := range rivals {
		rivals[i] = rivals[i][:n]
	}
	var err error
	_, a.Chance, err = compare.Best(rivals, compare.Lowest)
	return err
}

// outOfIt reports whether choice i is out of it: by what the plant carries it surely
// misses the target, which the first surely keeps. Few runs tell well enough what it
// costs, for differences are of the same luck. The plant as it is never is, for all that
// is told over it.
func (a *Answer) outOfIt(i int) bool {
	s, first := &a.Choices[i].Service, &a.First().Service
	return i != asIs && first.Keeps && first.Sure && !first.ByRuns && !s.Keeps && s.Sure && !s.ByRuns
}

// plain reports whether a first round is enough.
func (a *Answer) plain() bool {
	d := a.beside().All.OverFirst
	return a.Chance >= enoughAtOnce && d.HalfWidth() <= knownTo*math.Abs(d.Estimate)
}

// inDoubt reports whether more replications could show that choice i keeps the
// target or does not, and so that another comes first: it is the first itself, or
// cheaper, or none keeps the target.
func (a *Answer) inDoubt(i int) bool {
	return !a.Choices[i].Service.Sure && a.matters(i)
}

// yearInDoubt reports whether more replications could show that choice i first
// misses the target in another year than is told, and that is told of a choice that
// matters.
func (a *Answer) yearInDoubt(i int) bool {
	return !a.Choices[i].Service.YearSure() && a.matters(i)
}

// matters reports whether what first comes may depend on how choice i serves: it is
// the first itself, or cheaper, or none keeps the target.
func (a *Answer) matters(i int) bool {
	c, first := &a.Choices[i], a.First()
	return c == first || c.All.OverFirst.Estimate < 0 || !first.Service.Keeps
}

// worth returns the present worths of the replications of a choice that the others
// have too, so that differences are of the same luck.
func (c *comparison) worth(choice int, growths []int) []float64 {
	return c.among(choice, growths, presentWorth)
}

// among returns one number of each replication of a choice that the others have too, or
// of those that it has if it is out of it.
func (c *comparison) among(choice int, growths []int, of func(*outcome) float64) []float64 {
	xs := c.weighted(choice, growths, of)
	return xs[:min(len(xs), c.compared())]
}

// expected is the mean of a number of a choice. One that has fewer replications than
// another, which is not out of it, has what that has, and what is between the two in the
// replications that both have: their luck is not its own.
func (c *comparison) expected(choice, other int, growths []int, of func(*outcome) float64) float64 {
	xs := c.among(choice, growths, of)
	if len(xs) == c.compared() {
		return mean(xs)
	}
	ys := c.among(other, growths, of)
	return mean(ys) + mean(xs) - mean(ys[:len(xs)])
}

// weighted returns one number of each replication of a choice: the mean over some
// growth scenarios, by their weights.
func (c *comparison) weighted(choice int, growths []int, of func(*outcome) float64) []float64 {
	xs := make([]float64, c.replications(choice))
	shares := c.shares(growths)
	for i, g := range growths {
		for j := range xs {
			xs[j] += shares[i] * of(&c.runs[choice][g][j])
		}
	}
	return xs
}

// each returns one number of each replication of a choice, as weighted does, and of each
// under a single one of the growth scenarios.
func (c *comparison) each(choice int, growths []int, of func(*outcome) float64) []float64 {
	xs := c.weighted(choice, growths, of)
	for i := range c.singles[choice] {
		if s := &c.singles[choice][i]; slices.Contains(growths, s.growth) {
			xs = append(xs, of(&s.outcome))
		}
	}
	return xs
}

// shares returns the weights of some growth scenarios, scaled to add up to 1; one
// that nobody believes in can still be looked at alone.
func (c *comparison) shares(growths []int) []float64 {
	if len(growths) == 1 {
		return []float64{1}
	}
	out, total := make([]float64, len(growths)), 0.0
	for i, g := range growths {
		out[i] = c.file.Planning.Growths[g].Weight
		total += out[i]
	}
	for i := range out {
		out[i] /= total
	}
	return out
}

// everywhere lists all growth scenarios.
func (c *comparison) everywhere() []int {
	all := make([]int, len(c.file.Planning.Growths))
	for g := range all {
		all[g] = g
	}
	return all
}
