package html

import (
	"bytes"
	_ "embed"
	"html/template"
	"io"
	"regexp"
	"strings"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/plaintext"
	"loamcast/scenarios/render/cells"
	"loamcast/scenarios/render/picture"
	"loamcast/scenarios/units"
)

//go:embed page.html
var pageTemplate string

//go:embed page.css
var style string

var pageLayout = template.Must(template.New("page").Funcs(template.FuncMap{"coded": coded}).Parse(pageTemplate))

// page is a report in words.
type page struct {
	Title, Subtitle string
	Invented        string // empty if the data is not
	Style           template.CSS
	Chapters        []chapter
	Cautions        []answer.Caution
	Version         string
}

type chapter struct {
	Name, Title string
	Parts       []part
}

type part struct {
	Title, Headline string
	Blocks          []block
	Figures         []figure
}

// block is one of a heading, a paragraph or a table.
type block struct {
	Heading   string
	Label     string
	Paragraph string
	Caution   bool // begins with an exclamation mark
	Table     *table
}

type figure struct {
	Name string
	SVG  template.HTML
}

// Write writes a report in a system of units. The bytes depend on the report and the
// system alone.
func Write(w io.Writer, r *document.Report, sys units.System) error {
	sys = sys.With(r.Basis.Currency)
	p := page{
		Title: plaintext.XML(r.Basis.Facility), Version: r.Basis.Version, Style: template.CSS(style), Cautions: r.Cautions,
		Subtitle: document.Say("Planning report for %d years from %v", r.Basis.Horizon, r.Basis.Start).In(sys),
	}
	if r.Basis.Invented {
		p.Invented = document.Invented
	}
	for _, c := range r.Chapters {
		out := chapter{Name: c.Name, Title: c.Title}
		for _, from := range c.Parts {
			made, err := partOf(from, sys)
			if err != nil {
				return err
			}
			if len(c.Parts) == 1 {
				made.Title = ""
			}
			out.Parts = append(out.Parts, made)
		}
		p.Chapters = append(p.Chapters, out)
	}
	var b bytes.Buffer
	if err := pageLayout.Execute(&b, p); err != nil {
		return err
	}
	_, err := w.Write(b.Bytes())
	return err
}

// partOf writes one answer.
func partOf(from document.ReportPart, sys units.System) (part, error) {
	p := part{Title: from.Title, Headline: said(from.Headline, sys)}
	for _, b := range from.Blocks {
		switch b := b.(type) {
		case document.Heading:
			p.Blocks = append(p.Blocks, block{Heading: string(b)})
		case document.Paragraph:
			if b.Terminal {
				continue
			}
			text := said(b.Text, sys)
			caution := strings.HasPrefix(text, "! ")
			p.Blocks = append(p.Blocks, block{Label: b.Label, Paragraph: strings.TrimPrefix(text, "! "), Caution: caution})
		case document.Table:
			if t := tableOf(b, sys); t != nil {
				p.Blocks = append(p.Blocks, block{Table: t})
			}
		}
	}
	for _, f := range from.Figures {
		svg, err := drawn(f, sys)
		if err != nil {
			return part{}, err
		}
		p.Figures = append(p.Figures, figure{f.Name, svg})
	}
	return p, nil
}

// inBackticks is what is written as it is typed, such as a command.
var inBackticks = regexp.MustCompile("`([^`]+)`")

// coded escapes a text and marks what is to be typed.
func coded(text string) template.HTML {
	return template.HTML(inBackticks.ReplaceAllString(template.HTMLEscapeString(text), "<code>$1</code>"))
}

// said writes a text. What XML cannot hold is dropped: a name in a file may hold it.
func said(t document.Text, sys units.System) string { return plaintext.XML(t.In(sys)) }

// beforeSVG is what a document has before its element, and the size in points that
// keeps a picture from fitting the page.
var beforeSVG = regexp.MustCompile(`(?s)^.*?<svg width="[^"]*" height="[^"]*"`)

// drawn is a picture as an element of the page. Its title says what it shows, also to
// those who cannot see it.
func drawn(f document.Figure, sys units.System) (template.HTML, error) {
	svg, err := picture.Of(f, sys).SVG()
	if err != nil {
		return "", err
	}
	words := said(f.Title, sys)
	if about := said(f.Subtitle, sys); about != "" {
		words += ". " + about
	}
	element := beforeSVG.ReplaceAllLiteralString(string(svg), `<svg role="img" aria-label="`+template.HTMLEscapeString(words)+`"`)
	return template.HTML(strings.TrimSpace(element)), nil
}

// table is one for a person: rows of headings with how many columns each spans.
type table struct {
	Title string
	Heads [][]heading
	Rows  [][]cell
	Words bool // holds long texts, which are wrapped
}

type heading struct {
	Text  string
	Span  int
	Words bool
	Group bool
}

type cell struct {
	Text  string
	Words bool
	Head  bool // says what the row is of
}

// wrapped is the length in characters from which the words of a cell are wrapped.
const wrapped = 40

// tableOf lays out a table that is for the eyes, or returns nil.
func tableOf(t document.Table, sys units.System) *table {
	if !t.In.On(document.Screen) || len(t.Rows) == 0 {
		return nil
	}
	columns := cells.Of(t, sys)
	if len(columns) == 0 {
		return nil
	}
	out := &table{Title: said(t.Title, sys), Heads: headings(columns)}
	for i := range t.Rows {
		row := make([]cell, len(columns))
		for k, c := range columns {
			row[k] = cell{Text: plaintext.XML(strings.TrimSpace(c.Cells[i])), Words: c.Words, Head: k == 0}
			out.Words = out.Words || len(row[k].Text) > wrapped
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

// headings are the groups, where there are any, and below them the lines of each
// heading as one.
func headings(columns []cells.Column) [][]heading {
	var groups, heads []heading
	grouped := false
	for i, c := range columns {
		if i > 0 && c.Group != "" && c.Group == columns[i-1].Group {
			groups[len(groups)-1].Span++
		} else {
			groups = append(groups, heading{Text: plaintext.XML(c.Group), Span: 1, Group: true})
		}
		grouped = grouped || c.Group != ""
		text := strings.TrimSpace(strings.Join(c.Headings, " "))
		heads = append(heads, heading{Text: plaintext.XML(text), Span: 1, Words: c.Words})
	}
	if !grouped {
		return [][]heading{heads}
	}
	return [][]heading{groups, heads}
}
