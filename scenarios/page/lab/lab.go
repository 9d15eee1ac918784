package lab

import (
	"context"
	"runtime/metrics"
	"sync"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/study"
)

// Lab asks questions. It is safe for concurrent use.
type Lab struct {
	// Setup is what is said beside the file; its progress is not used.
	Setup answer.Setup
	// Ready makes a file that was read ready to be asked about: it designs its recipe and
	// finds its warm-up, where the file leaves these to the program.
	Ready   func(ctx context.Context, f *facilityfile.File) error
	Workers int // runs at a time of one question; 0 for all cores

	turns *turns
	holds func() uint64 // bytes; see heap

	mu      sync.Mutex
	bases   []*study.Study // whose tables others share, the last used first
	answers []answered     // the last used first
	lenders []lender       // the same
	watches []watched      // the same
}

const (
	// Studies keep tables of courses in memory, so many of different physics.
	mostBases   = 3
	mostAnswers = 40
	mostLenders = 3 // of some 40 MB each, on the demo
	mostWatches = 4
	// Tables grow with every value that is tried, some 20 MB with each recipe on the demo:
	// once the program holds so many bytes, they are made anew.
	mostHeap = 1500 << 20
)

// heap is how many bytes the program holds, those included that nothing needs any more.
func heap() uint64 {
	sample := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}}
	metrics.Read(sample)
	return sample[0].Value.Uint64()
}

// New returns a lab.
func New(setup answer.Setup, ready func(context.Context, *facilityfile.File) error, workers int) *Lab {
	return &Lab{Setup: setup, Ready: ready, Workers: workers, turns: newTurns(), holds: heap}
}

// answered is an answer that was found, by what was asked.
type answered struct {
	asked string
	told  *document.Document
}

// lender is a study that has found what its plant carries in so many runs, and is asked
// nothing more.
type lender struct {
	*study.Study
	runs int
}

// watched is a run of a file of which all that its vessels were in was kept.
type watched struct {
	of  string
	run *simulate.Watched
}

// study makes a file ready to be asked about. It shares the tables of the files before it
// as far as the physics are the same.
func (l *Lab) study(f *facilityfile.File) (*study.Study, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.holds() > mostHeap {
		l.bases, l.lenders = nil, nil
	}
	for i, base := range l.bases {
		s, err := base.For(f)
		if err != nil {
			return nil, err
		}
		if s.Base().Active == base.Base().Active && s.Base().Pile == base.Base().Pile {
			l.bases = toFront(l.bases, i)
			return s, nil
		}
	}
	s, err := study.New(f, l.Workers)
	if err != nil {
		return nil, err
	}
	l.bases = kept(s, l.bases, mostBases)
	return s, nil
}

// known returns an answer that was found before, nil if none was.
func (l *Lab) known(asked string) *document.Document {
	l.mu.Lock()
	defer l.mu.Unlock()
	for i, a := range l.answers {
		if a.asked == asked {
			l.answers = toFront(l.answers, i)
			return a.told
		}
	}
	return nil
}

// keep keeps an answer.
func (l *Lab) keep(asked string, told *document.Document) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.answers = kept(answered{asked, told}, l.answers, mostAnswers)
}

// kept puts one before others, of which there are at most so many then.
func kept[T any](one T, others []T, most int) []T {
	all := append([]T{one}, others...)
	return all[:min(len(all), most)]
}

func toFront[T any](list []T, i int) []T {
	one := list[i]
	return append([]T{one}, append(list[:i:i], list[i+1:]...)...)
}
