package document

import (
	"fmt"
	"strings"

	"loamcast/scenarios/answer"
)

// About says under a figure's title whose figures these are, what they show,
// and whether the data is invented.
func About(b *answer.Basis, shows ...string) Text {
	return AboutText(b, Words(strings.Join(shows, separator)))
}

// AboutText is [About] where what is shown has a unit or a currency.
func AboutText(b *answer.Basis, shows ...Text) Text {
	text := Join(separator, append([]Text{Words(Name(b.Facility, 60))}, shows...)...)
	if b.Invented {
		text = Join(separator, text, Words("invented data"))
	}
	return text
}

// separator stands between the parts of what is said under a title.
const separator = " · "

// Runs says how many runs a figure rests on, and their seed.
func Runs(b *answer.Basis) string {
	return fmt.Sprintf("%d replications, seed %d", b.Replications, b.Seed)
}
