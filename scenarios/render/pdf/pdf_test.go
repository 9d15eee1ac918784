package pdf

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/render/prose"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/units"
	"pgregory.net/rapid"
)

type row struct {
	name string
	mass float64
}

// reportOf is a report of two chapters with every kind of block, and a table of more
// pages than one.
func reportOf() *document.Report {
	b := answer.Basis{Facility: "Plant (a) \\ “b” ³", Version: "test", Invented: true, Horizon: 20}
	d := document.New("tried", b, document.Say("Order %s of `cake`.", document.Show(2*907.18474, document.Mass)))
	d.Add(document.Heading("First heading"))
	d.Labelled("Chips", "%s", strings.Repeat("many words that fill the line and the next ", 4))
	d.Para("! Mind the vessel.")
	d.Add(document.Paragraph{Text: document.Words("see the folder"), Terminal: true})
	rows := []row{{"one", 907.18474}}
	for i := range 100 {
		rows = append(rows, row{fmt.Sprintf("load %d", i), 2000})
	}
	d.Add(document.TableOf(document.Table{In: document.Screen, Title: document.Words("Loads")}, rows,
		document.Left([]string{"Load"}, func(r *row) any { return r.name }),
		document.Num("held, {units}", []string{"at", "most"}, document.Mass, 1, func(r *row) float64 { return r.mass })))
	d.Figures = []document.Figure{{Name: "shape", Title: document.Words("More each year"), Panels: []document.Panel{{
		Quantity: document.Mass, X: document.Axis{Title: "year", From: 0, To: 1}, Series: []document.Series{{Name: document.Words("held"), Values: []float64{1, 2}}},
	}}}}
	r := &document.Report{Basis: b, Cautions: answer.Cautions()}
	r.Add("first", "First chapter", document.ReportPart{Title: "alone", Document: d})
	r.Add("second", "Second chapter", document.ReportPart{Title: "one of two", Document: d}, document.ReportPart{Title: "the other", Document: d})
	return r
}

func written(t *testing.T, sys units.System) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, reportOf(), sys); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Every page has its number and says that the data is invented; the contents give the
// pages on which chapters begin; every block is there, and the headings of a long table
// stand on each of its pages.
func TestPages(t *testing.T) {
	pages := rendertest.Pages(t, written(t, units.US))
	if len(pages) < 8 {
		t.Fatalf("there are %d pages", len(pages))
	}
	for i, page := range pages {
		if want := fmt.Sprintf("page %d of %d", i+1, len(pages)); !strings.Contains(page, want) || !strings.Contains(page, "invented data") {
			t.Errorf("page %d does not say %q:\n%s", i+1, want, page)
		}
	}
	for _, title := range []string{"First chapter", "Second chapter", "Cautions"} {
		entry := regexp.MustCompile(title + `\n(\d+)\n`).FindStringSubmatch(pages[0])
		if entry == nil {
			t.Errorf("the contents do not have %s", title)
			continue
		}
		n := 0
		fmt.Sscan(entry[1], &n)
		if n < 2 || n > len(pages) || !strings.Contains(pages[n-1], title+"\n") {
			t.Errorf("%s is not on page %s", title, entry[1])
		}
	}
	all := strings.Join(pages, "")
	for _, want := range []string{"Plant (a) \\ “b” ³", "First heading", "Chips", "Mind the vessel.", "Loads", "one of two", "the other", "More each year", "held, short tons", "load 99"} {
		if !strings.Contains(all, want) {
			t.Errorf("the report does not say %q", want)
		}
	}
	if strings.Contains(all, "see the folder") || strings.Contains(all, "alone") {
		t.Error("the report has what is not for it")
	}
	for i, page := range pages {
		if strings.Contains(page, "load 50\n") && !strings.Contains(page, "held, short tons") {
			t.Errorf("page %d has a part of a table without headings", i+1)
		}
	}
}

// The same report gives the same bytes; paper is that of the system of units.
func TestReproducible(t *testing.T) {
	us, si := written(t, units.US), written(t, units.SI)
	if !bytes.Equal(us, written(t, units.US)) {
		t.Error("the report differs from itself")
	}
	for _, c := range []struct {
		file []byte
		size string
	}{{us, "/MediaBox [0 0 612.00 792.00]"}, {si, "/MediaBox [0 0 595.28 841.89]"}} {
		if !bytes.Contains(c.file, []byte(c.size)) {
			t.Errorf("pages are not of %s", c.size)
		}
	}
}

// Tables fit the page across, and no cell loses a letter where it is broken, whatever
// they hold: numbers as wide as they come in any answer, words of any length.
func TestTablesFit(t *testing.T) {
	p := newPaper(prose.Report{}, units.US)
	p.pdf.AddPage()
	narrowed := 0
	rapid.Check(t, func(t *rapid.T) {
		columns := rapid.IntRange(1, 14).Draw(t, "columns")
		kinds := rapid.SliceOfN(rapid.Bool(), columns, columns).Draw(t, "words")
		kinds[0] = true
		table := &prose.Table{Heads: [][]prose.Heading{make([]prose.Heading, columns)}}
		for k := range columns {
			table.Heads[0][k] = prose.Heading{Text: rapid.StringMatching(`[a-z]{1,9}( [a-z]{1,9}){0,3}`).Draw(t, "heading"), Span: 1, Words: kinds[k]}
		}
		for range rapid.IntRange(1, 4).Draw(t, "rows") {
			cells := make([]prose.Cell, columns)
			for k := range columns {
				text := rapid.StringMatching(`[0-9]{1,5}`).Draw(t, "number")
				if kinds[k] && (k == 0 || columns < 7) {
					text = rapid.StringMatching(`[a-z_.]{0,60}( [a-z]{3,12}){4,25}`).Draw(t, "text")
				}
				table.Words = table.Words || len(text) > 40
				cells[k] = prose.Cell{Text: text, Words: kinds[k]}
			}
			table.Rows = append(table.Rows, cells)
		}
		g := p.fit(table)
		if got := g.across(); got > p.width+0.01 && table.Words {
			t.Errorf("a table of %d columns is %.1f wide, and the page %.1f", columns, got, p.width)
		}
		for _, cells := range table.Rows {
			lines, _ := p.wrap(g, cells)
			for k, cell := range cells {
				if strings.ReplaceAll(strings.Join(lines[k], ""), " ", "") != strings.ReplaceAll(cell.Text, " ", "") {
					t.Errorf("%q is broken into %q", cell.Text, lines[k])
				}
				if len(lines[k]) > 1 {
					narrowed++
				}
				for _, line := range lines[k] {
					if p.pdf.GetStringWidth(line) > g.widths[k]+0.01 && len([]rune(line)) > 1 {
						t.Errorf("%q does not fit %.1f", line, g.widths[k])
					}
				}
			}
		}
	})
	if narrowed == 0 {
		t.Errorf("%d cells were broken", narrowed)
	}
}

// The canvas has its origin at the lower left, turns and moves as pictures ask for, in
// the order in which they ask, and goes back. A point (1, 0) that is turned by a quarter
// and moved by (10, 0) before is at (10, 1).
func TestCanvasPlaces(t *testing.T) {
	c := newCanvas(nil, 100, 500, 2)
	place := func(x, y vg.Length) (float64, float64) { return c.place(vg.Point{X: x, Y: y}) }
	near := func(gotX, gotY, x, y float64) {
		t.Helper()
		if math.Hypot(gotX-x, gotY-y) > 1e-9 {
			t.Errorf("at (%g, %g), not (%g, %g)", gotX, gotY, x, y)
		}
	}
	x, y := place(3, 4)
	near(x, y, 106, 492)
	c.Push()
	c.Translate(vg.Point{X: 10})
	c.Rotate(math.Pi / 2)
	x, y = place(1, 0)
	near(x, y, 120, 498)
	c.Scale(3, 1)
	x, y = place(1, 0)
	near(x, y, 120, 494)
	c.Pop()
	x, y = place(3, 4)
	near(x, y, 106, 492)
}

// A table with long texts is wrapped in the type for such tables, and not made smaller
// until it fits on single lines.
func TestLongTextsAreWrapped(t *testing.T) {
	p := newPaper(prose.Report{}, units.US)
	p.pdf.AddPage()
	for _, columns := range []int{2, 3, 4, 6} {
		for times := range 30 { // widths of all kinds, which are added up with what rounding leaves
			table := &prose.Table{Words: true, Heads: [][]prose.Heading{nil}}
			var row []prose.Cell
			for k := range columns {
				table.Heads[0] = append(table.Heads[0], prose.Heading{Text: "What", Span: 1, Words: true})
				row = append(row, prose.Cell{Text: strings.Repeat("words that fill ", 2+times+k), Words: true})
			}
			table.Rows = [][]prose.Cell{row}
			if g := p.fit(table); g.size != wordsSize {
				t.Errorf("%d columns, %d times: set in %g points, not %g", columns, times, g.size, wordsSize)
			}
		}
	}
}

// A path of keys is broken after its dots, and nothing else is that has one.
func TestPathsBreakAtDots(t *testing.T) {
	for word, want := range map[string][]string{
		"growth_scenarios[2].growth.linear": {"growth_scenarios[2].", "growth.", "linear"},
		"12.1":                              {"12.1"}, "plant.yaml": {"plant.", "yaml"}, "end.": {"end."}, "5.5,": {"5.5,"},
	} {
		if got := pieces(word); !slices.Equal(got, want) {
			t.Errorf("%s breaks into %q", word, got)
		}
	}
}
