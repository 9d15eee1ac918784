package vesselplan

import (
	"context"
	"math"

	"loamcast/scenarios/capability"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/stats"
)

// Look is one that is shown before the answer: no whole runs check it, and no sign is
// looked for. The answer goes on from its runs where it rests on the same.
type Look struct {
	Runs int // behind each share of runs; 0 for no look but the answer itself
	// More says that more vessels are looked at than those installed, as in the answer.
	More bool
	// Lent says that what the plant carries was lent to the study ([capability.Lend]) and
	// not found in these runs.
	Lent bool
}

const (
	// firstRuns go up the ramp of a first look.
	firstRuns = 16
	// firstWhole horizons are simulated for a first look where years hang together: they
	// take some six times as long as a run up the ramp, under each growth.
	firstWhole = 6
)

// Looks are those before the answer with the usual options, the first of which takes about
// as long as a person waits gladly, and each of the others about as long as all before it.
func Looks(f *facilityfile.File) ([]Look, error) {
	var o Options
	if err := o.complete(f); err != nil {
		return nil, err
	}
	var looks []Look
	steady := capability.Steady(f)
	switch {
	case steady.Leaning: // the answer is made of the same runs
		for runs := firstWhole; runs < o.Runs; runs *= 2 {
			looks = append(looks, Look{Runs: runs})
		}
	case steady.Why != "":
		looks = []Look{{Runs: firstWhole}}
	default:
		for runs := firstRuns; runs < o.Runs; runs *= 2 {
			looks = append(looks, Look{Runs: runs})
		}
		looks = append(looks, Look{Runs: o.Runs}, Look{Runs: o.Runs, More: true})
	}
	return looks, nil
}

// LentLook is the look at a study that was lent what its plant carries, in so many runs.
func LentLook(runs int) Look { return Look{Runs: runs, More: true, Lent: true} }

// look fills in what a look shows.
func (p *planner) look(ctx context.Context, a *Answer) error {
	steady := capability.Steady(p.study.File)
	if steady.Why == "" {
		return p.steadily(ctx, a)
	}
	a.Calendar, p.whole = steady.Why, true
	if err := p.byCalendar(ctx, a); err != nil {
		return err
	}
	for g := range a.Growths {
		a.Growths[g].Rows[0].byFew(a.Look.Runs)
	}
	a.All.Rows[0].byFew(a.Look.Runs)
	return nil
}

// few reports whether an answer is a look at whole horizons, so few that what they
// hold says little of how far off their shares may be.
func (a *Answer) few() bool { return a.Look.Runs > 0 && a.Calendar != "" }

// byFew gives the shares of a row the ranges that so many runs leave by themselves: where
// none of them misses, drawing from them again would show none either.
func (r *Row) byFew(runs int) {
	for i := range r.Shares {
		r.Shares[i] = ofRuns(r.Shares[i].Estimate, runs)
	}
}

// ofRuns is the range of a share of runs, which those that nearly miss may round up.
func ofRuns(share float64, runs int) stats.Interval {
	in, err := stats.Wilson(int(math.Ceil(share*float64(runs)-1e-9)), runs, capability.Sureness)
	if err != nil {
		panic("vesselplan: " + err.Error()) // a share, of one run at least
	}
	in.Estimate = share
	return in
}

// lookText says what a look rests on, and how sure it is.
func (a *Answer) lookText() doc.Text {
	rests := doc.Say("by %s", doc.Counted(a.Look.Runs, "run"))
	switch l := a.Look; {
	case l.Lent:
		rests = doc.Words("by what the plant was found to carry before production was changed")
	case l.More:
		rests = rests.Then(", with more vessels too")
	case a.Calendar != "":
		rests = rests.Then(" of the whole horizon under each growth, with the vessels installed")
	default:
		rests = rests.Then(" of the vessels installed")
	}
	rests = rests.Then("; %s by these", a.lookedWidth())
	if a.Look.More {
		return rests.Then(". No whole runs have checked it yet.")
	}
	return rests.Then(". How many to order is not looked into yet.")
}

// lookedWidth says how far apart the ends of what a look tells are.
func (a *Answer) lookedWidth() doc.Text {
	at := -1
	switch a.Advice(&a.All) {
	case OrderAtOnce:
		at = 0
	case OrderInTime:
		at = a.Latest()
	}
	if at < 0 || at >= len(a.Orders) {
		worst := a.All.Rows[0].Shares[0]
		for _, in := range a.All.Rows[0].Shares {
			if in.Estimate >= worst.Estimate {
				worst = in
			}
		}
		return doc.Say("in the worst year %s of the runs miss the target", interval(worst))
	}
	late := a.Orders[at].Late
	if a.few() {
		late = ofRuns(late.Estimate, a.Look.Runs)
	}
	return doc.Say("the chance of missing the target before then is %s", interval(late))
}

// lookedName is what a look is called.
func (a *Answer) lookedName() string {
	if a.Look.Lent || a.Look.Runs == firstRuns || a.Calendar != "" && a.Look.Runs == firstWhole {
		return "A first look"
	}
	return "Closer look"
}
