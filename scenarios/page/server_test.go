package page_test

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/page"
	"loamcast/scenarios/render/html"
	"loamcast/scenarios/study"
	"loamcast/scenarios/vesselplan"
)

// client sends what the page would send.
type client struct {
	t           *testing.T
	host, token string
}

// at is a client of the page of a file.
func at(t *testing.T, c page.Config) *client {
	t.Helper()
	address, token := served(t, c)
	host := strings.TrimPrefix(address, "http://")
	return &client{t, host[:strings.Index(host, "/")], token}
}

// request is one that the page would send, to be altered.
func (c *client) request(ctx context.Context, method, path string, body any) *http.Request {
	c.t.Helper()
	data, ok := body.([]byte)
	if !ok {
		var err error
		if data, err = json.Marshal(body); err != nil {
			c.t.Fatal(err)
		}
	}
	r, err := http.NewRequestWithContext(ctx, method, "http://"+c.host+path, bytes.NewReader(data))
	if err != nil {
		c.t.Fatal(err)
	}
	r.Header.Set("Origin", "http://"+c.host)
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Loamcast-Token", c.token)
	return r
}

// send returns the status and the body of an answer.
func (c *client) send(r *http.Request) (int, string) {
	c.t.Helper()
	answer, err := http.DefaultTransport.RoundTrip(r)
	if err != nil {
		c.t.Fatal(err)
	}
	defer answer.Body.Close()
	data, err := io.ReadAll(answer.Body)
	if err != nil {
		c.t.Fatal(err)
	}
	return answer.StatusCode, string(data)
}

// post sends one request and reads the answer.
func (c *client) post(path string, body map[string]any) (int, string) {
	c.t.Helper()
	return c.send(c.request(context.Background(), http.MethodPost, "/api/"+path, body))
}

// here is the configuration of a page of a small file in a folder of its own.
func here(t *testing.T) page.Config {
	t.Helper()
	path := filepath.Join(t.TempDir(), "plant.yaml")
	if err := os.WriteFile(path, []byte(small()), 0o600); err != nil {
		t.Fatal(err)
	}
	return page.Config{Label: path, Path: path, Folder: filepath.Dir(path), Data: []byte(small())}
}

// Requests to another host, of another page, without the token or of another kind are
// refused before anything of them is read, and what is too large or malformed after.
func TestRefused(t *testing.T) {
	c := at(t, here(t))
	for _, test := range []struct {
		name   string
		status int
		alter  func(*http.Request)
	}{
		{"as it should be", http.StatusOK, func(*http.Request) {}},
		{"by the name of this machine", http.StatusOK, func(r *http.Request) {
			r.Host = strings.Replace(c.host, "127.0.0.1", "localhost", 1)
			r.Header.Set("Origin", "http://"+r.Host)
		}},
		{"another host", http.StatusMisdirectedRequest, func(r *http.Request) { r.Host = "plant.example" }},
		{"another port", http.StatusMisdirectedRequest, func(r *http.Request) { r.Host = "127.0.0.1:1" }},
		{"no origin", http.StatusForbidden, func(r *http.Request) { r.Header.Del("Origin") }},
		{"another origin", http.StatusForbidden, func(r *http.Request) { r.Header.Set("Origin", "http://plant.example") }},
		{"the origin of a file", http.StatusForbidden, func(r *http.Request) { r.Header.Set("Origin", "null") }},
		{"another site", http.StatusForbidden, func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "cross-site") }},
		{"no token", http.StatusForbidden, func(r *http.Request) { r.Header.Del("Loamcast-Token") }},
		{"an old token", http.StatusForbidden, func(r *http.Request) { r.Header.Set("Loamcast-Token", strings.Repeat("0", len(c.token))) }},
		{"a form", http.StatusUnsupportedMediaType, func(r *http.Request) { r.Header.Set("Content-Type", "application/x-www-form-urlencoded") }},
		{"to be read", http.StatusMethodNotAllowed, func(r *http.Request) { r.Method = http.MethodGet }},
		{"no such address", http.StatusNotFound, func(r *http.Request) { r.URL.Path = "/api/other" }},
		{"a way out", http.StatusNotFound, func(r *http.Request) { r.URL.Path = "/../../etc/passwd" }},
		{"a way out, hidden", http.StatusNotFound, func(r *http.Request) { r.URL.RawPath, r.URL.Path = "/..%2f..%2fetc/passwd", "/../../etc/passwd" }},
	} {
		r := c.request(context.Background(), http.MethodPost, "/api/open", map[string]any{})
		test.alter(r)
		if test.name == "a way out" || test.name == "a way out, hidden" {
			r.Method = http.MethodGet
		}
		if status, text := c.send(r); status != test.status || strings.Contains(text, "dry_per_day") != (status == http.StatusOK) {
			t.Errorf("%s: status %d, want %d: %.80s", test.name, status, test.status, text)
		}
	}
	for name, test := range map[string]struct {
		body   any
		status int
	}{
		"huge":                {bytes.Repeat([]byte("["), 5<<20), http.StatusBadRequest},
		"a huge text":         {map[string]any{"text": strings.Repeat("a", 5<<20)}, http.StatusRequestEntityTooLarge},
		"a file too large":    {map[string]any{"text": strings.Repeat("a", 1<<20+1)}, http.StatusRequestEntityTooLarge},
		"no JSON":             {[]byte("dials"), http.StatusBadRequest},
		"nothing":             {[]byte{}, http.StatusBadRequest},
		"something unknown":   {map[string]any{"shell": "1"}, http.StatusBadRequest},
		"of another type":     {map[string]any{"text": 7}, http.StatusBadRequest},
		"two requests":        {[]byte("{}{}"), http.StatusBadRequest},
		"more dials than may": {map[string]any{"dials": make([]map[string]string, 201)}, http.StatusBadRequest},
		"a long name of tab":  {map[string]any{"tab": strings.Repeat("a", 101)}, http.StatusBadRequest},
	} {
		if status, text := c.send(c.request(context.Background(), http.MethodPost, "/api/form", test.body)); status != test.status {
			t.Errorf("%s: status %d, want %d: %.80s", name, status, test.status, text)
		}
	}
}

// The still parts need no token and hold nothing of the file; every answer has a policy by
// which nothing but the page's own script and sheet is used, and no script or style stands
// in the page itself.
func TestPolicy(t *testing.T) {
	c := at(t, here(t))
	for _, path := range []string{"/", "/page.css", "/page.js"} {
		r := c.request(context.Background(), http.MethodGet, path, map[string]any{})
		r.Header.Del("Loamcast-Token")
		r.Header.Del("Origin")
		answer, err := http.DefaultTransport.RoundTrip(r)
		if err != nil {
			t.Fatal(err)
		}
		data, err := io.ReadAll(answer.Body)
		answer.Body.Close()
		if err != nil || answer.StatusCode != http.StatusOK {
			t.Fatalf("%s: %s, %v", path, answer.Status, err)
		}
		policy := answer.Header.Get("Content-Security-Policy")
		if !strings.HasPrefix(policy, "default-src 'none'; script-src 'self'; style-src 'self';") || strings.Contains(policy, "unsafe") {
			t.Errorf("%s: the policy is %q", path, policy)
		}
		if answer.Header.Get("X-Content-Type-Options") != "nosniff" || answer.Header.Get("Cache-Control") != "no-store" {
			t.Errorf("%s: headers %v", path, answer.Header)
		}
		for _, foreign := range []string{"<style", " style=", "onclick=", "http://", "https://", "Dunmarrow", c.token} {
			if bytes.Contains(data, []byte(foreign)) {
				t.Errorf("%s holds %q", path, foreign)
			}
		}
	}
}

// hostile is a name as a file may hold it.
const hostile = `</div><script>alert(1)</script><img src=x onerror="alert(2)">`

// Whatever the file or a request says reaches the page as words.
func TestEscaped(t *testing.T) {
	c := at(t, here(t))
	text := strings.Replace(small(), "name: Dunmarrow compost plant", "name: '"+hostile+"'", 1) + "\ngrowth_scenarios:\n  - {name: '" + hostile + "', weight: 100 %, growth: {compound: 2 %/year}}\n"
	for path, body := range map[string]map[string]any{
		"dials": {"text": text}, "form": {"text": text}, "search": {"text": text, "words": "name"},
		"ask": {"text": text, "question": "check"},
	} {
		status, got := c.post(path, body)
		got = strings.NewReplacer(`\u003c`, "<", `\u003e`, ">").Replace(got)
		if status != http.StatusOK || strings.Contains(got, "<script") || strings.Contains(got, "<img") {
			t.Errorf("%s: status %d, the page gets\n%s", path, status, got)
		}
		if path != "ask" && !strings.Contains(got, "alert(1)") {
			t.Errorf("%s: the name is not shown: %s", path, got)
		}
	}
	if _, got := c.post("ask", map[string]any{"text": text, "question": hostile}); strings.Contains(got, "event:") {
		t.Errorf("an unknown question is asked: %s", got)
	}
}

// A dial that is turned gives, to the last byte, what the command line says of the file in
// which a person has changed that value; before it come looks, each by more runs than the
// one before, that say what they are.
func TestSaysWhatTheCommandSays(t *testing.T) {
	c := at(t, here(t))
	ask := func() []event {
		_, got := c.post("ask", map[string]any{"tab": "a", "text": small(), "question": "when", "dials": []map[string]string{{"path": "mix.chips_to_cake", "value": "3.3"}}})
		return eventsOf(t, got)
	}
	events := ask()
	looks := []string{"<b>A first look</b> by 16 runs of", "<b>Closer look</b> by 32 runs of", "<b>Closer look</b> by 64 runs of", "<b>Closer look</b> by 64 runs, with more vessels too"}
	if len(events) != len(looks)+1 {
		t.Fatalf("there are %d events", len(events))
	}
	for i, look := range looks {
		if shown := strings.ReplaceAll(events[i].html(t), "\u00a0", " "); events[i].name != "look" || !strings.Contains(shown, look) || !strings.Contains(shown, "% by these") {
			t.Errorf("event %d is %s, without %q:\n%.1500s", i, events[i].name, look, shown)
		}
	}
	changed := strings.Replace(small(), "chips_to_cake: 3\n", "chips_to_cake: 3.3\n", 1)
	f, err := facilityfile.Parse("plant.yaml", []byte(changed))
	if err != nil {
		t.Fatal(err)
	}
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	a, err := vesselplan.Question.Ask(context.Background(), s, answer.Setup{Version: "test"}, defaults(t, &vesselplan.Question))
	if err != nil {
		t.Fatal(err)
	}
	var want bytes.Buffer
	if err := html.WriteAnswer(&want, a.Document(), f.Units); err != nil {
		t.Fatal(err)
	}
	last := events[len(events)-1]
	if got := last.html(t); last.name != "answer" || got != want.String() || !strings.Contains(last.data, f.Hash) {
		t.Errorf("%s, got\n%.300s\nwant\n%.300s", last.name, got, want.String())
	}
	if again := ask(); len(again) != 1 || again[0].html(t) != want.String() {
		t.Errorf("what is known is reckoned again: %d events", len(again))
	}
}

// A file without uncertain inputs is told that none of its dials can be put first.
func TestRank(t *testing.T) {
	c := at(t, here(t))
	_, got := c.post("rank", map[string]any{"text": small(), "paths": []string{"solids.growth.linear", "mix.chips_to_cake"}})
	events := eventsOf(t, got)
	if told := events[len(events)-1]; told.name != "problems" || !strings.Contains(told.data, "uncertain") {
		t.Errorf("without uncertain inputs: %+v", told)
	}
}

// What the reader refuses is told of its dial, and of its line.
func TestProblems(t *testing.T) {
	c := at(t, here(t))
	for _, test := range []struct{ path, value, want string }{
		{"screen.recovery", "lots", `"path":"screen.recovery"`},
		{"screen.recovery", "3 t", `"path":"screen.recovery"`},
		{"screen.recovery", "", `"path":"screen.recovery"`},
		{"screen.nothing", "3 t", "nothing"},
		{"vessels", "4", `"path":"vessels"`},
	} {
		_, got := c.post("ask", map[string]any{"text": small(), "question": "when", "dials": []map[string]string{{"path": test.path, "value": test.value}}})
		events := eventsOf(t, got)
		if len(events) != 1 || events[0].name != "problems" || !strings.Contains(events[0].data, test.want) {
			t.Errorf("%s: %q: %s", test.path, test.value, got)
		}
	}
	if _, got := c.post("ask", map[string]any{"text": small(), "question": "when", "options": map[string]string{"vessels": "few"}}); !strings.Contains(got, "event: option") {
		t.Errorf("a wrong option: %s", got)
	}
	if _, got := c.post("form", map[string]any{"text": "solids: [\n"}); !strings.Contains(got, `"sound":false`) {
		t.Errorf("a text that is not well-formed: %s", got)
	}
}
