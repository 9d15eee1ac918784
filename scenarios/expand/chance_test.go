package expand_test

import (
	"context"
	"flag"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/expand"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/digest"
	"loamcast/sim/replicate"
)

// How closely TestTheChanceIsRight looks; 200 seeds take half an hour of processor time, and
// may be asked in pieces:
//
//	go test ./scenarios/expand -run ChanceIsRight -v -timeout 2h -chance.seeds 200 -chance.runs 400
var (
	chanceSeeds = flag.Int("chance.seeds", 2, "seeds of TestTheChanceIsRight, from -chance.first on")
	chanceFirst = flag.Uint64("chance.first", 1, "the first of the seeds")
	chanceRuns  = flag.Int("chance.runs", 6, "whole runs of a plan that say what is true of it")
)

// What is told to be the cheapest plan that keeps the target is that as often as is
// told. Of a catalogue so small that all its plans can be simulated whole, some hundred
// times each if that is asked for, these runs say which keep the target in every year and
// what each costs in the mean. The search is repeated with other seeds, which none of the
// runs has met, and with each with another share of the runs that may miss, so that it lies
// now near to what plans miss and now far from it. The first plan is right if it keeps the
// target and costs no more than the cheapest that does, and what does not matter; as far as
// so many runs tell, or else it is open.
//
// The first plan is to keep the target as often as is told. Those of which it is told that
// they are the cheapest for nine in ten are to be, as far as can be told by so many. With
// less told, somewhat fewer are than is told: of 600 answers, of 200 seeds, 214 were the
// cheapest that keeps the target, by 10,000 whole runs of each set of steps, where 248 were
// promised; told with 6, 18, 39, 60, 80 and 97 % in the mean of bands, right were 1, 9, 26, 57,
// 81 and 99 %. All kept the target. With what the curves of 80 seeds say of 12 shares that may
// miss, 6, 18, 39, 59, 80 and 97 % told were right in 3, 12, 32, 54, 76 and 98, give or take 4. A
// chance makes much of a little: before, states that a fifth of the runs miss were told to miss
// up to 2.6 points more, now one, and right were 2, 5, 17, 36, 64 and 96. About one plant,
// which is near many limits at once, it cannot be quite what is told: of estimates off by
// just what is told, 3, 11, 26, 49, 72 and 98 are right.
//
// What the steps cost is such that vessels one by one are clearly the cheapest; or hardly
// cheaper than thicker cake and one vessel; or thicker cake is.
func TestTheChanceIsRight(t *testing.T) {
	if testing.Short() {
		t.Skip("runs in the round without -short")
	}
	f := uncertainFile(t)
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	f.Planning.Catalogue = slices.DeleteFunc(f.Planning.Catalogue, func(s facilityfile.Step) bool { return s.Name == "two vessels" })
	prices := []pricing{
		{"thicker cake is dear", [3]float64{200e3, 0, 900e3}, [3]float64{0, 0, 6000}},
		{"thicker cake costs about as much", [3]float64{200e3, 0, 205e3}, [3]float64{0, 0, 6000}},
		{"thicker cake is cheap", [3]float64{200e3, 0, 10e3}, [3]float64{0, 0, 6000}},
	}
	units := stepsOf(f)
	plans := simulatedPlans(t, s, units, prices)
	for _, p := range plans {
		if p.runs >= *chanceRuns {
			t.Logf("%s: %.0f USD at the prices, missed in %.3f of %d runs in the worst year", datesText(p.plan), p.presents(), p.worst(), p.runs)
		}
	}
	answers := askedUnderSeeds(t, s, prices)
	for k, price := range prices {
		t.Run(price.name, func(t *testing.T) {
			var all tally
			bands := make([]tally, 10)
			for i, a := range answers {
				seed := *chanceFirst + uint64(i)
				a := a[k]
				consistent(t, a)
				at := slices.IndexFunc(plans, func(p *simulated) bool { return slices.Equal(p.plan, datesOf(f, units, &a.Plans[0])) })
				by := verdict(plans, plans[at], k, mayMiss(seed), a.Indifference)
				all.add(a, by)
				bands[min(9, int(10*a.Chance))].add(a, by)
				if by.says != right {
					t.Logf("seed %d, %.3f may miss: %s, told with %.2f, %v: %.0f USD dearer than the cheapest", seed, mayMiss(seed), datesText(plans[at].plan), a.Chance, by.says, by.over)
				}
			}
			for i, b := range bands {
				if b.n > 0 {
					t.Logf("told with %d to %d %%: %v", 10*i, 10*i+10, b)
				}
			}
			t.Logf("all: %v", all)
			if most := (distuv.Binomial{N: float64(all.n), P: 1 - all.keeps/float64(all.n)}); all.missed > 0 && 1-most.CDF(float64(all.missed-1)) < 0.01 {
				t.Errorf("the target is surely missed in %d; by the chances given it should be in %.1f", all.missed, float64(all.n)-all.keeps)
			}
			sure := bands[9]
			if most := (distuv.Binomial{N: float64(sure.n), P: 0.1}); sure.says[wrong] > 0 && 1-most.CDF(float64(sure.says[wrong]-1)) < 0.01 {
				t.Errorf("%d of %d that are told with nine in ten are not the cheapest", sure.says[wrong], sure.n)
			}
		})
	}
}

// says is what whole runs say of a plan that is told to be the cheapest.
type says int

const (
	open says = iota
	right
	wrong
)

func (s says) String() string { return [...]string{"open", "right", "wrong"}[s] }

// judged is what they say of one, with what it costs more than the cheapest that keeps the
// target by their count, USD.
type judged struct {
	says
	missed bool // it surely misses the target
	over   float64
}

// verdict says what whole runs say of a plan at some prices.
func verdict(plans []*simulated, first *simulated, price int, mayMiss, indifference float64) judged {
	const alike = 0.005 // of the present worth, within which the search does not tell plans apart
	cheapest := func(times float64) float64 {
		best := math.Inf(1)
		for _, p := range plans {
			if p.surely(mayMiss, times) {
				best = min(best, p.present(price))
			}
		}
		return best
	}
	usd := first.present(price)
	within := max(indifference, alike*usd)
	out := judged{missed: !first.surely(mayMiss, 1), over: usd - cheapest(0)}
	switch {
	case out.missed || usd > cheapest(-1)+within:
		out.says = wrong
	case first.surely(mayMiss, -1) && usd <= cheapest(1)+within:
		out.says = right
	}
	return out
}

// tally counts answers.
type tally struct {
	n, missed              int
	says                   [3]int
	told, keeps, over, may float64
}

func (c *tally) add(a *expand.Answer, by judged) {
	c.n++
	c.says[by.says]++
	if by.missed {
		c.missed++
	}
	c.told, c.keeps, c.over, c.may = c.told+a.Chance, c.keeps+a.Doubt.Keeps, c.over+by.over, c.may+a.Doubt.Caution
}

func (c tally) String() string {
	n := float64(c.n)
	return fmt.Sprintf("%d answers, promised %.1f, right in %d, wrong in %d, open in %d; the target is missed in %d, promised %.1f; %.0f USD dearer than the cheapest, being sure told to cost %.0f", c.n, c.told,
		c.says[right], c.says[wrong], c.says[open], c.missed, n-c.keeps, c.over/n, c.may/n)
}

// consistent holds what an answer says of its chances against each other.
func consistent(t *testing.T, a *expand.Answer) {
	t.Helper()
	d := a.Doubt
	if math.Abs(a.Chance-a.OfThese*d.Stays) > 1e-12 || d.Stays > d.Keeps {
		t.Errorf("a chance of %g, of %g by costs and %g by what is carried, where %g keep the target", a.Chance, a.OfThese, d.Stays, d.Keeps)
	}
	if d.Keeps < capability.Sureness {
		t.Errorf("the first plan is told to keep the target with %g", d.Keeps)
	}
	switch r := d.Rival; {
	case r == nil && d.Stays != d.Keeps:
		t.Errorf("%g of %g stay, though nothing is told that may be cheaper", d.Stays, d.Keeps)
	case r != nil && (r.Less <= a.Indifference || r.Keeps <= 0 || r.Keeps > 1-d.Stays+1e-9 || slices.Equal(r.Steps, a.Plans[0].Steps)):
		t.Errorf("%+v may be cheaper, where the first stays with %g", r, d.Stays)
	}
}

// askedUnderSeeds asks for the cheapest plan under each seed at each of some prices: seeds
// side by side, and prices one after the other, each of which is lent what was found
// at those before it of what the plant carries.
func askedUnderSeeds(t *testing.T, s *study.Study, prices []pricing) [][]*expand.Answer {
	t.Helper()
	out, err := replicate.Run(t.Context(), *chanceSeeds, 2, func(ctx context.Context, i int) ([]*expand.Answer, error) {
		var out []*expand.Answer
		var before *study.Study
		runs := &remembered{left: map[digest.Sum]plant.Played{}}
		for _, price := range prices {
			f := *s.File
			f.Seed = *chanceFirst + uint64(i)
			f.Planning.Catalogue = price.of(f.Planning.Catalogue)
			f.Planning.Target.MissShare = mayMiss(f.Seed)
			one, err := s.For(&f)
			if err != nil {
				return nil, err
			}
			one.KeepRuns(runs)
			if before != nil {
				if err := capability.Lend(ctx, before, one, capability.Replications); err != nil {
					return nil, err
				}
			}
			a, err := expand.Ask(ctx, one, answer.Setup{}, expand.Options{Replications: expand.DefaultReplications})
			if err != nil {
				return nil, err
			}
			if !a.Keeps() || a.Doubt == nil {
				return nil, fmt.Errorf("seed %d, %s: no plan keeps the target", f.Seed, price.name)
			}
			out, before = append(out, a), one
		}
		return out, nil
	}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// remembered are runs that another pricing has asked for: prices change none.
type remembered struct {
	mu   sync.Mutex
	left map[digest.Sum]plant.Played
}

// Recall returns what a run has left.
func (r *remembered) Recall(run digest.Sum) (plant.Played, bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	left, ok := r.left[run]
	return left, ok
}

// Keep remembers it.
func (r *remembered) Keep(run digest.Sum, left plant.Played) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.left[run] = left
}

// fewestMay and mostMay are between what shares of the runs may miss.
const fewestMay, mostMay = 0.08, 0.32

// mayMiss is the share of the runs that may miss under a seed: by the golden section, as
// even as can be.
func mayMiss(seed uint64) float64 {
	_, part := math.Modf(float64(seed) * 0.6180339887498949)
	return fewestMay + (mostMay-fewestMay)*part
}

// uncertainFile is the small file in which production rises less, and not evenly, and
// what chips cost and how long a vessel stands empty is not known.
func uncertainFile(t *testing.T) *facilityfile.File {
	t.Helper()
	data, err := os.ReadFile("testdata/small.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.NewReplacer(
		"dry_per_day: 600 kg/day", "dry_per_day: 640 kg/day\n  day_to_day: {variation: 20 %, correlation: 0.9}",
		"{linear: 16.6666667 %/year}", "{linear: 7 %/year}",
	).Replace(string(data)) + `
uncertain:
  - {input: vessels.turnaround, triangular: [1.6 day, 2 day, 2.6 day]}
  - {input: chips.price, lognormal: {mean: 20 USD/m3, variation: 25 %}}
`
	f, err := facilityfile.Parse("uncertain.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return f
}
