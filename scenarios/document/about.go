package document

import (
	"fmt"
	"strings"

	"loamcast/scenarios/answer"
)

// About says under a figure's title whose figures these are, what they show,
// and whether the data is invented.
func About(b *answer.Basis, shows ...string) Text {
	parts := append([]string{Name(b.Facility, 60)}, shows...)
	if b.Invented {
		parts = append(parts, "invented data")
	}
	return Words(strings.Join(parts, " · "))
}

// Runs says how many runs a figure rests on, and their seed.
func Runs(b *answer.Basis) string {
	return fmt.Sprintf("%d replications, seed %d", b.Replications, b.Seed)
}
