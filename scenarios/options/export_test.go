package options

// WithRegrets works out the regrets of an answer whose choices are given.
func WithRegrets(a *Answer) *Answer {
	a.regrets()
	return a
}
