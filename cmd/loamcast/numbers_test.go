package main

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"html"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"loamcast/scenarios/examples"
	"loamcast/scenarios/report"
)

// asMany is how often each figure stands in a text.
func asMany(text string) map[string]int {
	out := map[string]int{}
	for _, figure := range regexp.MustCompile(`[0-9]+(?:[.,][0-9]+)*`).FindAllString(text, -1) {
		out[figure]++
	}
	return out
}

var marks = regexp.MustCompile(`<[^>]*>`)

// ofDemo compares them for the demo, which takes some minutes.
var ofDemo = flag.Bool("demo", false, "compare the answers about the demo")

// The page, the commands and the report say the same of one file and seed. What the page
// shows of a question, pictures apart, stands to the byte in the report; each figure that the
// command prints, on a screen that may be too short for all of them, stands at least as often
// on the page; and the tables that the command writes as files are to the byte those of the
// report.
func TestSameNumbersEverywhere(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "plant.yaml")
	text := readFile(t, planningFile)
	asked := []string{"when", "options", "product", "run", "check", "mix"}
	if *ofDemo {
		text = string(examples.Data(examples.Demo))
		asked = slices.DeleteFunc(report.Questions(), func(name string) bool { return name == "setback" || name == "drivers" || name == "expand" })
	}
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	command := func(args ...string) string {
		t.Helper()
		var out, complaints bytes.Buffer
		if status := execute(context.Background(), args, &out, &complaints); status != exitOK {
			t.Fatalf("%v: status %d: %s", args, status, complaints.String())
		}
		return out.String()
	}
	board := filepath.Join(dir, "board")
	command("report", path, "--out", board, "--only", strings.Join(asked, ","))
	handed := readFile(t, filepath.Join(board, "report.html"))
	p := openPage(t, path)
	// What a command says of the folder that it writes is not of the file.
	beside := regexp.MustCompile(regexp.QuoteMeta(dir) + `|All [0-9]+ cautions`)
	figures, tables := 0, 0
	for _, name := range asked {
		request, err := json.Marshal(map[string]any{"tab": "a", "text": text, "question": name})
		if err != nil {
			t.Fatal(err)
		}
		shown := answerOf(t, p.post("ask", string(request)))
		words, _, _ := strings.Cut(shown, "<figure")
		if words = strings.TrimSpace(words); len(words) < 500 || !strings.Contains(handed, words) {
			t.Errorf("%s: the page shows what is not in the report:\n%s", name, words)
		}
		out := filepath.Join(dir, name)
		onPage := asMany(html.UnescapeString(marks.ReplaceAllString(words, " ")))
		for figure, n := range asMany(beside.ReplaceAllString(command(name, path, "--out", out), "")) {
			figures++
			if onPage[figure] < n {
				t.Errorf("%s: the command has %s %d times, the page %d times", name, figure, n, onPage[figure])
			}
		}
		files, err := filepath.Glob(filepath.Join(out, "*.csv"))
		if err != nil {
			t.Fatal(err)
		}
		for _, file := range files {
			base := filepath.Base(file)
			if slices.Contains([]string{"columns.csv", "cautions.csv"}, base) {
				continue // of one question, and of all
			}
			tables++
			if readFile(t, file) != readFile(t, filepath.Join(board, base)) {
				t.Errorf("%s: %s of the command is not that of the report", name, base)
			}
		}
	}
	if figures < 250 || tables < 25 {
		t.Errorf("only %d figures and %d tables were compared", figures, tables)
	}
	t.Logf("%d figures and %d tables were compared", figures, tables)
}

// answerOf is the answer among the events of a page.
func answerOf(t *testing.T, events string) string {
	t.Helper()
	_, data, ok := strings.Cut(events, "event: answer\ndata: ")
	if !ok {
		t.Fatalf("there is no answer: %.500s", events)
	}
	data, _, _ = strings.Cut(data, "\n")
	var shown struct{ HTML string }
	if err := json.Unmarshal([]byte(data), &shown); err != nil {
		t.Fatal(err)
	}
	return shown.HTML
}

func readFile(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}
