package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// reference is what in prose may name a file of the project: a path, or a name
// with the ending of a source or a document.
var reference = regexp.MustCompile(`[\w.*-]*[\w*](?:/[\w.*-]+)*/?`)

// Every file and folder that a comment of the code or a document names is there:
// Go sources and Markdown by name or path, anything else by a path that begins
// with a folder of the project.
func TestReferencesExist(t *testing.T) {
	const root = "../.."
	tree := projectTree(t, root)
	checked := 0
	for _, file := range tree.files {
		for _, word := range tree.references(prose(t, filepath.Join(root, file))) {
			checked++
			if !tree.has(path.Dir(file), word) {
				t.Errorf("%s names %s, which does not exist", file, word)
			}
		}
	}
	if checked < 50 {
		t.Errorf("only %d references found: the search itself is broken", checked)
	}
}

// The search finds what is missing, and leaves alone what only looks like a name.
func TestReferencesAreSeen(t *testing.T) {
	tree := tree{files: []string{"sim/kernel.go", "README.md"}, folders: []string{"sim", "scenarios", "scenarios/report"}}
	for text, want := range map[string][]string{
		"See kernel.go and sim/kernel.go, or README.md.": nil,
		"as in checks.md (\"Engine\")":                   {"checks.md"},
		"sim/lost.go; other.go":                          {"sim/lost.go", "other.go"},
		"./sim/... and scenarios/report":                 nil,
		"sim/nothing/ or scenarios/nothing":              {"sim/nothing/", "scenarios/nothing"},
		"kg/m3, and/or, encoding/csv, answer.json":       nil,
		"sim/*.go but not sim/*.md":                      {"sim/*.md"},
		"golang.org/x/tools/cmd/deadcode":                nil,
	} {
		var got []string
		for _, word := range tree.references(text) {
			if !tree.has(".", word) {
				got = append(got, word)
			}
		}
		if !slices.Equal(got, want) {
			t.Errorf("%q: missing %q, want %q", text, got, want)
		}
	}
}

// tree is what there is in the project, by path from its root.
type tree struct{ files, folders []string }

func projectTree(t *testing.T, root string) (all tree) {
	t.Helper()
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name, _ = filepath.Rel(root, name)
		switch {
		case name == ".git":
			return skip(d)
		case name == ".":
		case d.IsDir():
			all.folders = append(all.folders, filepath.ToSlash(name))
		default:
			all.files = append(all.files, filepath.ToSlash(name))
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func skip(d fs.DirEntry) error {
	if d.IsDir() {
		return fs.SkipDir
	}
	return nil
}

// prose returns a document, or the comments of a Go file.
func prose(t *testing.T, name string) string {
	t.Helper()
	switch path.Ext(name) {
	case ".md":
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	case ".go":
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		var comments strings.Builder
		for _, c := range f.Comments {
			comments.WriteString(c.Text())
		}
		return comments.String()
	}
	return ""
}

// references returns the words of a text that must exist.
func (t tree) references(text string) []string {
	var found []string
	for _, word := range reference.FindAllString(text, -1) {
		word = strings.TrimSuffix(strings.TrimPrefix(strings.TrimRight(word, "."), "./"), "/..")
		first, _, isPath := strings.Cut(word, "/")
		switch ending := path.Ext(word); {
		case ending == ".go" || ending == ".md":
			found = append(found, word)
		case isPath && slices.ContainsFunc(t.folders, func(f string) bool { return f == first }):
			found = append(found, word)
		}
	}
	return found
}

// has reports whether a word names something: by its path from the root or from
// the folder that speaks of it, or by the end of its path.
func (t tree) has(from, word string) bool {
	word = strings.TrimSuffix(word, "/")
	for _, all := range [][]string{t.files, t.folders} {
		for _, name := range all {
			if match(word, name) || match(path.Join(from, word), name) || strings.HasSuffix(name, "/"+word) {
				return true
			}
			if !strings.Contains(word, "/") && match(word, path.Base(name)) {
				return true
			}
		}
	}
	return false
}

func match(pattern, name string) bool {
	ok, err := path.Match(pattern, name)
	return ok && err == nil
}
