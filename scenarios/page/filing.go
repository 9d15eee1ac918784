package page

import (
	"bytes"
	"fmt"
	"net/http"
	"strings"

	"loamcast/scenarios/document"
	"loamcast/scenarios/page/dials"
	"loamcast/scenarios/page/lab"
	"loamcast/scenarios/questions"
	"loamcast/scenarios/render/html"
	"loamcast/scenarios/render/pdf"
	"loamcast/scenarios/render/workbook"
	"loamcast/scenarios/report"
	"loamcast/scenarios/units"
)

// opened is what the page begins with.
type opened struct {
	Label     string   `json:"label"`
	Invented  string   `json:"invented"` // what to say of it, if it is
	Text      string   `json:"text"`
	Hash      string   `json:"hash"`
	Saves     bool     `json:"saves"` // the file itself can be saved
	Questions string   `json:"questions"`
	Parts     []string `json:"parts"`  // of a report
	Offers    string   `json:"offers"` // of drafts
}

// open tells of the file as it is on the disk now.
func (s *Server) open(_ http.ResponseWriter, _ *http.Request, in *request) (any, error) {
	data, err := s.disk.read(s.Data)
	if err != nil {
		return nil, err
	}
	out := opened{Label: s.Label, Text: string(data), Hash: hashOf(data), Saves: s.Path != "", Parts: report.Questions()}
	if s.Invented {
		out.Invented = document.Invented
	}
	if out.Offers, err = s.offers(in.Tab, out.Text, out.Hash); err != nil {
		return nil, err
	}
	out.Questions, err = write("questions", questions.All)
	return out, err
}

// dials draws the dials of a text: those asked for, or those that it begins with.
func (s *Server) dials(_ http.ResponseWriter, _ *http.Request, in *request) (any, error) {
	paths := in.Paths
	if len(paths) == 0 {
		var err error
		if paths, err = dials.Start([]byte(in.Text)); err != nil {
			return nil, unreadable(err)
		}
	}
	fields, err := dials.Of([]byte(in.Text), paths)
	if err != nil {
		return nil, unreadable(err)
	}
	dials.Turned([]byte(in.Text), fields, in.Dials)
	text, err := write("dials", fields)
	return map[string]any{"html": text, "paths": paths}, err
}

// unreadable is a text that is not even well-formed.
func unreadable(err error) error { return &wrong{http.StatusUnprocessableEntity, err.Error()} }

// search finds keys.
func (s *Server) search(_ http.ResponseWriter, _ *http.Request, in *request) (any, error) {
	found, err := dials.Search([]byte(in.Text), in.Words)
	if err != nil {
		return nil, unreadable(err)
	}
	text, err := write("found", found)
	return map[string]any{"html": text}, err
}

// form draws all keys of a text, with what is wrong with them.
func (s *Server) form(_ http.ResponseWriter, _ *http.Request, in *request) (any, error) {
	f, problems := dials.Read(s.Label, []byte(in.Text))
	out := map[string]any{"problems": problems, "sound": f != nil, "html": ""}
	sections, err := dials.Form([]byte(in.Text), problems)
	if err != nil {
		return out, nil // the problems say what is wrong
	}
	out["html"], err = write("form", sections)
	return out, err
}

// edit returns a text in which keys have other values.
func (s *Server) edit(_ http.ResponseWriter, _ *http.Request, in *request) (any, error) {
	data, problems := dials.Apply([]byte(in.Text), in.Dials)
	return map[string]any{"text": string(data), "problems": problems}, nil
}

// save writes the file, or another beside it. What the reader refuses is not written.
func (s *Server) save(_ http.ResponseWriter, r *http.Request, in *request) (any, error) {
	data, problems := dials.Apply([]byte(in.Text), in.Dials)
	if len(problems) == 0 {
		if f, wrong := dials.Read(s.Label, data); f == nil {
			problems = wrong
		}
	}
	if len(problems) > 0 {
		return map[string]any{"problems": problems}, nil
	}
	if in.Name != "" {
		return map[string]any{"saved": in.Name}, s.disk.saveAs(r.Context(), in.Name, data)
	}
	now, err := s.disk.save(r.Context(), data, in.Hash)
	if err != nil {
		return nil, err
	}
	if now != nil {
		return now, nil
	}
	return map[string]any{"saved": s.Label, "hash": hashOf(data), "text": string(data)}, nil
}

// kinds of reports, by the end of the name of their files.
var kinds = map[string]struct {
	mime  string
	write func(*bytes.Buffer, *document.Report, units.System) error
}{
	"html": {"text/html; charset=utf-8", func(b *bytes.Buffer, r *document.Report, sys units.System) error { return html.Write(b, r, sys) }},
	"pdf":  {"application/pdf", func(b *bytes.Buffer, r *document.Report, sys units.System) error { return pdf.Write(b, r, sys) }},
	"xlsx": {"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", func(b *bytes.Buffer, r *document.Report, sys units.System) error { return workbook.Write(b, r, sys) }},
}

// report makes a report, to be kept by the browser.
func (s *Server) report(w http.ResponseWriter, r *http.Request, in *request) (any, error) {
	kind, ok := kinds[in.Kind]
	if !ok {
		return nil, &wrong{http.StatusBadRequest, fmt.Sprintf("there is no report of the kind %q", in.Kind)}
	}
	f, problems := s.turned(in.Text, in.Dials)
	if f == nil {
		return nil, &wrong{http.StatusUnprocessableEntity, said(problems)}
	}
	made, err := s.lab.Report(r.Context(), in.Tab, f, in.Only, lab.Tell{})
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if err := kind.write(&b, made, s.system(f)); err != nil {
		return nil, err
	}
	w.Header().Set("Content-Type", kind.mime)
	w.Header().Set("Content-Disposition", `attachment; filename="report.`+in.Kind+`"`)
	w.Write(b.Bytes()) // an error is that of who has gone
	return nil, nil
}

// said are problems in lines.
func said(problems []dials.Problem) string {
	lines := make([]string, len(problems))
	for i, p := range problems {
		lines[i] = p.Words
	}
	return strings.Join(lines, "\n")
}
