package page

import (
	"bytes"
	"embed"
	"html/template"
	"net/http"

	"loamcast/scenarios/question"
)

//go:embed assets
var files embed.FS

// still are the parts of the page that are the same for all files.
var still = []struct{ at, file, mime string }{
	{"/{$}", "assets/page.html", "text/html; charset=utf-8"},
	{"/page.css", "assets/page.css", "text/css; charset=utf-8"},
	{"/page.js", "assets/page.js", "text/javascript; charset=utf-8"},
}

// assets serves the still parts. They hold nothing of the file.
func (s *Server) assets(mux *http.ServeMux) {
	for _, a := range still {
		data, err := files.ReadFile(a.file)
		if err != nil {
			panic("page: " + err.Error()) // embedded above
		}
		mux.HandleFunc("GET "+a.at, func(w http.ResponseWriter, _ *http.Request) {
			w.Header().Set("Content-Type", a.mime)
			w.Write(data) // an error is that of who has gone
		})
	}
}

// parts of the page that are drawn anew, with everything from a file escaped.
var parts = template.Must(template.New("").Funcs(template.FuncMap{
	"isSwitch": func(o question.Option) bool { return o.Kind == question.Switch },
}).ParseFS(files, "assets/parts.html"))

// write draws a part.
func write(name string, data any) (string, error) {
	var b bytes.Buffer
	err := parts.ExecuteTemplate(&b, name, data)
	return b.String(), err
}
