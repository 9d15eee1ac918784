package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"syscall"
	"time"

	"loamcast/scenarios/outfile"
)

// patience is how long a command has to end by itself after the first signal, and
// telling how long it may take to say so, as nobody may read what it says: less than
// a second together.
const (
	patience = 500 * time.Millisecond
	telling  = 300 * time.Millisecond
)

// interrupted is the cause with which a signal ends the work.
type interrupted struct{ signal os.Signal }

func (i interrupted) Error() string { return fmt.Sprintf("interrupted (%v)", i.signal) }

// Is makes it a cancelled context like any other.
func (interrupted) Is(target error) bool { return target == context.Canceled }

// interruptible returns a context that the first Ctrl-C or SIGTERM cancels. A
// command that does not look at it in time, because it waits for a pipe or is
// in the middle of a long computation, is ended all the same, though not
// while it renames its files. A second signal ends the program at once.
func interruptible(parent context.Context) context.Context {
	ctx, cancel := context.WithCancelCause(parent)
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM)
	go func() {
		cause := interrupted{<-signals}
		signal.Stop(signals)
		cancel(cause)
		time.Sleep(patience)
		outfile.Settle()
		told := make(chan struct{})
		go func() {
			fmt.Fprintln(os.Stderr, interruptedText)
			close(told)
		}()
		select {
		case <-told:
		case <-time.After(telling):
		}
		os.Exit(interruptedStatus(cause))
	}()
	return ctx
}

const interruptedText = "loamcast: interrupted; no file is half-written"

// interruptedStatus is 128 and the signal's number, as shells count it.
func interruptedStatus(err error) int {
	if by := (interrupted{}); errors.As(err, &by) && by.signal == syscall.SIGTERM {
		return exitTerminated
	}
	return exitInterrupted
}
