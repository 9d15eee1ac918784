package simulate_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/study"
	"loamcast/sim/random"
)

func small(t *testing.T) *facilityfile.File {
	t.Helper()
	f, err := facilityfile.Parse("small.yaml", []byte(readSmall(t)))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// ask asks with so many workers, 0 for all cores.
func ask(ctx context.Context, f *facilityfile.File, workers int, setup answer.Setup) (*simulate.Answer, error) {
	s, err := study.New(f, workers)
	if err != nil {
		return nil, err
	}
	return simulate.Ask(ctx, s, setup, simulate.Options{})
}

// The answer says what it was made from: the file's name and start, and the
// seed, replications, source and version that were asked for. Progress counts
// every replication, with and without enough vessels.
func TestRunSaysWhatItWasMadeFrom(t *testing.T) {
	f := small(t)
	f.Seed, f.Replications = 11, 2
	var steps []int
	a, err := ask(t.Context(), f, 0, answer.Setup{Source: "here", Invented: true, Version: "v", Progress: func(_ string, done, total int) {
		if total != 4 {
			t.Errorf("progress of %d replications, want 4", total)
		}
		steps = append(steps, done)
	}})
	if err != nil {
		t.Fatal(err)
	}
	want := answer.Basis{Facility: "Small invented plant", Source: "here", Invented: true, Version: "v", FileHash: f.Hash, Seed: 11,
		Replications: 2, Start: f.Model.Start, Horizon: 1, Level: answer.Deciles, Target: f.Planning.Target, Scenarios: a.Scenarios, Currency: "USD"}
	if !reflect.DeepEqual(a.Basis, want) || len(f.Hash) != 64 {
		t.Errorf("got %+v\nwant %+v", a.Basis, want)
	}
	if len(a.Years) != 1 || len(a.Months) != 12 {
		t.Errorf("%d years and %d months, want 1 and 12", len(a.Years), len(a.Months))
	}
	if want := []int{1, 2, 3, 4}; !reflect.DeepEqual(steps, want) {
		t.Errorf("progress went %v, want %v", steps, want)
	}
}

// Results depend on the file and the seed, and not on the number of workers.
func TestWorkersDoNotMatter(t *testing.T) {
	first := ""
	for _, workers := range []int{1, 2, 8} {
		f := small(t)
		a, err := ask(t.Context(), f, workers, answer.Setup{})
		if err != nil {
			t.Fatal(err)
		}
		got := fmt.Sprintf("%+v", *a) // with NaN, no answer equals itself
		if first == "" {
			first = got
		}
		if got != first {
			t.Errorf("the answer of %d workers differs from that of one", workers)
		}
	}
}

// Replication i meets the same cake with the vessels there are and with a
// vessel for every load; only there is none diverted for want of vessels.
func TestPairedReplications(t *testing.T) {
	f := small(t)
	p, err := plant.New(f.Model)
	if err != nil {
		t.Fatal(err)
	}
	const n = 2
	records, unlimited := runsOf(t, p, f.Seed, n), runsOf(t, p.Unlimited(), f.Seed, n)
	for i, rec := range records {
		free := unlimited[i]
		for m := range rec.Months {
			// The same days' cake is added up at other moments, so the last
			// digits may differ.
			a, b := rec.Months[m], free.Months[m]
			if math.Abs(a.Feed.Dry-b.Feed.Dry) > 1e-9*a.Feed.Dry || math.Abs(a.Feed.Wet-b.Feed.Wet) > 1e-9*a.Feed.Wet {
				t.Errorf("replication %d, month %d: the cake differs", i, m+1)
			}
		}
		if a, b := diverted.of(rec), diverted.of(free); !(b < a) {
			t.Errorf("replication %d: %g kg diverted with vessels to spare, %g without", i, b, a)
		}
	}
	if records[0].Fingerprint == records[1].Fingerprint {
		t.Error("two replications ran the same")
	}
}

// runsOf returns the records of n replications.
func runsOf(t *testing.T, p *plant.Plant, seed uint64, n int) []*plant.Record {
	t.Helper()
	records := make([]*plant.Record, n)
	for i := range records {
		var err error
		if records[i], err = p.Run(t.Context(), random.Key{Seed: seed, Replication: i}); err != nil {
			t.Fatal(err)
		}
	}
	return records
}

// A run that is called off returns the context's error and no answer.
func TestRunCalledOff(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	a, err := ask(ctx, small(t), 1, answer.Setup{Progress: func(string, int, int) { cancel() }})
	if a != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("got %v, %v; want no answer and %v", a, err, context.Canceled)
	}
}

// A model that cannot run is refused before anything is simulated.
func TestImpossibleModel(t *testing.T) {
	f := small(t)
	f.Model.Years = 0
	a, err := ask(t.Context(), f, 0, answer.Setup{Progress: func(string, int, int) { t.Error("a replication ran") }})
	if a != nil || err == nil || !strings.Contains(err.Error(), "preparing Small invented plant: at least one year") {
		t.Errorf("got %v, %v", a, err)
	}
}
