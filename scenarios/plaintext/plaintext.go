package plaintext

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Terminal drops what is not printed: control characters, which would move a
// terminal's cursor or colour its text, marks of writing direction, and bytes
// that are not UTF-8. Of white space it keeps the blank, and a no-break space
// becomes one.
func Terminal(s string) string {
	return clean(s, func(r rune) rune {
		switch {
		case r == '\u00a0':
			return ' '
		case unicode.IsPrint(r):
			return r
		}
		return -1
	})
}

// XML drops what XML 1.0 cannot hold, even escaped, and control characters and
// marks of writing direction, which it can. It escapes nothing: that is for
// whoever writes the XML.
func XML(s string) string {
	return clean(s, func(r rune) rune {
		switch {
		case r == '\t' || r == '\n':
			return r
		case unicode.In(r, unicode.Cc, unicode.Cf, unicode.Cs, unicode.Zl, unicode.Zp) || r&0xfffe == 0xfffe:
			return -1
		}
		return r
	})
}

// Cell makes a word safe in a cell of a CSV file: it drops what [XML] drops, and
// line breaks and tabs at the beginning, and puts an apostrophe before what a
// spreadsheet would take for a formula, that is, what begins with =, +, - or @
// and is not a number. Spreadsheets take the apostrophe as "this is text".
func Cell(s string) string {
	s = strings.TrimLeft(XML(s), "\t\n")
	if s == "" || !strings.ContainsRune("=+-@＝＋－＠", first(s)) {
		return s
	}
	if _, err := strconv.ParseFloat(s, 64); err == nil {
		return s
	}
	return "'" + s
}

// WriteCSV writes rows with every cell made safe by [Cell].
func WriteCSV(w io.Writer, rows [][]string) error {
	out := csv.NewWriter(w)
	for _, row := range rows {
		if err := out.Write(Row(row)); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// Row returns a copy of a row with every cell made safe by [Cell].
func Row(row []string) []string {
	safe := make([]string, len(row))
	for i, s := range row {
		safe[i] = Cell(s)
	}
	return safe
}

func clean(s string, keep func(rune) rune) string {
	return strings.Map(keep, strings.ToValidUTF8(s, ""))
}

func first(s string) rune {
	r, _ := utf8.DecodeRuneInString(s)
	return r
}
