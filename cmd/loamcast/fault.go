package main

import (
	"context"
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"loamcast/sim"
	"loamcast/sim/replicate"
)

// isFault reports whether an error is a panic that was carried here.
func isFault(err error) bool {
	return errors.As(err, new(*sim.PanicError)) || errors.As(err, new(*replicate.PanicError))
}

// guarded runs the command and returns a panic as an error: by itself it would
// end the program with the status that stands for a bad file.
func guarded(ctx context.Context, root *cobra.Command) (err error) {
	defer func() {
		if v := recover(); v != nil {
			err = replicate.NewPanicError(v)
		}
	}()
	return root.ExecuteContext(ctx)
}

// reportFault says what happened and what helps to mend it.
func reportFault(w io.Writer, args []string, err error) {
	fmt.Fprintf(w, `loamcast: a fault in the program, not in your file: please report it to whoever gave you
loamcast, with the facility file and these lines.
version %s, command %q
%v
`, version, args, err)
	if inEvent := (*sim.PanicError)(nil); errors.As(err, &inEvent) {
		fmt.Fprintln(w, inEvent.Stack) // its message leaves it out
	}
}
