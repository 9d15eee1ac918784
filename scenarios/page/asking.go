package page

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"net/http"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/page/dials"
	"loamcast/scenarios/page/lab"
	"loamcast/scenarios/render/html"
)

// shown is an answer as the page shows it.
type shown struct {
	HTML string `json:"html"`
	// Hash is that of the file as it was read, dials turned, so that the command line can
	// repeat the answer.
	Hash     string          `json:"hash"`
	Warnings []dials.Problem `json:"warnings"`
}

// turned reads a text with dials turned. Where it cannot be used the file is nil.
func (s *Server) turned(text string, settings []dials.Setting) (*facilityfile.File, []dials.Problem) {
	data, problems := dials.Apply([]byte(text), settings)
	if len(problems) > 0 {
		return nil, problems
	}
	return dials.Read(s.Label, data)
}

// ask answers a question by events: problems, or a first look, progress and the answer.
func (s *Server) ask(w http.ResponseWriter, r *http.Request, in *request) (any, error) {
	if _, ok := lab.Known(in.Question); !ok {
		return nil, &wrong{http.StatusNotFound, fmt.Sprintf("there is no question %q", in.Question)}
	}
	out := newStream(w)
	f, problems := s.turned(in.Text, in.Dials)
	if f == nil {
		return nil, out.send("problems", problems)
	}
	show := func(event string) func(*document.Document) error {
		return func(d *document.Document) error {
			text, err := s.answer(d, f)
			if err != nil {
				return err
			}
			return out.send(event, shown{text, f.Hash, problems})
		}
	}
	told, err := s.lab.Ask(r.Context(), lab.Asked{Tab: in.Tab, File: f, Name: in.Question, Options: in.Options}, lab.Tell{Look: show("look"), Progress: out.progress})
	if err != nil {
		return nil, out.fail(err)
	}
	return nil, show("answer")(told)
}

// answer writes a document for the page.
func (s *Server) answer(d *document.Document, f *facilityfile.File) (string, error) {
	var b bytes.Buffer
	err := html.WriteAnswer(&b, d, s.system(f))
	return b.String(), err
}

// progress tells how far an answer is.
func (s *stream) progress(part string, done, total int) {
	s.send("progress", map[string]any{"part": part, "done": done, "total": total}) // who has gone has cancelled what is told of
}

// fail says why there is no answer. That the tab has asked something else is no failure.
func (s *stream) fail(err error) error {
	bad, option := (*facilityfile.Error)(nil), (*answer.OptionError)(nil)
	switch {
	case errors.Is(err, context.Canceled):
		return nil
	case errors.As(err, &option):
		return s.send("option", map[string]string{"option": option.Option, "words": option.Error()})
	case errors.As(err, &bad):
		return s.send("problems", []dials.Problem{{Words: bad.Error()}})
	}
	return s.send("failed", map[string]string{"words": err.Error()})
}

// rank puts the dials first that move when vessels are due most.
func (s *Server) rank(w http.ResponseWriter, r *http.Request, in *request) (any, error) {
	out := newStream(w)
	f, problems := s.turned(in.Text, in.Dials)
	if f == nil {
		return nil, out.send("problems", problems)
	}
	keys, err := s.lab.Rank(r.Context(), in.Tab, f, lab.Tell{Progress: out.progress})
	if err != nil {
		return nil, out.fail(err)
	}
	paths, err := dials.Ranked([]byte(in.Text), keys, in.Paths)
	if err != nil {
		return nil, out.fail(err)
	}
	return nil, out.send("ranked", map[string]any{"paths": paths, "moving": len(keys)})
}

// mostCompared are the cases that a person can look at side by side.
const mostCompared = 4

// compare lays two to four cases side by side, each but the first beside the first.
func (s *Server) compare(w http.ResponseWriter, r *http.Request, in *request) (any, error) {
	if n := len(in.Cases); n < 2 || n > mostCompared {
		return nil, &wrong{http.StatusBadRequest, "choose two to four cases"}
	}
	out := newStream(w)
	var files []*facilityfile.File
	var names []string
	for _, c := range in.Cases {
		f, problems := s.turned(in.Text, c.Dials)
		if f == nil {
			for i := range problems {
				problems[i].Words = c.Name + ": " + problems[i].Words
			}
			return nil, out.send("problems", problems)
		}
		files, names = append(files, f), append(names, c.Name)
	}
	told, err := s.lab.Compare(r.Context(), in.Tab, files, names, lab.Tell{Progress: out.progress})
	if err != nil {
		return nil, out.fail(err)
	}
	parts := []string{}
	for _, d := range told {
		text, err := s.answer(d, files[0])
		if err != nil {
			return nil, err
		}
		parts = append(parts, text)
	}
	return nil, out.send("compared", parts)
}
