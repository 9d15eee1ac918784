package main

import (
	"bufio"
	"context"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loamcast/scenarios/examples"
)

// The page tells its address with its key, on the loopback interface alone, opens the file
// that was named, and ends as it should when it is told to.
func TestPageIsServed(t *testing.T) {
	path := filepath.Join(t.TempDir(), "plant.yaml")
	if err := os.WriteFile(path, examples.Data("dunmarrow"), 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	out, in := io.Pipe()
	ended := make(chan int, 1)
	var complaints strings.Builder
	go func() {
		ended <- execute(ctx, []string{"page", path}, in, &complaints)
		in.Close()
	}()
	address := ""
	for lines := bufio.NewScanner(out); address == "" && lines.Scan(); {
		if line := strings.TrimSpace(lines.Text()); strings.HasPrefix(line, "http") {
			address = line
		}
	}
	at, key, _ := strings.Cut(address, "/#")
	if !strings.HasPrefix(at, "http://127.0.0.1:") || len(key) < 32 {
		t.Fatalf("the address is %q; %s", address, complaints.String())
	}
	r, err := http.NewRequestWithContext(ctx, http.MethodPost, at+"/api/open", strings.NewReader("{}"))
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Origin", at)
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Loamcast-Token", key)
	answer, err := http.DefaultTransport.RoundTrip(r)
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(answer.Body)
	answer.Body.Close()
	if err != nil || answer.StatusCode != http.StatusOK || !strings.Contains(string(text), "Dunmarrow compost plant") {
		t.Errorf("%s, %v: %.100s", answer.Status, err, text)
	}
	cancel()
	if status := <-ended; status != exitOK || complaints.String() != "" {
		t.Errorf("status %d: %s", status, complaints.String())
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
