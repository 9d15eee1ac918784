package answer

import "fmt"

// OptionError says what is wrong with an option of a question: bad input, not a
// failed run.
type OptionError struct {
	Option string // its name
	Reason string // "0: ask for 1 or more"
}

func (e *OptionError) Error() string { return e.Option + " " + e.Reason }

// WrongOption makes an [OptionError]; the reason begins with the value.
func WrongOption(option, reason string, args ...any) error {
	return &OptionError{option, fmt.Sprintf(reason, args...)}
}
