package page

import (
	"encoding/json"
	"fmt"
	"net/http"
	"sync"
	"time"
)

// sendingTime is how long one event may take to be sent.
const sendingTime = 20 * time.Second

// stream sends events as they come. It is safe for concurrent use.
type stream struct {
	mu sync.Mutex
	w  http.ResponseWriter
	to *http.ResponseController
}

// newStream begins an answer of events.
func newStream(w http.ResponseWriter) *stream {
	w.Header().Set("Content-Type", "text/event-stream; charset=utf-8")
	return &stream{w: w, to: http.NewResponseController(w)}
}

// send sends one event, of which the data is JSON on one line.
func (s *stream) send(event string, data any) error {
	text, err := json.Marshal(data)
	if err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.to.SetWriteDeadline(time.Now().Add(sendingTime))
	if _, err := fmt.Fprintf(s.w, "event: %s\ndata: %s\n\n", event, text); err != nil {
		return err
	}
	return s.to.Flush()
}
