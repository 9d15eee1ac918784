package page_test

import (
	"encoding/json"
	"strings"
	"testing"

	"loamcast/scenarios/question"
)

// event is one of an answer.
type event struct{ name, data string }

// eventsOf are those of an answer, progress left out.
func eventsOf(t *testing.T, text string) []event {
	t.Helper()
	var out []event
	for part := range strings.SplitSeq(strings.TrimSuffix(text, "\n\n"), "\n\n") {
		name, data, ok := strings.Cut(strings.TrimPrefix(part, "event: "), "\ndata: ")
		if !ok {
			t.Fatalf("no event: %q", part)
		}
		if name != "progress" {
			out = append(out, event{name, data})
		}
	}
	return out
}

// html is what an event shows.
func (e event) html(t *testing.T) string {
	t.Helper()
	var shown struct{ HTML string }
	if err := json.Unmarshal([]byte(e.data), &shown); err != nil {
		t.Fatal(err)
	}
	return shown.HTML
}

// defaults are the options of a question of which nothing is said.
func defaults(t *testing.T, q *question.Question) question.Values {
	t.Helper()
	v, err := question.Read(q.Options, nil)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
