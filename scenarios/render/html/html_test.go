package html

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"strings"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/units"
)

// hostile is a name as a file may hold it.
const hostile = "</title><script>alert(1)</script> & \"Co\" \x01"

type row struct {
	name string
	mass float64
}

// reportOf is a small report with every kind of block.
func reportOf() *document.Report {
	b := answer.Basis{Facility: hostile, Version: "test", Invented: true, Horizon: 20}
	d := document.New("tried", b, document.Say("Order %s of `cake`.", document.Show(2*907.18474, document.Mass)))
	d.Add(document.Heading("First"))
	d.Labelled("Chips", "%s", hostile)
	d.Para("! Mind the vessel.")
	d.Add(document.Paragraph{Text: document.Words("see the folder"), Terminal: true})
	d.Add(document.TableOf(document.Table{In: document.Screen, Title: document.Words("Loads " + hostile)}, []row{{"one", 907.18474}, {hostile, 2000}},
		document.Left([]string{"Load"}, func(r *row) any { return r.name }),
		document.Num("held, {units}", []string{"at", "most"}, document.Mass, 1, func(r *row) float64 { return r.mass }),
		document.Num("held, {units}", []string{"", "least"}, document.Mass, 1, func(r *row) float64 { return r.mass / 2 }),
		document.Val("in_files_alone", document.Mass, func(r *row) float64 { return r.mass })))
	d.Add(document.TableOf(document.Table{In: document.Files, File: "files"}, []row{{"hidden", 1}},
		document.Key("hidden", func(r *row) any { return r.name })))
	d.Figures = []document.Figure{{Name: "shape", Title: document.Words("More each year " + hostile), Panels: []document.Panel{{
		Quantity: document.Mass, X: document.Axis{Title: "year", From: 0, To: 1}, Series: []document.Series{{Name: document.Words(hostile), Values: []float64{1, 2}}},
	}}}}
	r := &document.Report{Basis: b, Cautions: answer.Cautions()}
	r.Add("first", "First chapter", document.ReportPart{Title: "alone", Document: d})
	r.Add("second", "Second chapter", document.ReportPart{Title: "one of two", Document: d}, document.ReportPart{Title: "the other", Document: d})
	return r
}

func written(t *testing.T, sys units.System) string {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, reportOf(), sys); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// The page has every block in order, in the system asked for: a table with its groups,
// headings and what each row is of, a picture that says what it shows, a caution that is
// marked. What is for files or for a terminal is not in it.
func TestBlocks(t *testing.T) {
	for _, c := range []struct {
		sys  units.System
		want []string
	}{
		{units.US, []string{"Order 2\u00a0short\u00a0tons of <code>cake</code>.", "<h4>First</h4>", "<b>Chips</b>", `<p class="caution">Mind the vessel.</p>`,
			`<th scope="colgroup" colspan="2">held, short tons</th>`, `<th scope="col">at most</th><th scope="col">least</th>`,
			`<th scope="row" class="text">one</th><td>1.0</td><td>0.5</td>`, `<svg role="img" aria-label="More each year `}},
		{units.SI, []string{"Order 1.81\u00a0t of", "held, t", `one</th><td>0.9</td>`}},
	} {
		page := written(t, c.sys)
		at := 0
		for _, want := range c.want {
			next := strings.Index(page[at:], want)
			if next < 0 {
				t.Errorf("%v: not in its place: %s", c.sys, want)
				continue
			}
			at += next
		}
		for _, foreign := range []string{"hidden", "in_files_alone", "see the folder", "alone</h3>"} {
			if strings.Contains(page, foreign) {
				t.Errorf("%v: the page has %q", c.sys, foreign)
			}
		}
		if strings.Count(page, "<h3>one of two</h3>") != 1 {
			t.Error("a part of several has no title")
		}
	}
}

// One answer alone has the blocks and pictures that it has in a report, without a style of
// its own, in a sheet or in an element.
func TestAnswerAlone(t *testing.T) {
	var b bytes.Buffer
	if err := WriteAnswer(&b, reportOf().Chapters[0].Parts[0].Document, units.US); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"Order 2\u00a0short\u00a0tons of <code>cake</code>.", "<h4>First</h4>", `<th scope="row" class="text">one</th>`, `<svg role="img"`, `fill="`, `font-size="`} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("there is no %s", want)
		}
	}
	for _, foreign := range []string{" style=", "\nstyle=", "\tstyle=", "<style", "<script", "<section", "hidden"} {
		if strings.Contains(b.String(), foreign) {
			t.Errorf("the answer has %q", foreign)
		}
	}
}

// Elements nest and end, names of a file stay words, and nothing is fetched from
// anywhere.
func TestWellFormedAndAlone(t *testing.T) {
	page := written(t, units.US)
	closed := regexp.MustCompile(`<meta [^>]*`).ReplaceAllString(page, "$0/") // the one element here that has no end
	decoder := xml.NewDecoder(strings.NewReader(closed))
	decoder.Entity = xml.HTMLEntity
	ids := map[string]bool{}
	var links []string
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		for _, a := range start.Attr {
			switch a.Name.Local {
			case "id":
				if ids[a.Value] {
					t.Errorf("two elements are called %q", a.Value)
				}
				ids[a.Value] = true
			case "href":
				links = append(links, a.Value)
			case "src", "srcset", "action", "onload", "onclick":
				t.Errorf("%s has %s", start.Name.Local, a.Name.Local)
			}
		}
		if start.Name.Local == "script" || start.Name.Local == "link" {
			t.Errorf("the page has an element %s", start.Name.Local)
		}
	}
	if len(links) != 3 {
		t.Errorf("the contents have %d links, not those of two chapters and the cautions", len(links))
	}
	for _, link := range links {
		if !strings.HasPrefix(link, "#") || !ids[link[1:]] {
			t.Errorf("a link leads to %q", link)
		}
	}
	foreign := regexp.MustCompile(`(?i)https?:|//[a-z]|@import|url\(`)
	for _, found := range foreign.FindAllString(regexp.MustCompile(`xmlns(:xlink)?="[^"]*"`).ReplaceAllString(page, ""), -1) {
		t.Errorf("the page refers to %q", found)
	}
}

// Shows that the style keeps text readable: every colour of text on every ground of the
// page has a contrast of 4.5 or more (WCAG 2.1, 1.4.3, from memory).
func TestContrast(t *testing.T) {
	grounds := []string{"#ffffff", "#faf8f5"}
	colours := regexp.MustCompile(`(?:color|--ink|--faded): (#[0-9a-f]{3,6})`).FindAllStringSubmatch(style, -1)
	if len(colours) < 4 {
		t.Fatalf("the style has the colours %v", colours)
	}
	for _, c := range colours {
		for _, ground := range grounds {
			if ratio := rendertest.Contrast(c[1], ground); ratio < 4.5 {
				t.Errorf("%s on %s: %.1f", c[1], ground, ratio)
			}
		}
	}
	if got := rendertest.Contrast("#767676", "#fff"); got < 4.53 || got > 4.55 {
		t.Errorf("the contrast of #767676 on white is %.2f, known as 4.54 (from memory)", got)
	}
}

// The same report gives the same bytes, and its layout is as a person has reviewed it.
func TestReproducible(t *testing.T) {
	page := written(t, units.US)
	if page != written(t, units.US) {
		t.Error("the page differs from itself")
	}
	plain := regexp.MustCompile(`(?s)<svg.*?</svg>`).ReplaceAllString(page, "<svg/>")
	plain = regexp.MustCompile(`(?s)<style>.*?</style>`).ReplaceAllString(plain, "<style/>")
	rendertest.Golden(t, "report.html", []byte(plain))
}
