package html

import (
	"bytes"
	_ "embed"
	"html/template"
	"io"
	"regexp"
	"strings"

	"loamcast/scenarios/document"
	"loamcast/scenarios/render/picture"
	"loamcast/scenarios/render/prose"
	"loamcast/scenarios/units"
)

//go:embed page.html
var layout string

//go:embed page.css
var style string

// Write writes a report in a system of units. The bytes depend on the report and the
// system alone.
func Write(w io.Writer, r *document.Report, sys units.System) error {
	drawn := func(f prose.Figure) (template.HTML, error) { return draw(f, sys.With(r.Basis.Currency)) }
	t, err := template.New("page").Funcs(template.FuncMap{"coded": coded, "drawn": drawn}).Parse(layout)
	if err != nil {
		return err
	}
	page := struct {
		prose.Report
		Style template.CSS
	}{prose.Of(r, sys), template.CSS(style)}
	var b bytes.Buffer
	if err := t.Execute(&b, page); err != nil {
		return err
	}
	_, err = w.Write(b.Bytes())
	return err
}

// inBackticks is what is written as it is typed, such as a command.
var inBackticks = regexp.MustCompile("`([^`]+)`")

// coded escapes a text and marks what is to be typed.
func coded(text string) template.HTML {
	return template.HTML(inBackticks.ReplaceAllString(template.HTMLEscapeString(text), "<code>$1</code>"))
}

// beforeSVG is what a document has before its element, and the size in points that
// keeps a picture from fitting the page.
var beforeSVG = regexp.MustCompile(`(?s)^.*?<svg width="[^"]*" height="[^"]*"`)

// draw is a picture as an element of the page, which says what it shows to those who
// cannot see it.
func draw(f prose.Figure, sys units.System) (template.HTML, error) {
	svg, err := picture.Of(f.Figure, sys).SVG()
	if err != nil {
		return "", err
	}
	element := beforeSVG.ReplaceAllLiteralString(string(svg), `<svg role="img" aria-label="`+template.HTMLEscapeString(f.Shows)+`"`)
	return template.HTML(strings.TrimSpace(element)), nil
}
