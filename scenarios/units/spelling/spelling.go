package spelling

import (
	"strings"
	"unicode/utf8"
)

// Nearest returns the word of known that is closest to word, and whether one
// is close enough to be worth suggesting: at most one edit in a word of up to
// four characters, two up to eight, three beyond. An edit is a character
// added, left out, changed, or swapped with its neighbour; capitals do not
// count. Of equally near words the first wins. Where none is close enough, one that is
// the beginning of the other is, as mon of monday.
func Nearest(word string, known []string) (string, bool) {
	limit := tolerance(utf8.RuneCountInString(word))
	best, found := "", false
	for _, candidate := range known {
		if d, ok := distance(word, candidate, limit); ok {
			if d == 0 {
				return candidate, true
			}
			best, found = candidate, true
			limit = d - 1
		}
	}
	if !found {
		return beginning(word, known)
	}
	return best, found
}

// leastBeginning is how many letters a beginning has, so that it says something.
const leastBeginning = 3

// beginning returns the longest known word with which word begins, or else the first that
// begins with word.
func beginning(word string, known []string) (best string, found bool) {
	lower := strings.ToLower(word)
	for _, candidate := range known {
		if len(candidate) >= leastBeginning && len(candidate) > len(best) && strings.HasPrefix(lower, strings.ToLower(candidate)) {
			best, found = candidate, true
		}
	}
	for _, candidate := range known {
		if !found && len(word) >= leastBeginning && strings.HasPrefix(strings.ToLower(candidate), lower) {
			return candidate, true
		}
	}
	return best, found
}

func tolerance(length int) int {
	switch {
	case length <= 4:
		return 1
	case length <= 8:
		return 2
	}
	return 3
}

// distance returns the optimal string alignment distance of a and b, and
// whether it is within limit. Words that share no character position, such as
// "t" and "d", are never near: a one-letter word cannot be wholly replaced.
func distance(a, b string, limit int) (int, bool) {
	x, y := []rune(strings.ToLower(a)), []rune(strings.ToLower(b))
	if limit < 0 || len(x)-len(y) > limit || len(y)-len(x) > limit {
		return 0, false
	}
	before := make([]int, len(y)+1)
	previous := make([]int, len(y)+1)
	current := make([]int, len(y)+1)
	for j := range previous {
		previous[j] = j
	}
	for i := 1; i <= len(x); i++ {
		current[0] = i
		for j := 1; j <= len(y); j++ {
			change := previous[j-1]
			if x[i-1] != y[j-1] {
				change++
			}
			current[j] = min(change, previous[j]+1, current[j-1]+1)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				current[j] = min(current[j], before[j-2]+1)
			}
		}
		before, previous, current = previous, current, before
	}
	d := previous[len(y)]
	return d, d <= limit && d < max(len(x), len(y))
}
