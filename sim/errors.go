package sim

import (
	"fmt"
	"runtime/debug"
	"strings"
)

// RunError says where in a run something went wrong.
type RunError struct {
	Replication int
	At          Time
	Date        string // civil date and time of At, "2031-04-17 08:30"
	Event       string // name of the event being executed, or "" between events
	Err         error
}

// Error reads "replication 3, 2031-04-17 08:30, event mix: …".
func (e *RunError) Error() string {
	var s strings.Builder
	fmt.Fprintf(&s, "replication %d, %s", e.Replication, e.Date)
	if e.Event != "" {
		fmt.Fprintf(&s, ", event %s", e.Event)
	}
	fmt.Fprintf(&s, ": %v", e.Err)
	return s.String()
}

// Unwrap returns the cause.
func (e *RunError) Unwrap() error { return e.Err }

// PanicError is a panic caught while events were being executed.
type PanicError struct {
	Value any
	Stack string // of the goroutine, at the panic
}

func newPanicError(v any) *PanicError {
	return &PanicError{Value: v, Stack: string(debug.Stack())}
}

// Error gives the value of the panic. The stack is left out: it belongs in a
// bug report, not in a message.
func (e *PanicError) Error() string { return fmt.Sprintf("panic: %v", e.Value) }

// Unwrap returns the value of the panic when it is an error.
func (e *PanicError) Unwrap() error {
	err, _ := e.Value.(error)
	return err
}
