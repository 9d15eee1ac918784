package report

import (
	"strings"
	"unicode/utf8"

	"loamcast/scenarios/plaintext"
)

// printable makes a word from a file fit for the screen.
func printable(s string) string { return plaintext.Terminal(s) }

// shorten cuts s to a number of columns, with an ellipsis where it was cut.
func shorten(s string, columns int) string {
	if utf8.RuneCountInString(s) <= columns {
		return s
	}
	return string([]rune(s)[:columns-1]) + "…"
}

// wrap breaks text at spaces into lines of at most screenColumns columns. The
// first line begins with first, the others with rest. A no-break space holds
// a number and its unit together and is written as a plain one.
func wrap(text, first, rest string) []string {
	var lines []string
	line, empty := first, true
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' }) {
		if !empty && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > screenColumns {
			lines = append(lines, line)
			line, empty = rest, true
		}
		if !empty {
			line += " "
		}
		line += shorten(word, screenColumns-utf8.RuneCountInString(rest))
		empty = false
	}
	lines = append(lines, line)
	for i, l := range lines {
		lines[i] = strings.ReplaceAll(l, noBreak, " ")
	}
	return lines
}

// noBreak is a space at which wrap does not break a line.
const noBreak = "\u00a0"

// firstSentence returns text up to its first full stop that ends a sentence.
func firstSentence(text string) string {
	sentence, _, more := strings.Cut(text, ". ")
	if more {
		sentence += "."
	}
	return sentence
}

// quantileName names a quantile: 0.1 is "P10".
func quantileName(q float64) string { return "P" + plainNumber(100*q) }
