package main

import (
	"context"
	"errors"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/outfile"
	"loamcast/scenarios/shards"
)

// Exit statuses, named in the help of every command.
const (
	exitOK          = 0
	exitFailed      = 1   // the run or the writing of its results failed
	exitBadInput    = 2   // file or command line; nothing was written
	exitFault       = 3   // the program panicked: its fault, not the user's
	exitInterrupted = 130 // Ctrl-C, as shells count it
	exitTerminated  = 143 // SIGTERM
)

const exitHelp = `
Exit status: 0 done; 1 the run failed; 2 bad file or command line, nothing written;
3 a fault in the program; 130 interrupted, 143 terminated, nothing half-written.`

// usageError is a mistake on the command line.
type usageError struct{ error }

func (e usageError) Unwrap() error { return e.error }

func exitStatus(err error) int {
	var usage usageError
	var input *facilityfile.Error
	var inTheWay *outfile.RefusedError
	var shares *shards.Error
	switch {
	case err == nil:
		return exitOK
	case isFault(err):
		return exitFault
	case errors.Is(err, context.Canceled):
		return interruptedStatus(err)
	case errors.As(err, &usage), errors.As(err, &input), errors.As(err, &inTheWay), errors.As(err, &shares):
		return exitBadInput
	}
	return exitFailed
}
