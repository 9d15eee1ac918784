package lab

import (
	"context"
	"errors"
	"sync"
	"time"
)

const (
	// atOnce is how many questions are worked at, and mostWaiting how many may wait.
	atOnce, mostWaiting = 2, 128
	// longest is how long a question may take, waiting included.
	longest = 15 * time.Minute
)

var (
	// ErrReplaced says that the same tab has asked something else.
	ErrReplaced = replaced{}
	// ErrBusy says that too many are waiting already.
	ErrBusy = errors.New("too many questions are being worked at; close other tabs or try again in a while")
	// ErrTooLong says that a question took longer than is allowed here.
	ErrTooLong = errors.New("this takes longer than the page waits; ask it on the command line")
)

type replaced struct{}

func (replaced) Error() string { return "the tab has asked something else" }

// Is makes it a cancelled context like any other.
func (replaced) Is(target error) bool { return target == context.Canceled }

// turns let one question of each tab go on, and a few in all.
type turns struct {
	mu      sync.Mutex
	tabs    map[string]*turn
	waiting int
	places  chan struct{}
}

// turn is a question of a tab.
type turn struct {
	cancel context.CancelCauseFunc
	ended  chan struct{}
}

func newTurns() *turns {
	return &turns{tabs: map[string]*turn{}, places: make(chan struct{}, atOnce)}
}

// begin cancels what a tab has asked before, waits for its end and for a place, and
// returns the context of the new question and how to end it.
func (t *turns) begin(ctx context.Context, tab string) (context.Context, func(), error) {
	ctx, stop := context.WithTimeoutCause(ctx, longest, ErrTooLong)
	ctx, cancel := context.WithCancelCause(ctx)
	own := &turn{cancel, make(chan struct{})}
	t.mu.Lock()
	if t.waiting >= mostWaiting {
		t.mu.Unlock()
		cancel(nil)
		stop()
		return nil, nil, ErrBusy
	}
	before := t.tabs[tab]
	t.tabs[tab] = own
	t.waiting++
	t.mu.Unlock()
	if before != nil {
		before.cancel(ErrReplaced)
	}
	leave := func() {
		cancel(nil)
		stop()
		t.mu.Lock()
		defer t.mu.Unlock()
		if t.tabs[tab] == own {
			delete(t.tabs, tab)
		}
		close(own.ended)
	}
	err := t.place(ctx, before)
	t.mu.Lock()
	t.waiting--
	t.mu.Unlock()
	if err != nil {
		leave()
		return nil, nil, err
	}
	return ctx, func() { <-t.places; leave() }, nil
}

// place waits until the question before has ended, and there is a place.
func (t *turns) place(ctx context.Context, before *turn) error {
	if before != nil {
		select {
		case <-before.ended:
		case <-ctx.Done():
			return context.Cause(ctx)
		}
	}
	select {
	case t.places <- struct{}{}:
		return nil
	case <-ctx.Done():
		return context.Cause(ctx)
	}
}
