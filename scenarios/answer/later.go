package answer

import "sync"

// Later keeps the progress of one part of the work to itself until another is done,
// beside which it goes on. The zero Later waits for [Later.Begin].
type Later struct {
	mu    sync.Mutex
	begun bool
}

// Begin lets progress be told from now on.
func (l *Later) Begin() {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.begun = true
}

// Of returns a setup whose progress is told from when it begins.
func (l *Later) Of(setup Setup) Setup {
	tell := setup.Progress
	setup.Progress = func(part string, done, total int) {
		l.mu.Lock()
		defer l.mu.Unlock()
		if l.begun && tell != nil {
			tell(part, done, total)
		}
	}
	return setup
}
