package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"loamcast/scenarios/examples"
	"loamcast/scenarios/page/drafts"
)

// pageOf is a client of the page that the command serves of a file, until the test is over.
type pageOf struct {
	t         *testing.T
	at, token string
}

// openPage runs the command of the page.
func openPage(t *testing.T, args ...string) *pageOf {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	out, in := io.Pipe()
	ended := make(chan int, 1)
	var complaints strings.Builder
	go func() {
		ended <- execute(ctx, append([]string{"page"}, args...), in, &complaints)
		in.Close()
	}()
	t.Cleanup(func() {
		cancel()
		if status := <-ended; status != exitOK || complaints.String() != "" {
			t.Errorf("status %d: %s", status, complaints.String())
		}
	})
	return pageAt(t, out)
}

// pageAt is the page at the address that a command writes.
func pageAt(t *testing.T, out io.Reader) *pageOf {
	t.Helper()
	address := ""
	for lines := bufio.NewScanner(out); address == "" && lines.Scan(); {
		if line := strings.TrimSpace(lines.Text()); strings.HasPrefix(line, "http") {
			address = line
		}
	}
	at, token, _ := strings.Cut(address, "/#")
	if !strings.HasPrefix(at, "http://127.0.0.1:") || len(token) < 32 {
		t.Fatalf("the address is %q", address)
	}
	return &pageOf{t, at, token}
}

// post asks the page for something in JSON.
func (p *pageOf) post(path, body string) string {
	p.t.Helper()
	r, err := http.NewRequestWithContext(context.Background(), http.MethodPost, p.at+"/api/"+path, strings.NewReader(body))
	if err != nil {
		p.t.Fatal(err)
	}
	r.Header.Set("Origin", p.at)
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Loamcast-Token", p.token)
	answer, err := http.DefaultTransport.RoundTrip(r)
	if err != nil {
		p.t.Fatal(err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil || answer.StatusCode != http.StatusOK {
		p.t.Fatalf("%s: %s, %v: %.200s", path, answer.Status, err, text)
	}
	return string(text)
}

// The page tells its address with its key, on the loopback interface alone, opens the file
// that was named, and ends as it should when it is told to. What is edited on it is kept
// where the environment says, and offered when it is served anew.
func TestPageIsServed(t *testing.T) {
	dir := t.TempDir()
	t.Setenv(drafts.Variable, filepath.Join(dir, "drafts"))
	path := filepath.Join(dir, "plant.yaml")
	if err := os.WriteFile(path, examples.Data("dunmarrow"), 0o600); err != nil {
		t.Fatal(err)
	}
	p := openPage(t, path)
	if text := p.post("open", `{"tab": "a"}`); !strings.Contains(text, "Dunmarrow compost plant") || strings.Contains(text, "unsaved") {
		t.Errorf("it opens as %.300s", text)
	}
	if kept := p.post("draft", `{"tab": "a", "text": "name: edited", "hash": "x"}`); !strings.Contains(kept, "true") {
		t.Errorf("a draft is answered by %s", kept)
	}
	if text := openPage(t, path).post("open", `{"tab": "b"}`); !strings.Contains(text, "There are unsaved changes from") {
		t.Errorf("no draft is offered: %.300s", text)
	}
}

// What was edited is offered by the next program where the one that served it was killed,
// in the middle of an answer, and the file is as it was.
func TestPageKilled(t *testing.T) {
	if testing.Short() {
		t.Skip("starts the program, and kills it in the middle of an answer, which waits; the round without -short has it")
	}
	dir := t.TempDir()
	t.Setenv(drafts.Variable, filepath.Join(dir, "drafts"))
	path := filepath.Join(dir, "plant.yaml")
	if err := os.WriteFile(path, examples.Data("dunmarrow"), 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.CommandContext(t.Context(), binary, "page", path)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	p := pageAt(t, out)
	if kept := p.post("draft", `{"tab": "a", "text": "name: edited", "hash": "x"}`); !strings.Contains(kept, "true") {
		t.Errorf("a draft is answered by %s", kept)
	}
	text, err := json.Marshal(map[string]any{"tab": "a", "text": string(examples.Data("dunmarrow")), "question": "when"})
	if err != nil {
		t.Fatal(err)
	}
	r, err := http.NewRequestWithContext(t.Context(), http.MethodPost, p.at+"/api/ask", bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Origin", p.at)
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Loamcast-Token", p.token)
	answer, err := http.DefaultTransport.RoundTrip(r)
	if err != nil || answer.StatusCode != http.StatusOK {
		t.Fatalf("asking: %v, %v", answer, err)
	}
	if err := cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	if said, err := io.ReadAll(answer.Body); err == nil {
		t.Errorf("it answered before it was killed: %.300s", said)
	}
	answer.Body.Close()
	_ = cmd.Wait() // killed
	if now, err := os.ReadFile(path); err != nil || !bytes.Equal(now, examples.Data("dunmarrow")) {
		t.Errorf("the file is not as it was: %v", err)
	}
	if text := openPage(t, path).post("open", `{"tab": "b"}`); !strings.Contains(text, "There are unsaved changes from") {
		t.Errorf("no draft is offered: %.300s", text)
	}
}

// What cannot be served is said before anything is.
func TestPageRefuses(t *testing.T) {
	for _, args := range [][]string{
		{"--port", "70000"}, {"--port", "-1"}, {"--units", "metric"}, {"--workers", "-2"}, {"-"}, {"nothing.yaml"}, {"a.yaml", "b.yaml"},
	} {
		var out, complaints strings.Builder
		if status := execute(context.Background(), append([]string{"page"}, args...), &out, &complaints); status != exitBadInput || out.Len() > 0 || complaints.Len() == 0 {
			t.Errorf("%v: status %d, %q, %q", args, status, out.String(), complaints.String())
		}
	}
}
