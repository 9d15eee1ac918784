package shards

import (
	"fmt"
	"strconv"
	"strings"
)

// Error is what is wrong with shares, or with what is asked of them.
type Error struct{ error }

func (e *Error) Unwrap() error { return e.error }

func wrong(format string, args ...any) error { return &Error{fmt.Errorf(format, args...)} }

// Share is one of several, counted from 1.
type Share struct{ Number, Of int }

// MostShares is how many shares there may be.
const MostShares = 100_000

// ParseShare reads a share that is written as "3/8".
func ParseShare(text string) (Share, error) {
	number, of, found := strings.Cut(text, "/")
	i, err1 := strconv.Atoi(number)
	n, err2 := strconv.Atoi(of)
	if !found || err1 != nil || err2 != nil {
		return Share{}, wrong("%q: write which share of how many, as 1/8", text)
	}
	if n < 1 || n > MostShares || i < 1 || i > n {
		return Share{}, wrong("%q: of 1 to %d shares, name one from 1 up to their number", text, MostShares)
	}
	return Share{i, n}, nil
}

// String writes it as it is read.
func (s Share) String() string { return fmt.Sprintf("%d/%d", s.Number, s.Of) }

// replications lists those of the share of so many.
func (s Share) replications(all int) (list []int) {
	for i := s.Number - 1; i < all; i += s.Of {
		list = append(list, i)
	}
	return list
}

// Origin is what replications of one answer have in common.
type Origin struct {
	Question     string
	Source       string // of the facility, as answers call it
	Invented     bool
	FileHash     string
	Seed         uint64
	Version      string // of the program
	Program      string // in hexadecimal: its build, and how its machine rounds
	Replications int    // of the answer
}

// differs says how another origin differs; empty if it does not.
func (o Origin) differs(other Origin) string {
	switch {
	case o.Question != other.Question:
		return fmt.Sprintf("it answers %q, not %q", other.Question, o.Question)
	case o.FileHash != other.FileHash:
		return "it is of another facility file"
	case o.Source != other.Source || o.Invented != other.Invented:
		return fmt.Sprintf("its facility file is called %q, not %q", other.Source, o.Source)
	case o.Seed != other.Seed:
		return fmt.Sprintf("its seed is %d, not %d", other.Seed, o.Seed)
	case o.Version != other.Version:
		return fmt.Sprintf("it was simulated by version %s of loamcast, not %s", other.Version, o.Version)
	case o.Program != other.Program:
		return "it was simulated by another build of loamcast, or on a machine that rounds otherwise"
	case o.Replications != other.Replications:
		return fmt.Sprintf("it is one of %d replications, not of %d", other.Replications, o.Replications)
	}
	return ""
}
