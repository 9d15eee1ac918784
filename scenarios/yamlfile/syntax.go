package yamlfile

import (
	"errors"
	"strings"

	"go.yaml.in/yaml/v4"
)

// syntaxTable rewords what the parser says in terms of what the writer did.
// The first row whose key is part of the parser's message applies.
var syntaxTable = []struct {
	parser    string
	atContext bool // the mistake is where the construct began, not where it broke
	message   string
	hint      string
}{
	{"mapping values are not allowed", false, "a colon stands where no key can begin",
		"check the indentation of this line, and put text that contains a colon in quotes"},
	{"did not find expected key", false, "this line does not line up with the keys above it",
		"keys of one group begin in the same column"},
	{"did not find expected <document start>", false, "this line does not line up with the keys above it",
		"keys of one group begin in the same column"},
	{"did not find expected '-' indicator", false, "this line does not line up with the list above it",
		"entries of one list begin in the same column, each with a hyphen and a space"},
	{"block sequence entries are not allowed", false, "a list cannot begin here",
		"put its first entry on the line below the key"},
	{"could not find expected ':'", true, "a key without a colon", `write "key: value"`},
	{"did not find expected ',' or ']'", true, "this list is not closed", "end it with ], and put commas between its entries"},
	{"did not find expected ',' or '}'", true, "this group is not closed", "end it with }, and put commas between its entries"},
	{"found unexpected end of stream", true, "this quotation mark is not closed", "end the text with the same mark"},
	{"found unexpected document indicator", true, "this quotation mark is not closed", "end the text with the same mark"},
	{"unknown escape character", false, "a backslash in double quotes begins a special character", "use single quotes for text with a backslash"},
	{"cannot start any token", false, "a value cannot begin with this character", "put the value in quotes"},
	{"unknown anchor", false, "an alias (*) is not read here", "write the value out"},
	{"exceeded max depth", false, "groups are nested too deep", "close a bracket, or check the indentation"},
}

// syntaxProblems turns the parser's error into ours. Tabs in the indentation,
// which the parser reports as something else, are all named at once.
func syntaxProblems(src source, err error) error {
	var failure *yaml.LoadError
	if !errors.As(err, &failure) {
		return problems([]Diagnostic{src.at(Position{1, 1}, Error, "the file cannot be read: "+err.Error(), "")})
	}
	if tabs := tabbedLines(src); len(tabs) > 0 {
		return problems(tabs)
	}
	at := Position{failure.Mark.Line, failure.Mark.Column}
	for _, row := range syntaxTable {
		if !strings.Contains(failure.Message, row.parser) {
			continue
		}
		if row.atContext && failure.ContextMark.Line > 0 {
			at = Position{failure.ContextMark.Line, failure.ContextMark.Column}
		}
		return problems([]Diagnostic{src.at(at, Error, row.message, row.hint)})
	}
	return problems([]Diagnostic{src.at(at, Error, "the file is not well-formed YAML here: "+failure.Message,
		"check indentation, quotation marks and brackets around this line")})
}

// tabbedLines reports every line whose indentation contains a tab.
func tabbedLines(src source) []Diagnostic {
	var list []Diagnostic
	for i, line := range src.lines {
		indentation := line[:len(line)-len(strings.TrimLeft(line, " \t"))]
		if tab := strings.IndexByte(indentation, '\t'); tab >= 0 && len(indentation) < len(line) {
			list = append(list, src.at(Position{i + 1, tab + 1}, Error, "a tab in the indentation", "indent with spaces"))
		}
	}
	return list
}
