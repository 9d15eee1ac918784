package page

import (
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"time"

	"loamcast/scenarios/page/dials"
	"loamcast/scenarios/page/drafts"
	"loamcast/scenarios/yamlfile"
)

// request is what the page sends. Each address reads what it needs of it.
type request struct {
	Tab      string            `json:"tab"`      // a name of the tab
	Text     string            `json:"text"`     // of the file as it is edited
	Dials    []dials.Setting   `json:"dials"`    // that are turned
	Paths    []string          `json:"paths"`    // of the dials that are shown, where others than the first
	Words    string            `json:"words"`    // to search keys by
	Question string            `json:"question"` // by its name
	Options  map[string]string `json:"options"`  // of the question, as written
	Hash     string            `json:"hash"`     // of the file as it was read, or the one that may be replaced
	Name     string            `json:"name"`     // of another file to be saved
	Cases    []drafts.Case     `json:"cases"`    // to be compared or kept
	Draft    string            `json:"draft"`    // by its ID
	Only     []string          `json:"only"`     // parts of a report
	Kind     string            `json:"kind"`     // of a report
	Quarter  string            `json:"quarter"`  // by its first month, in which vessels are looked at
}

// Limits of what is sent, beside its size.
const mostDials, mostCases, longestName = 200, 50, 100

// handler answers one kind of request. What it returns is sent as JSON, unless it has
// written an answer itself and returns nothing.
type handler func(w http.ResponseWriter, r *http.Request, sent *request) (any, error)

// wrong is a request that cannot be answered, and the status that says so.
type wrong struct {
	status int
	words  string
}

func (w *wrong) Error() string { return w.words }

// ServeHTTP reads the request and sends the answer.
func (h handler) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	in, err := readRequest(r.Body)
	var out any
	if err == nil {
		// An answer may take longer than its request may take to come in.
		http.NewResponseController(w).SetReadDeadline(time.Time{})
		out, err = h(w, r, in)
	}
	bad := (*wrong)(nil)
	switch {
	case errors.As(err, &bad):
		refuse(w, bad.status, bad.words)
	case err != nil:
		refuse(w, http.StatusInternalServerError, err.Error())
	case out != nil:
		w.Header().Set("Content-Type", "application/json; charset=utf-8")
		json.NewEncoder(w).Encode(out) // an error is that of who has gone
	}
}

// readRequest reads one request and no more.
func readRequest(body io.Reader) (*request, error) {
	d := json.NewDecoder(body)
	d.DisallowUnknownFields()
	in := &request{}
	err := d.Decode(in)
	if err == nil {
		if _, more := d.Token(); !errors.Is(more, io.EOF) {
			err = errors.New("something follows the request")
		}
	}
	tooLarge := (*http.MaxBytesError)(nil)
	switch {
	case errors.As(err, &tooLarge) || len(in.Text) > yamlfile.MaxSize:
		return nil, &wrong{http.StatusRequestEntityTooLarge, "the request is too large"}
	case err != nil:
		return nil, &wrong{http.StatusBadRequest, "the request cannot be read: " + err.Error()}
	case len(in.Dials) > mostDials || len(in.Paths) > mostDials || len(in.Cases) > mostCases || len(in.Tab) > longestName || len(in.Name) > longestName:
		return nil, &wrong{http.StatusBadRequest, "the request has more than it may"}
	}
	for _, c := range in.Cases {
		if len(c.Dials) > mostDials || len(c.Name) > longestName {
			return nil, &wrong{http.StatusBadRequest, "the request has more than it may"}
		}
	}
	return in, nil
}
