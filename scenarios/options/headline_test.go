package options

import (
	"reflect"
	"strings"
	"testing"
	"time"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// written is an answer put together by hand: choices in order of rank, and the
// chance of the first.
func written(chance float64, choices ...Choice) *Answer {
	a := &Answer{Basis: answer.Basis{
		Start: calendar.Date{Year: 2027, Month: time.January, Day: 1}, Horizon: 3, Replications: 20,
		Target: facilityfile.Target{DivertedLimit: 0.01, DelayLimit: 3, MissShare: 0.05},
	}, Choices: choices, Chance: chance}
	for i := range choices {
		a.Order = append(a.Order, i)
	}
	a.place()
	return a
}

// choice is one that misses the target from a year on, or never (−1), and costs
// over USD more than the first, with an interval of a third about it.
func choice(name string, missed int, over float64) Choice {
	c := Choice{Name: name, AsIs: name == "the plant as it is"}
	c.Service = Service{Keeps: missed < 0, Sure: true, FirstMissed: missed, MayMiss: missed, SurelyMissed: missed}
	c.All.OverFirst = stats.Interval{Estimate: over, Low: over - max(over, -over)/3, High: over + max(over, -over)/3}
	return c
}

// wide widens the interval of a choice's cost over the first.
func wide(c Choice, half float64) Choice {
	d := &c.All.OverFirst
	d.Low, d.High = d.Estimate-half, d.Estimate+half
	return c
}

// missing adds how many years a choice misses, and steps in service in the middle
// of some years.
func missing(c Choice, years float64, steps ...int) Choice {
	c.Service.YearsMissed = years
	for _, year := range steps {
		c.Steps = append(c.Steps, Step{Taken: 1, InService: calendar.Date{Year: year, Month: time.July, Day: 1}})
	}
	return c
}

// The first line is the answer, whoever comes first and whoever keeps the target.
func TestHeadline(t *testing.T) {
	for _, c := range []struct {
		name string
		a    *Answer
		want string
	}{
		{"two keep it", written(0.962, choice("two vessels", -1, 0), choice("longer shift", -1, 1.5e6), choice("the plant as it is", 1, -2e5)),
			"Choose “two vessels”: it keeps the service target in every year through 2029 and costs 1.5 million USD less (present worth; 1 to 2) than the next that does, “longer shift”. Chance that it is the cheapest that does: 96 %."},
		{"the plant as it is", written(0.9999, choice("the plant as it is", -1, 0), choice("two vessels", -1, 333333)),
			"Build nothing more: the plant as it is keeps the service target in every year through 2029 and costs 333,000 USD less (present worth; 222,000 to 444,000) than the next that does, “two vessels”. Chance that it is the cheapest that does: over 99 %."},
		{"too close", written(0.78, choice("two vessels", -1, 0), wide(choice("longer shift", -1, 4410), 11710), choice("the plant as it is", 1, -2e5)),
			"Choose “two vessels”: it keeps the service target in every year through 2029 and costs about as much, 4,400 USD less (present worth; -7,300 to 16,100), as the next that does, “longer shift”. Chance that it is the cheapest that does: 78 %."},
		{"one keeps it, and costs more", written(1, choice("two vessels", -1, 0), choice("the plant as it is", 1, -3e5)),
			"Choose “two vessels”: nothing else keeps the service target in every year through 2029. It costs 300,000 USD more (present worth; 200,000 to 400,000) than the cheapest of the rest, the plant as it is, which misses the target from 2028."},
		{"one keeps it, and costs less", written(1, choice("two vessels", -1, 0), choice("the plant as it is", 0, 6000)),
			"Choose “two vessels”: nothing else keeps the service target in every year through 2029. It costs 6,000 USD less (present worth; 4,000 to 8,000) than the cheapest of the rest, the plant as it is, which misses the target from 2027."},
		{"none keeps it", written(1, missing(choice("one vessel", 2, 0), 0.64), missing(choice("the plant as it is", 0, -3e6), 2.5)),
			"Nothing here keeps the service target in every year through 2029. Nearest comes “one vessel”: it misses it in 0.6 of 3 years on average, and costs 3 million USD more (present worth; 2 to 4) than the cheapest of the rest, the plant as it is, which misses it in 2.5."},
		{"none keeps it, two nearly", written(0.8, missing(choice("the plant as it is", 1, 0), 1), missing(choice("one vessel", 1, 3e6), 0.5)),
			"Nothing here keeps the service target in every year through 2029. Nearest comes the plant as it is: it misses it in 1 of 3 years on average, is the cheapest of those that come about as near (chance 80 %), and costs 3 million USD less (present worth; 2 to 4) than the cheapest of the rest, “one vessel”, which misses it in 0.5."},
		{"too late", written(1, missing(choice("one vessel", 1, 0), 1, 2028), missing(choice("the plant as it is", 1, -3e6), 2.5)),
			"Nothing here keeps the service target in every year through 2029. Nearest comes “one vessel”: it misses it in 1 of 3 years on average, and costs 3 million USD more (present worth; 2 to 4) than the cheapest of the rest, the plant as it is, which misses it in 2.5. Its first step, in service by 2028-07, comes after the target is first missed, in 2028: order earlier."},
		{"in time", written(1, missing(choice("one vessel", 1, 0), 1, 2027), missing(choice("the plant as it is", 1, -3e6), 2.5)),
			"Nothing here keeps the service target in every year through 2029. Nearest comes “one vessel”: it misses it in 1 of 3 years on average, and costs 3 million USD more (present worth; 2 to 4) than the cheapest of the rest, the plant as it is, which misses it in 2.5."},
	} {
		if got := c.a.Headline().Plain(units.US); got != c.want {
			t.Errorf("%s:\n%s, want\n%s", c.name, got, c.want)
		}
	}
}

// What is cheaper than the first and may yet keep the target is named with it.
func TestHeadlineNamesWhatMayComeFirst(t *testing.T) {
	open := choice("vessels late", 2, -66431)
	open.Service.Sure = false
	first, next, asIs := choice("two vessels", -1, 0), choice("longer shift", -1, 1.5e6), choice("the plant as it is", 1, -2e5)
	const says = " It is not certain that “vessels late” (66,400 USD less) does not keep it too, and so come first."
	for _, c := range []struct {
		name string
		a    *Answer
		want string
	}{
		{"beside others", written(1, first, next, open, asIs), "Chance that it is the cheapest that does: over 99 %." + says},
		{"alone", written(1, first, open, asIs), "which misses the target from 2028." + says},
		{"and a dearer one may not", written(1, first, func() Choice { c := open; c.All.OverFirst.Estimate = 5; return c }(), asIs), "which misses the target from 2028."},
	} {
		if got := c.a.Headline().Plain(units.US); !strings.HasSuffix(got, c.want) {
			t.Errorf("%s: %s, want at its end %s", c.name, got, c.want)
		}
	}
}

// A first missed year that is not certain is told as what is known of it, in the
// headline, in the picture, and under the headline of the choices that matter; the
// dearer ones are left out there.
func TestYearsInDoubt(t *testing.T) {
	between := func(c Choice, may, surely int) Choice {
		c.Service.MayMiss, c.Service.SurelyMissed = may, surely
		return c
	}
	first := choice("two vessels", -1, 0)
	for _, c := range []struct {
		may, surely   int
		want, picture string
	}{
		{1, 1, "misses the target from 2028", "misses the target from 2028"},
		{0, 2, "may miss the target in 2027 and surely does in 2029", "misses the target from 2029, perhaps 2027"},
		{1, -1, "may miss the target in 2028", "may miss the target from 2028"},
		{0, 1, "may miss the target in 2027 and surely does in 2028", "misses the target from 2028, perhaps 2027"},
	} {
		a := written(1, first, between(choice("the plant as it is", 1, -3e5), c.may, c.surely), between(choice("a shed", 1, 3e5), 0, 2))
		if got := a.Headline().Plain(units.US); !strings.HasSuffix(got, "the plant as it is, which "+c.want+".") {
			t.Errorf("%d to %d: %s, want at its end %s", c.may, c.surely, got, c.want)
		}
		if got := a.kept(&a.Choices[1]).Plain(units.US); got != c.picture {
			t.Errorf("%d to %d: the picture says %q, want %q", c.may, c.surely, got, c.picture)
		}
		want := "First missed years that are not certain: the plant as it is " + c.want + "."
		if c.may == c.surely {
			want = ""
		}
		if got := a.OpenYears().Plain(units.US); got != want {
			t.Errorf("%d to %d: %q, want %q", c.may, c.surely, got, want)
		}
	}
}

// What the replications leave open is said, and only where it could alter the
// choice.
func TestDoubts(t *testing.T) {
	unsure := func(c Choice, share float64) Choice {
		c.Service.Sure, c.Service.Worst = false, 2
		c.Service.Share = stats.Interval{Estimate: share, Low: share / 2, High: 0.16}
		return c
	}
	first, dear, cheap := choice("two vessels", -1, 0), choice("longer shift", -1, 1e6), choice("the plant as it is", 1, -2e5)
	for _, c := range []struct {
		name string
		a    *Answer
		want []string
	}{
		{"nothing", written(0.96, first, dear, cheap), nil},
		{"the first may miss", written(0.96, unsure(first, 0), dear, cheap),
			[]string{"Not certain, where 5 % of runs may miss: that “two vessels” keeps the target (0 % miss it in 2029, 0 % to 16 % possible)."}},
		{"a dearer one may miss", written(0.96, first, unsure(dear, 0), cheap), nil},
		{"a cheaper one may keep it", written(0.96, first, dear, unsure(cheap, 0.1)),
			[]string{"Not certain, where 5 % of runs may miss: that the plant as it is misses the target (10 % miss it in 2029, 5 % to 16 % possible)."}},
		{"both", written(0.96, unsure(first, 0.05), dear, unsure(cheap, 0.1)),
			[]string{"Not certain, where 5 % of runs may miss: that “two vessels” keeps the target (5 % miss it in 2029, 2 % to 16 % possible); that the plant as it is misses the target (10 % miss it in 2029, 5 % to 16 % possible)."}},
		{"close", written(0.7, first, dear), []string{"The costs of the first are too close to the next to tell them apart in 20 replications; take either, or allow more."}},
	} {
		var got []string
		for _, doubt := range c.a.Doubts() {
			got = append(got, doubt.Plain(units.US))
		}
		if !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}
