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

// WriteAnswer writes one answer as elements that a page of another kind can hold: its
// headline, blocks and pictures, without a style of their own. Headings are of the third
// level.
func WriteAnswer(w io.Writer, d *document.Document, sys units.System) error {
	sys = sys.With(d.Basis.Currency)
	drawn := func(f prose.Figure) (template.HTML, error) {
		svg, err := draw(f, sys)
		return template.HTML(attributed(string(svg))), err
	}
	t, err := template.New("page").Funcs(template.FuncMap{"coded": coded, "drawn": drawn}).Parse(layout)
	if err != nil {
		return err
	}
	return t.ExecuteTemplate(w, "answer", prose.OfAnswer(d, sys))
}

// styled is the style of an element of a picture.
var styled = regexp.MustCompile(`style="([^"]*)"`)

// attributed writes the styles of a picture as attributes, which a page may hold that
// allows no styles but those of its own sheet.
func attributed(svg string) string {
	return styled.ReplaceAllStringFunc(svg, func(style string) string {
		var out []string
		for _, one := range strings.Split(styled.FindStringSubmatch(style)[1], ";") {
			if name, value, ok := strings.Cut(one, ":"); ok {
				out = append(out, strings.TrimSpace(name)+`="`+strings.TrimSpace(value)+`"`)
			}
		}
		return strings.Join(out, " ")
	})
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
