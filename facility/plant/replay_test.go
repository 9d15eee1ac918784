package plant

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"os"
	"os/exec"
	"runtime"
	"sync"
	"syscall"
	"testing"
	"time"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"loamcast/sim"
	"loamcast/sim/random"
)

// replayed is the plant of the cases, with a week, growth and noise, a screen that gives
// seven tenths of the chips back and nothing else, and too few vessels in the end.
func replayed() Model {
	m := paper()
	m.Years, m.WarmUp = 5, 1
	m.Feed.Base, m.Feed.Growth = 2600, Compound{Rate: 0.04}
	m.Feed.Weekday = [7]float64{0.6, 1.2, 1.2, 1.1, 1.1, 1.1, 0.7}
	m.Feed.Noise = random.AR1Lognormal{CV: 0.25, Correlation: 0.6}
	m.Vessels.Installed = 18
	s := &m.Screening.Settings
	s.Recovery, s.CarryOver, s.MoistureSplit, s.Rejects = 0.7, 0, 1e-12, 0 // chips come back dry and alone
	m.Chips.Capacity, m.Chips.Reorder, m.Chips.OrderUpTo, m.Chips.Truckload, m.Chips.LeadTime = 900, 300, 800, 60, 4*sim.Day
	return m
}

// replayFigures are what both count in a year, by the name that the replay gives it, each
// with what a load more or less makes of it.
var replayFigures = []struct {
	name    string
	of      func(*Month) float64
	perLoad float64
}{
	{"fed", func(m *Month) float64 { return m.Feed.Dry }, 1},
	{"mixed", func(m *Month) float64 { return m.Mixing.CakeDry }, loadCake},
	{"diverted", func(m *Month) float64 { return m.Holding.DivertedDry }, loadCake},
	{"waited", func(m *Month) float64 { return m.Holding.Waited }, loadCake},
	{"loads", func(m *Month) float64 { return m.Loads.Filled }, 1},
	{"used", func(m *Month) float64 { return m.Chips.Used }, 5 * batchChips},
	{"fresh", func(m *Month) float64 { return m.Chips.FreshUsed }, 5 * batchChips},
	{"recovered", func(m *Month) float64 { return m.Chips.Recovered }, 5 * batchChips},
	{"product", func(m *Month) float64 { return m.Product.Dry }, loadCake},
	{"trucks", func(m *Month) float64 { return m.Chips.Truckloads }, 1},
}

// replay is what the script answers: the figures of each year of each run.
type replay struct {
	Runs    [][]map[string]float64
	Seconds float64 // of processor time
	Elapsed float64 // s by the clock
}

// askReplay runs the script. Without the library it skips, or fails where all tools are
// required.
func askReplay(t *testing.T, m *Model, runs int, production []float64) replay {
	t.Helper()
	const python = "/usr/bin/python3" // the one that Debian's packages are for
	if err := exec.CommandContext(t.Context(), python, "-c", "import SimPy.Simulation").Run(); err != nil {
		if os.Getenv("LOAMCAST_REQUIRE_TOOLS") == "1" {
			t.Fatalf("python3-simpy is required (LOAMCAST_REQUIRE_TOOLS=1): %v", err)
		}
		t.Skip("python3-simpy is not installed")
	}
	day := func(d sim.Duration) float64 { return d.Days() }
	week := append(m.Feed.Weekday[1:], m.Feed.Weekday[0])
	begin := m.Begin()
	in, err := json.Marshal(map[string]any{
		"runs": runs, "production": production, "years": m.Years, "warm_up": m.WarmUp,
		"start": []int{m.Start.Year, int(m.Start.Month), m.Start.Day}, "begin": []int{begin.Year, int(begin.Month), begin.Day},
		"base": m.Feed.Base, "growth": m.Feed.Growth.(Compound).Rate, "weekday": week, "cv": m.Feed.Noise.CV, "correlation": m.Feed.Noise.Correlation,
		"holding": m.Holding.Capacity, "vessels": m.Vessels.Installed, "batches": 5, "batch_cake": batchCake, "batch_chips": batchChips,
		"batch_time": day(m.Mixer.BatchTime), "residence": day(m.Vessels.Residence), "turnaround": day(m.Vessels.Turnaround),
		"curing": day(m.Curing.Time), "screening": 1.0 / 24, "recovery": m.Screening.Settings.Recovery, "chip_density": m.Bulk.CoarseDry,
		"order_up_to": m.Chips.OrderUpTo, "reorder": m.Chips.Reorder, "truckload": m.Chips.Truckload, "lead": day(m.Chips.LeadTime),
	})
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.CommandContext(t.Context(), python, "testdata/replay.py")
	var out, said bytes.Buffer
	cmd.Stdin, cmd.Stdout, cmd.Stderr = bytes.NewReader(in), &out, &said
	if err := cmd.Run(); err != nil {
		t.Fatalf("%v: %s", err, said.String())
	}
	var r replay
	if err := json.Unmarshal(out.Bytes(), &r); err != nil {
		t.Fatal(err)
	}
	return r
}

// yearly returns a figure of a year of a record.
func yearly(rec *Record, year int, of func(*Month) float64) float64 {
	return Sum(rec.Months[12*year:12*year+12], of)
}

// Fed with the same production day by day, a replay of the plant in a general-purpose
// library of simulation, which shares nothing with this one but the numbers of the model,
// has the same figures in every year, to a load or two.
func TestReplayOfTheSameDays(t *testing.T) {
	m := replayed()
	key := random.Key{Seed: 11}
	noise := m.Feed.Noise.Start(key.Stream("production"))
	var production []float64
	for d := m.Begin(); d.Before(m.Start.AddYears(m.Years)); d = d.AddDays(1) {
		production = append(production, m.Feed.Expected(d, atNoon(m.Start.DaysUntil(d)))*m.Feed.weekdayFactor(d)*noise.Next())
	}
	r := askReplay(t, &m, 1, production)
	rec := mustRun(t, m, key)
	const loads = 2
	for year := range m.Years {
		for _, f := range replayFigures {
			ours, theirs := yearly(rec, year, f.of), r.Runs[0][year][f.name]
			t.Logf("year %d: %-9s %12.1f, replayed %12.1f", year+1, f.name, ours, theirs)
			if slack := loads * f.perLoad; !(math.Abs(ours-theirs) <= slack) {
				t.Errorf("year %d: %s is %.1f, replayed %.1f", year+1, f.name, ours, theirs)
			}
		}
	}
}

// With days of its own, the replay's yearly figures lie within the interval that so many
// runs of both leave, all of them together at 99 %. The seeds are fixed, so that this hangs
// on no chance; what both took, of processor time and by the clock, is told with -v. By the
// clock runs go side by side on all cores, as those of a study do, which the library leaves
// to who uses it.
func TestReplayOfOtherDays(t *testing.T) {
	const runs = 16
	m := replayed()
	r := askReplay(t, &m, runs, nil)
	p := plantOf(t, m).AirByYear().Unmarked() // as the runs of a study
	records, errs := make([]*Record, runs), make([]error, runs)
	var all sync.WaitGroup
	began, before := time.Now(), processorTime(t)
	for i := range records {
		all.Go(func() { records[i], errs[i] = p.Run(t.Context(), random.Key{Seed: 12, Replication: i}) })
	}
	all.Wait()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
	took, elapsed := processorTime(t)-before, time.Since(began)
	t.Logf("%d runs of %d years: %.2f s of processor time, replayed %.2f s: %.1f times as much",
		runs, m.Years+m.WarmUp, took.Seconds(), r.Seconds, r.Seconds/took.Seconds())
	t.Logf("by the clock, with %d cores: %.2f s, replayed %.2f s: %.1f times as long",
		runtime.GOMAXPROCS(0), elapsed.Seconds(), r.Elapsed, r.Elapsed/elapsed.Seconds())

	// Bonferroni: each of so many is held against its part of the 1 %, by the normal curve.
	comparisons := float64(m.Years * len(replayFigures))
	z := distuv.UnitNormal.Quantile(1 - 0.01/comparisons/2)
	diverts := false
	for year := range m.Years {
		for _, f := range replayFigures {
			var ours, theirs []float64
			for i := range records {
				ours, theirs = append(ours, yearly(records[i], year, f.of)), append(theirs, r.Runs[i][year][f.name])
			}
			a, sa := stat.MeanStdDev(ours, nil)
			b, sb := stat.MeanStdDev(theirs, nil)
			within := z * math.Hypot(sa, sb) / math.Sqrt(runs)
			t.Logf("year %d: %-9s %12.1f, replayed %12.1f, within %9.1f", year+1, f.name, a, b, within)
			if !(math.Abs(a-b) <= within) {
				t.Errorf("year %d: %s is %.1f in the mean, replayed %.1f, and not within %.1f", year+1, f.name, a, b, within)
			}
			diverts = diverts || f.name == "diverted" && a > 0
		}
	}
	if !diverts {
		t.Error("nothing is ever diverted")
	}
}

// processorTime returns what the process has used so far.
func processorTime(t *testing.T) time.Duration {
	t.Helper()
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		t.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
