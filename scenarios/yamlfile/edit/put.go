package edit

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"loamcast/scenarios/yamlfile"
)

// ErrChanges is that of a value which cannot stand in its place without changing
// something else, such as one of several lines.
var ErrChanges = errors.New("the value cannot be written in its place without changing others; edit the text itself")

// Put gives a key the value that a person has typed, in quotation marks where it needs
// them. A list or a group is typed in brackets or braces. Only the bytes of the value
// change, and whatever was typed, no other key does.
func Put(data []byte, path, typed string) ([]byte, error) {
	typed = strings.TrimSpace(typed)
	text, mark := strings.CutPrefix(string(data), byteOrderMark)
	before, err := values(text)
	if err != nil {
		return nil, err
	}
	forms := []string{typed, quoted(typed)}
	if typed == "" {
		return nil, fmt.Errorf("%s: nothing is written; remove its line in the text to leave it out", path)
	}
	for _, form := range forms {
		changed, err := Set(text, path, form)
		if err != nil {
			return nil, err
		}
		if after, err := values(changed); err == nil && onlyAt(path, typed, before, after) {
			if mark {
				changed = byteOrderMark + changed
			}
			return []byte(changed), nil
		}
	}
	return nil, fmt.Errorf("%s: %w", path, ErrChanges)
}

const byteOrderMark = "\uFEFF"

// quoted writes a text in double quotation marks.
func quoted(text string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`, "\t", `\t`).Replace(text) + `"`
}

func values(text string) ([]yamlfile.Written, error) {
	doc, err := yamlfile.Parse(fileName, []byte(text))
	if err != nil {
		return nil, err
	}
	return doc.Written(), nil
}

// onlyAt reports whether two lists of values differ at a path alone, and have there what
// was typed.
func onlyAt(path, typed string, before, after []yamlfile.Written) bool {
	apart := func(list []yamlfile.Written) (others, at []yamlfile.Written) {
		for _, w := range list {
			w.Line = 0 // a key that is added moves those below it
			if w.Path == path || strings.HasPrefix(w.Path, path+".") || strings.HasPrefix(w.Path, path+"[") {
				at = append(at, w)
			} else {
				others = append(others, w)
			}
		}
		return others, at
	}
	was, _ := apart(before)
	is, at := apart(after)
	if !slices.Equal(was, is) || len(at) == 0 {
		return false
	}
	if group := strings.HasPrefix(typed, "{") || strings.HasPrefix(typed, "["); group {
		return at[0].Path != path || strings.HasPrefix(at[0].Text, "[") && !strings.Contains(typed, "#")
	}
	return len(at) == 1 && at[0].Path == path && at[0].Text == typed
}

// Raw returns the value of a key as it stands in a text, brackets and braces included,
// and without the marks of a quotation. There is none where the key is left out, or its
// value goes over several lines.
func Raw(data []byte, path string) (value string, ok bool) {
	text := strings.TrimPrefix(string(data), byteOrderMark)
	doc, err := yamlfile.Parse(fileName, []byte(text))
	if err != nil {
		return "", false
	}
	group, key, missing := walk(doc.Root(), path)
	if group == nil || missing != nil || !group.Has(key) {
		return "", false
	}
	for _, w := range doc.Written() {
		if w.Path == path && !strings.HasPrefix(w.Text, "[") {
			return w.Text, true
		}
	}
	if first, last := group.Lines(key); first != last || group.Indented(key) {
		return "", false
	}
	at, err := offset(text, group.Pos(key))
	if err != nil {
		return "", false
	}
	return text[at : at+length(text[at:], group.InBraces())], true
}
