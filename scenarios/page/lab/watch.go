package lab

import (
	"context"
	"fmt"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/simulate"
)

// Watch is the first replication of a file with all that its vessels were in, as the
// question of the run plays it. Errors are those of [Lab.Ask].
func (l *Lab) Watch(ctx context.Context, tab string, f *facilityfile.File, tell Tell) (*simulate.Watched, error) {
	of := fmt.Sprintf("%s %d", f.Hash, f.Seed)
	if run := l.watchedBefore(of); run != nil {
		return run, nil
	}
	run, err := about(ctx, l, tab, f, tell, simulate.Watch)
	if err != nil {
		return nil, err
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	l.watches = kept(watched{of, run}, l.watches, mostWatches)
	return run, nil
}

// watchedBefore is a run that is kept, nil if none is.
func (l *Lab) watchedBefore(of string) *simulate.Watched {
	l.mu.Lock()
	defer l.mu.Unlock()
	for i, w := range l.watches {
		if w.of == of {
			l.watches = toFront(l.watches, i)
			return w.run
		}
	}
	return nil
}
