package replicate

import (
	"fmt"
	"runtime/debug"
)

// PanicError is a panic in a job, carried to the caller: a fault of the program,
// not of what it was given.
type PanicError struct {
	Value any
	Stack string // of the goroutine, at the panic
}

// NewPanicError is called by a deferred function with what it has recovered.
func NewPanicError(v any) *PanicError {
	return &PanicError{Value: v, Stack: string(debug.Stack())}
}

// Error gives the value and the stack, without which the place is lost.
func (e *PanicError) Error() string { return fmt.Sprintf("panic: %v\n%s", e.Value, e.Stack) }
