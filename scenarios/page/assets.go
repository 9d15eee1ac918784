package page

import (
	"bytes"
	"embed"
	"html/template"
	"net/http"
	"path"

	"loamcast/scenarios/question"
)

//go:embed assets
var files embed.FS

// still are the parts of the page that are the same for all files, by the end of their
// names.
var still = map[string]string{
	".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8",
}

const first, drawn = "page.html", "parts.html"

// assets serves the still parts. They hold nothing of the file.
func (s *Server) assets(mux *http.ServeMux) {
	list, err := files.ReadDir("assets")
	if err != nil {
		panic("page: " + err.Error()) // embedded above
	}
	for _, entry := range list {
		name := entry.Name()
		data, err := files.ReadFile("assets/" + name)
		if err != nil {
			panic("page: " + err.Error())
		}
		at := "/" + name
		switch name {
		case first:
			at = "/{$}"
		case drawn:
			continue
		}
		mux.HandleFunc("GET "+at, func(w http.ResponseWriter, _ *http.Request) {
			w.Header().Set("Content-Type", still[path.Ext(name)])
			w.Write(data) // an error is that of who has gone
		})
	}
}

// parts of the page that are drawn anew, with everything from a file escaped.
var parts = template.Must(template.New("").Funcs(template.FuncMap{
	"isSwitch": func(o question.Option) bool { return o.Kind == question.Switch },
}).ParseFS(files, "assets/"+drawn))

// write draws a part.
func write(name string, data any) (string, error) {
	var b bytes.Buffer
	err := parts.ExecuteTemplate(&b, name, data)
	return b.String(), err
}
