package document

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"loamcast/scenarios/plaintext"
	"loamcast/scenarios/units"
)

// NoBreak is a space at which no renderer breaks a line; it holds a number and
// its unit together.
const NoBreak = "\u00a0"

// Part is something in a text that is written only when the system of units is
// known.
type Part interface{ In(units.System) string }

// Text is running text: words, and numbers that get their unit when rendered.
// The zero value is empty.
type Text struct {
	format string
	args   []any
}

// Say makes a text as [fmt.Sprintf] does. Arguments that are a [Part], texts
// among them, fill a %s once the system of units is known.
func Say(format string, args ...any) Text { return Text{format, args} }

// Words makes a text of words as they stand.
func Words(words string) Text { return Text{"%s", []any{words}} }

// Join puts texts together, with a separator between those that are not empty.
func Join(separator string, texts ...Text) Text {
	var some []any
	format := ""
	for _, t := range texts {
		if t.Empty() {
			continue
		}
		if len(some) > 0 {
			format += strings.ReplaceAll(separator, "%", "%%")
		}
		format += "%s"
		some = append(some, t)
	}
	return Text{format, some}
}

// List joins texts as words do: "a", "a and b", "a, b and c".
func List(texts ...Text) Text {
	if len(texts) < 2 {
		return Join("", texts...)
	}
	last := len(texts) - 1
	return Join(" and ", Join(", ", texts[:last]...), texts[last])
}

// Empty reports whether the text says nothing.
func (t Text) Empty() bool { return t.format == "" }

// Then returns the text with another right after it.
func (t Text) Then(format string, args ...any) Text {
	return Join("", t, Say(format, args...))
}

// In writes the text in a system of units.
func (t Text) In(sys units.System) string {
	args := make([]any, len(t.args))
	for i, arg := range t.args {
		if part, ok := arg.(Part); ok {
			arg = part.In(sys)
		}
		args[i] = arg
	}
	return fmt.Sprintf(t.format, args...)
}

// Plain is In without no-break spaces, for what nothing will wrap.
func (t Text) Plain(sys units.System) string { return PlainSpaces(t.In(sys)) }

// PlainSpaces turns no-break spaces into plain ones.
func PlainSpaces(s string) string { return strings.ReplaceAll(s, NoBreak, " ") }

// Name is a name from a file as text has room for: what would move a
// terminal's cursor or colour its text is dropped, and what is longer than so
// many characters is cut, with an ellipsis.
func Name(s string, longest int) string { return Shorten(Printable(s), longest) }

// Printable drops the characters that do not print, and marks of writing
// direction.
func Printable(s string) string { return plaintext.Terminal(s) }

// Shorten cuts s to a number of characters, with an ellipsis where it was cut.
func Shorten(s string, longest int) string {
	if utf8.RuneCountInString(s) <= longest {
		return s
	}
	return string([]rune(s)[:longest-1]) + "…"
}

// Capital returns a text with a capital first letter.
func Capital(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}

// Counted is "1 vessel" or "3 vessels".
func Counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
