package page

import (
	"errors"
	"fmt"
	"net/http"
	"strings"
	"time"

	"loamcast/scenarios/document"
	"loamcast/scenarios/page/drafts"
)

// offered is a draft as it is offered.
type offered struct {
	ID, Words string
}

// store is where the drafts of the file are kept; nil where none are.
func (s *Server) store() *drafts.Store {
	if s.Drafts == "" {
		return nil
	}
	of := s.Path
	if of == "" {
		of = s.Label
	}
	return &drafts.Store{Dir: s.Drafts, Of: of}
}

// offers draws what was edited in other tabs, or before the program was started, and not
// saved; hash is that of the file now.
func (s *Server) offers(tab, now, hash string) (string, error) {
	store := s.store()
	if store == nil {
		return "", nil
	}
	var list []offered
	for _, d := range store.Others(tab) {
		list = append(list, offered{d.ID, describe(&d.Draft, now, hash)})
	}
	return write("offers", list)
}

// describe says what a draft holds, beside the file as it is now.
func describe(d *drafts.Draft, now, hash string) string {
	var holds []string
	if d.Text != now {
		holds = append(holds, "an edited text")
	}
	if n := len(d.Dials); n > 0 {
		holds = append(holds, document.Counted(n, "dial")+" turned")
	}
	if n := len(d.Cases); n > 0 {
		holds = append(holds, document.Counted(n, "case"))
	}
	words := fmt.Sprintf("There are unsaved changes from %s: %s.", d.At.Local().Format("2 January 2006, 15:04"), strings.Join(holds, ", "))
	if d.Hash != hash {
		words += " The file itself has changed since they were begun."
	}
	return words
}

// draft keeps what is edited in a tab, or forgets it where nothing is left unsaved.
func (s *Server) draft(_ http.ResponseWriter, r *http.Request, in *request) (any, error) {
	store := s.store()
	if store == nil || in.Tab == "" {
		return map[string]bool{"kept": false}, nil
	}
	now, err := s.disk.read(s.Data)
	if err != nil {
		return nil, err
	}
	if in.Text == string(now) && len(in.Dials) == 0 && len(in.Cases) == 0 {
		return map[string]bool{"kept": false}, store.ForgetOwn(in.Tab)
	}
	d := &drafts.Draft{At: time.Now(), Hash: in.Hash, Text: in.Text, Dials: in.Dials, Paths: in.Paths, Cases: in.Cases}
	return map[string]bool{"kept": true}, store.Keep(r.Context(), in.Tab, d)
}

// take returns a draft, for a tab to go on with.
func (s *Server) take(_ http.ResponseWriter, _ *http.Request, in *request) (any, error) {
	store := s.store()
	if store == nil {
		return nil, missing(drafts.ErrNone)
	}
	d, err := store.Read(in.Draft)
	return d, missing(err)
}

// forget removes a draft.
func (s *Server) forget(_ http.ResponseWriter, _ *http.Request, in *request) (any, error) {
	store := s.store()
	if store == nil {
		return nil, missing(drafts.ErrNone)
	}
	return map[string]bool{"kept": false}, missing(store.Forget(in.Draft))
}

// missing tells what is not there from what went wrong.
func missing(err error) error {
	if errors.Is(err, drafts.ErrNone) {
		return &wrong{http.StatusNotFound, err.Error()}
	}
	return err
}
