package main

import (
	"context"
	"errors"

	"loamcast/scenarios/facilityfile"
)

// Exit statuses, named in the help of every command.
const (
	exitOK          = 0
	exitFailed      = 1   // the run or the writing of its results failed
	exitBadInput    = 2   // file or command line; nothing was written
	exitInterrupted = 130 // Ctrl-C, as shells count it
)

const exitHelp = `
Exit status: 0 done; 1 the run failed; 2 bad file or command line, nothing written;
130 interrupted, nothing written.`

// usageError is a mistake on the command line.
type usageError struct{ error }

func (e usageError) Unwrap() error { return e.error }

func exitStatus(err error) int {
	var usage usageError
	var input *facilityfile.Error
	switch {
	case err == nil:
		return exitOK
	case errors.Is(err, context.Canceled):
		return exitInterrupted
	case errors.As(err, &usage), errors.As(err, &input):
		return exitBadInput
	}
	return exitFailed
}
