package edit

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"loamcast/scenarios/yamlfile"
)

// Set returns a text in which a key has another value. The path names entries of lists
// by their number from 1, as messages do: "options[2].steps[1].cost". A key that the
// text leaves out is added, with its group; a list must be there. A value stands as it
// is written in YAML, quotation marks included, on one line.
func Set(text, path, value string) (string, error) {
	doc, err := yamlfile.Parse(fileName, []byte(text))
	if err != nil {
		return "", err
	}
	group, key, missing := walk(doc.Root(), path)
	if group == nil {
		return "", fmt.Errorf("there is no entry %s", path)
	}
	for i := len(missing) - 1; i >= 0; i-- {
		value = "{" + missing[i] + ": " + value + "}"
	}
	if group.Has(key) {
		return replace(text, group, key, value)
	}
	start := group.Start()
	at, err := offset(text, start)
	if err != nil {
		return "", err
	}
	end := "\n" + strings.Repeat(" ", start.Column-1)
	if group.InBraces() {
		end = ", "
	}
	return text[:at] + key + ": " + value + end + text[at:], nil
}

// fileName is of messages that nobody reads.
const fileName = "file"

var step = regexp.MustCompile(`^([^\[]*)(?:\[(\d+)\])?$`)

// walk returns the innermost group on a path that is there, the key in it on which
// the path goes on, and the keys below that which are missing with it.
func walk(m *yamlfile.Map, path string) (group *yamlfile.Map, key string, missing []string) {
	names := strings.Split(path, ".")
	for i, name := range names {
		parts := step.FindStringSubmatch(name)
		if parts == nil || parts[1] == "" {
			return nil, "", nil
		}
		key := parts[1]
		switch {
		case i == len(names)-1 && parts[2] == "":
			return m, key, nil
		case i == len(names)-1:
			return nil, "", nil
		case parts[2] != "":
			n, _ := strconv.Atoi(parts[2])
			if !m.IsList(key) || n < 1 || n > len(m.ListIf(key)) {
				return nil, "", nil
			}
			m = m.ListIf(key)[n-1]
		case !m.Has(key) && !slices.Contains(names[i+1:], ""):
			return m, key, names[i+1:]
		case !m.IsMap(key):
			return nil, "", nil
		default:
			m = m.Map(key)
		}
	}
	return nil, "", nil
}

// replace puts another value in the place of one that stands on one line.
func replace(text string, group *yamlfile.Map, key, value string) (string, error) {
	if first, last := group.Lines(key); first != last || group.Indented(key) {
		return "", fmt.Errorf("the value of %s goes over several lines", key)
	}
	at, err := offset(text, group.Pos(key))
	if err != nil {
		return "", err
	}
	return text[:at] + value + text[at+length(text[at:], group.InBraces()):], nil
}

// offset returns the byte at which a position stands.
func offset(text string, p yamlfile.Position) (int, error) {
	at := 0
	for range p.Line - 1 {
		next := strings.IndexByte(text[at:], '\n')
		if next < 0 {
			return 0, fmt.Errorf("there is no line %d", p.Line)
		}
		at += next + 1
	}
	column := 1
	for i := range text[at:] {
		if column == p.Column {
			return at + i, nil
		}
		column++
	}
	return len(text), nil
}

// length returns how many bytes the value has with which a text begins. Inside
// braces a comma or a brace ends it, elsewhere the line or a comment does.
func length(text string, inBraces bool) int {
	depth := 0
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case (c == '"' || c == '\'') && (i == 0 || strings.IndexByte("[{,: ", text[i-1]) >= 0):
			i += 1 + strings.IndexByte(text[i+1:], c)
		case c == '[' || c == '{':
			depth++
		case (c == ']' || c == '}') && depth > 0:
			depth--
		case c == '\n', strings.HasPrefix(text[i:], " #"):
			return len(strings.TrimRight(text[:i], " \t\r"))
		case depth == 0 && inBraces && (c == ',' || c == '}' || c == ']'):
			return len(strings.TrimRight(text[:i], " \t\r"))
		}
	}
	return len(text)
}
