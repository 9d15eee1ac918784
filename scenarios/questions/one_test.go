package questions_test

import (
	"context"
	"flag"
	"math"
	"strings"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/expand"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/options"
	"loamcast/scenarios/question"
	"loamcast/scenarios/questions"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
	"loamcast/scenarios/vesselplan"
)

// How closely TestOneAnswerToOneQuestion looks: with
//
//	go test ./scenarios/questions -run OneAnswer -v -timeout 2h -one.seeds 3 -one.whole
var (
	oneSeeds = flag.Int("one.seeds", 1, "seeds of TestOneAnswerToOneQuestion, from the files' on")
	oneWhole = flag.Bool("one.whole", false, "look at the files as they are, and at what plan says, too")
)

// What several questions say of the same thing is one number and one word, on each of
// the built-in facilities, asked as their commands ask them: which share of the runs
// misses each year as the plant is, how long it is kept, from when on it may be missed
// and surely is, what to watch, that the best of the catalogue is the plan that expand
// puts first, and that a run of the file's own values names no year to order by. That the
// parts of plan are the answers of the other questions is shown in that package; with
// -one.whole that it says their first lines word for word. One of the files asks for a
// target that takes more runs than usual to judge.
func TestOneAnswerToOneQuestion(t *testing.T) {
	if testing.Short() {
		t.Skip("asks every question of three facilities; the round without -short has it")
	}
	for _, name := range examples.Names() {
		t.Run(name, func(t *testing.T) {
			f, err := facilityfile.Parse(name, examples.Data(name))
			if err != nil {
				t.Fatal(err)
			}
			if !*oneWhole {
				shorten(f)
			}
			base, err := study.New(f, 0)
			if err != nil {
				t.Fatal(err)
			}
			for seed := range *oneSeeds {
				one := *f
				one.Seed += uint64(seed)
				s, err := base.For(&one)
				if err != nil {
					t.Fatal(err)
				}
				oneAnswer(t, s)
			}
		})
	}
}

// shorten leaves of a file as much as the time allows: fewer years, options and steps.
func shorten(f *facilityfile.File) {
	f.Model.Years = min(f.Model.Years, 9)
	f.Planning.Options = f.Planning.Options[:min(len(f.Planning.Options), 1)]
	f.Replications = 8
	f.Planning.Catalogue = f.Planning.Catalogue[:min(len(f.Planning.Catalogue), 2)]
	for i := range f.Planning.Catalogue {
		f.Planning.Catalogue[i].Most = 1
	}
	if f.Model.Vessels.Installed > 20 {
		f.Planning.Target.MissShare = 0.02
	}
}

// oneAnswer asks all that is asked of the same thing.
func oneAnswer(t *testing.T, s *study.Study) {
	t.Helper()
	f := s.File
	when := asked[*vesselplan.Answer](t, s, "when")
	said := []question.Answer{when}
	var plan *expand.Answer
	if len(f.Planning.Catalogue) > 0 && f.Planning.Priced {
		plan = asked[*expand.Answer](t, s, "expand")
		expandIsTheSame(t, when, plan)
		signIsTheSame(t, f, when, plan)
	}
	if len(f.Planning.Options) > 0 && f.Planning.Priced {
		choices := asked[*options.Answer](t, s, "options")
		said = append(said, choices)
		asIsIsTheSame(t, when, choices)
		if plan != nil {
			foundIsTheSame(t, plan, choices)
		}
	}
	headline := unbroken(t, asked[question.Answer](t, s, "run"))
	headline, _, _ = strings.Cut(headline, "Service target")
	if !strings.Contains(headline, "the file's own values") || !strings.Contains(headline, "loamcast when") || strings.Contains(headline, "first in") {
		t.Errorf("run begins: %s", headline)
	}
	if !*oneWhole {
		return
	}
	all := unbroken(t, asked[question.Answer](t, s, "plan"))
	for _, a := range said {
		if first := a.Document().Headline.Plain(units.SI); !strings.Contains(all, first) {
			t.Errorf("seed %d: plan does not say %q", f.Seed, first)
		}
	}
}

// unbroken is an answer on a screen without the line breaks within paragraphs.
func unbroken(t *testing.T, a question.Answer) string {
	t.Helper()
	return strings.ReplaceAll(rendertest.Text(t, a.Document(), units.SI), "\n  ", " ")
}

// signIsTheSame compares the production at which to order with that at which expand
// orders its first step, if one is to be watched for: the same if it takes as long to
// come as vessels, later if it comes sooner.
func signIsTheSame(t *testing.T, f *facilityfile.File, when *vesselplan.Answer, plan *expand.Answer) {
	t.Helper()
	if when.Sign == nil || plan.Adaptive == nil || plan.Adaptive.Steps[0].Production == 0 {
		return
	}
	first := plan.Adaptive.Steps[0]
	for _, step := range f.Planning.Catalogue {
		if step.Name != first.Name {
			continue
		}
		sooner := when.Lead.Before(f.Model.Start).DaysUntil(step.Lead.Before(f.Model.Start))
		switch {
		case sooner == 0 && math.Abs(first.Production-when.Sign.Production) > 1e-9*first.Production,
			sooner > 0 && first.Production < when.Sign.Production*(1-1e-9), sooner < 0 && first.Production > when.Sign.Production*(1+1e-9):
			t.Errorf("order vessels at %g kg/day by when, %q, which comes %d days sooner, at %g by expand", when.Sign.Production, first.Name, sooner, first.Production)
		}
	}
}

// asked asks a question with nothing said but its name.
func asked[A question.Answer](t *testing.T, s *study.Study, name string) A {
	t.Helper()
	for _, q := range questions.All {
		if q.Name != name {
			continue
		}
		nothing, err := question.Read(q.Options, nil)
		if err != nil {
			t.Fatal(err)
		}
		a, err := q.Ask(context.Background(), s, answer.Setup{}, nothing)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		return a.(A)
	}
	t.Fatalf("no question %s", name)
	panic("unreachable")
}

// asIsIsTheSame compares what is said of the plant with the vessels installed.
func asIsIsTheSame(t *testing.T, when *vesselplan.Answer, choices *options.Answer) {
	t.Helper()
	row, asIs := when.All.Rows[0], choices.Choices[0].Service
	if asIs.ByRuns {
		t.Fatalf("options judge the plant as it is by its runs")
	}
	for y, share := range row.Shares {
		if math.Abs(share.Estimate-asIs.Years[y]) > 1e-12 {
			t.Errorf("year %d is missed by %g of the runs by when, %g by options", y, share.Estimate, asIs.Years[y])
		}
	}
	may, surely := or(asIs.MayMiss, choices.Horizon), or(asIs.SurelyMissed, choices.Horizon)
	if may != row.LastKept+1 || surely != row.FirstMissed {
		t.Errorf("missed perhaps from %d and surely from %d by when, from %d and %d by options", row.LastKept+1, row.FirstMissed, may, surely)
	}
}

// or is a year, or another if it is none.
func or(year, other int) int {
	if year < 0 {
		return other
	}
	return year
}

// expandIsTheSame compares what expand says of the plant as it is with when.
func expandIsTheSame(t *testing.T, when *vesselplan.Answer, plan *expand.Answer) {
	t.Helper()
	row := when.All.Rows[0]
	if plan.AsIs != row.LastKept || plan.AsIsMissed != row.FirstMissed {
		t.Errorf("kept through %d and surely missed from %d by when, %d and %d by expand", row.LastKept, row.FirstMissed, plan.AsIs, plan.AsIsMissed)
	}
	for y, share := range plan.Plans[0].Shares {
		if share.High > plan.Target.MissShare+capability.Rounding && y <= plan.Through {
			t.Errorf("plan 1 of expand may miss year %d", y)
		}
		if len(plan.Plans[0].Steps) == 0 || y < plan.Plans[0].Steps[0].Year {
			if share != row.Shares[y] {
				t.Errorf("year %d, before anything is built: %+v by expand, %+v by when", y, share, row.Shares[y])
			}
		}
	}
}

// foundIsTheSame compares the plan that options show beside the user's with the first
// of expand, unless that builds nothing.
func foundIsTheSame(t *testing.T, plan *expand.Answer, choices *options.Answer) {
	t.Helper()
	for _, c := range choices.Choices {
		if !c.Found {
			continue
		}
		if got, want := c.Words.Plain(units.SI), plan.Plans[0].InWords().Plain(units.SI); got != want {
			t.Errorf("the best of the catalogue is %s by options, %s by expand", got, want)
		}
		if want := plan.Plans[0].Present.Estimate; c.Told != want {
			t.Errorf("the best of the catalogue costs %g by expand, which tells %g by options", want, c.Told)
		}
		if c.Service.ByRuns {
			t.Error("options judge the plan found by its runs")
		}
		for y, share := range plan.Plans[0].Shares {
			if math.Abs(share.Estimate-c.Service.Years[y]) > 1e-12 {
				t.Errorf("year %d of the plan found: %g of the runs by expand, %g by options", y, share.Estimate, c.Service.Years[y])
			}
		}
		return
	}
	if len(plan.Plans[0].Steps) > 0 {
		t.Error("options show no plan of the catalogue")
	}
}
