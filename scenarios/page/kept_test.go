package page_test

import (
	"bytes"
	"context"
	"encoding/json"
	"net/http"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/render/html"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/study"
)

// What is edited is kept for other tabs, until nothing is left unsaved or it is forgotten;
// it says whether the file has changed since. What is in it reaches the page escaped.
func TestDraftsAreOffered(t *testing.T) {
	config := here(t)
	config.Drafts = filepath.Join(t.TempDir(), "drafts")
	c := at(t, config)
	send := func(path string, body map[string]any) map[string]any {
		t.Helper()
		status, text := c.post(path, body)
		if status != http.StatusOK {
			t.Fatalf("%s: %d %s", path, status, text)
		}
		var out map[string]any
		if err := json.Unmarshal([]byte(text), &out); err != nil {
			t.Fatal(err)
		}
		return out
	}
	offers := func(tab string) string { return send("open", map[string]any{"tab": tab})["offers"].(string) }
	hash := send("open", map[string]any{"tab": "a"})["hash"].(string)
	unsaved := func(text string, of string, more ...map[string]any) map[string]any {
		return send("draft", map[string]any{"tab": "a", "text": text, "hash": of, "cases": more})
	}
	if kept := unsaved(small(), hash); kept["kept"] != false || offers("b") != "" {
		t.Errorf("nothing is edited, and %v is kept", kept)
	}
	unsaved(small(), hash, map[string]any{"name": hostile, "dials": []map[string]string{{"path": "screen.recovery", "value": "70 %"}}})
	if got := offers("b"); !strings.Contains(got, ": 1 case.") || strings.Contains(got, "has changed since") {
		t.Errorf("a case is offered as %s", got)
	}
	unsaved("name: "+hostile, "another")
	got := offers("b")
	if !strings.Contains(got, ": an edited text. The file itself has changed since they were begun.") || strings.Contains(got, "<script") {
		t.Errorf("a text is offered as %s", got)
	}
	if own := offers("a"); own != "" {
		t.Errorf("a tab is offered its own: %s", own)
	}
	id := regexp.MustCompile(`value="([0-9a-f-]+)"`).FindStringSubmatch(got)[1]
	if taken := send("take", map[string]any{"draft": id}); taken["text"] != "name: "+hostile || taken["hash"] != "another" {
		t.Errorf("taken is %v", taken)
	}
	if status, _ := c.post("take", map[string]any{"draft": "../" + id}); status != http.StatusNotFound {
		t.Errorf("a way out gives %d", status)
	}
	send("forget", map[string]any{"draft": id})
	if status, _ := c.post("take", map[string]any{"draft": id}); status != http.StatusNotFound || offers("b") != "" {
		t.Errorf("what is forgotten gives %d", status)
	}

	unsaved("name: again", hash)
	if unsaved(small(), hash); offers("b") != "" {
		t.Error("what is as the file again is offered")
	}

	config.Drafts = ""
	c = at(t, config)
	if kept := unsaved("name: again", hash); kept["kept"] != false || offers("b") != "" {
		t.Errorf("without a folder %v is kept", kept)
	}
	if status, _ := c.post("take", map[string]any{"draft": id}); status != http.StatusNotFound {
		t.Errorf("without a folder taking gives %d", status)
	}
	if status, _ := c.post("forget", map[string]any{"draft": id}); status != http.StatusNotFound {
		t.Errorf("without a folder forgetting gives %d", status)
	}
}

var drawn = regexp.MustCompile(`(?s)<figure.*?</figure>`)

// The vessels over three months are those that run draws when it is asked for these, and
// what each load waited for is what run writes; the quarters lead through the horizon.
func TestVesselsAreThoseOfRun(t *testing.T) {
	c := at(t, here(t))
	f, err := facilityfile.Parse("plant.yaml", []byte(small()))
	if err != nil {
		t.Fatal(err)
	}
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	type told struct {
		HTML, Hash, Quarters string
		To                   map[string]string
	}
	vessels := func(quarter string) told {
		t.Helper()
		_, got := c.post("vessels", map[string]any{"tab": "a", "text": small(), "quarter": quarter})
		events := eventsOf(t, got)
		var out told
		if events[0].name != "vessels" || json.Unmarshal([]byte(events[0].data), &out) != nil {
			t.Fatalf("%s: %s", quarter, got)
		}
		return out
	}
	waited := 0
	for _, quarter := range []string{"", "2027-04", "2030-10", "2033-05"} {
		shown := vessels(quarter)
		a, err := simulate.Ask(context.Background(), s, answer.Setup{Version: "test"}, simulate.Options{Replications: 1, Quarter: quarter})
		if err != nil {
			t.Fatal(err)
		}
		d := a.Document()
		for _, one := range d.Figures {
			if one.Name == "vessel-loads" {
				d.Figures = []document.Figure{one}
			}
		}
		var want bytes.Buffer
		if err := html.WriteAnswer(&want, d, f.Units); err != nil {
			t.Fatal(err)
		}
		if got := drawn.FindString(shown.HTML); got == "" || got != drawn.FindString(want.String()) {
			t.Errorf("%q: the picture is not that of run", quarter)
		}
		if f.Hash != shown.Hash {
			t.Errorf("%q: it is of the file %s", quarter, shown.Hash)
		}
		waits, heads := 0, 1
		for _, stay := range a.Occupancy.Stays {
			if (stay.Phase == plant.FullWaits || stay.Phase == plant.DueWaits) && stay.To-stay.From >= 0.25 {
				waits++
			}
		}
		if waits == 0 {
			heads = 0
		}
		if rows := strings.Count(shown.HTML, "<tr>") - heads; rows != waits {
			t.Errorf("%q: %d loads waited, and there are %d rows", quarter, waits, rows)
		}
		waited += waits
	}
	if waited == 0 {
		t.Error("no load waited in any of them")
	}
	ends := vessels("2027-04").To
	if ends["-1"] != "" || ends["-4"] != "" || ends["1"] != "2027-07" || ends["4"] != "2028-04" {
		t.Errorf("from the first quarter it goes to %v", ends)
	}
	last := vessels("2035-01")
	if last.To["1"] != "" || last.To["4"] != "" || last.To["-4"] != "2034-01" || strings.Count(last.Quarters, "<option") != 32 || strings.Count(last.Quarters, " selected") != 1 {
		t.Errorf("from the last quarter it goes to %v of %s", last.To, last.Quarters)
	}
	for _, wrong := range []string{"2031", "1990-01", hostile} {
		_, got := c.post("vessels", map[string]any{"tab": "a", "text": small(), "quarter": wrong})
		if events := eventsOf(t, got); events[0].name != "option" || strings.Contains(got, "<script") {
			t.Errorf("%s is answered by %.300s", wrong, got)
		}
	}
	if _, got := c.post("vessels", map[string]any{"tab": "a", "text": "name: nothing"}); eventsOf(t, got)[0].name != "problems" {
		t.Errorf("nonsense is answered by %.300s", got)
	}
}
