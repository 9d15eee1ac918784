package picture

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image/png"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"loamcast/scenarios/document"
	"loamcast/scenarios/units"
)

// figures are one of each kind, with a name under their titles.
func figures(name string) []document.Figure {
	values, low := []float64{3, 4, math.NaN(), 6}, []float64{2, 3, 1, 5}
	series := func(shape document.Shape, ink document.Ink) document.Series {
		return document.Series{Name: document.Words("of shape"), Shape: shape, X: []float64{0, 1, 2, 3}, At: 0, Values: values, Low: low, Ink: ink, Tint: 0.5, Width: 2}
	}
	panel := document.Panel{
		Quantity: document.Volume, Y: "{unit} a year", X: document.Axis{Title: "year", From: -0.5, To: 3.5, Labels: []string{"2027", "2028", "2029", "2030"}},
		Series: []document.Series{
			series(document.Band, document.Blue), series(document.Bars, document.Green), series(document.Whiskers, document.Black),
			series(document.Line, document.Orange), series(document.Curve, document.Purple), series(document.Steps, document.Vermilion),
			{Name: document.Words("day 2"), Shape: document.Upright, At: 2},
		},
	}
	months := panel
	months.X = document.Axis{Title: "month", To: 4, Months: []document.YearMonth{{Year: 2027, Month: 7}, {Year: 2027, Month: 8}, {Year: 2027, Month: 9}, {Year: 2027, Month: 10}}}
	title, subtitle := document.Words("The message"), document.Words(name)
	return []document.Figure{
		{Name: "panels", Title: title, Subtitle: subtitle, Panels: []document.Panel{panel, months}},
		{Name: "flow", Title: title, Subtitle: subtitle, Flow: &document.Flow{Quantity: document.Mass, Streams: flows()}},
		{Name: "ladder", Title: title, Subtitle: subtitle, Ladder: &document.Ladder{
			Quantity: document.Volume, Unit: "{unit}", Key: []document.KeyEntry{{Name: "a dot", Ink: document.Blue, Dot: true}},
			Rows: []document.Rung{{Name: "rung", Note: document.Words("note"), Bars: []document.Span{{From: 0, To: 100, Ink: document.Green}},
				Dots: []document.Dot{{At: 80, Low: 70, High: 95, Ink: document.Blue}}}},
		}},
		{Name: "phases", Title: title, Subtitle: subtitle, Phases: &document.Phases{
			Years: []string{"2027", "2028"},
			Plans: []document.PhasedPlan{{Name: "plan", Note: document.Words("note"), Steps: []document.Phase{{Name: "step", Ordered: 0.2, InService: 0.6}}}},
		}},
	}
}

// Every picture has 1200 by 700 pixels, is drawn over with more than its
// background, and carries no time stamp.
func TestPNG(t *testing.T) {
	for _, f := range figures("Fennick Valley") {
		data, err := Of(f, units.US).PNG()
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(bytes.NewReader(data))
		if err != nil {
			t.Fatalf("%s: %v", f.Name, err)
		}
		if b := img.Bounds(); b.Dx() != 1200 || b.Dy() != 700 {
			t.Errorf("%s is %v", f.Name, b)
		}
		colours := map[[3]uint32]bool{}
		for x := 0; x < 1200; x++ {
			for y := 0; y < 700; y++ {
				r, g, b, _ := img.At(x, y).RGBA()
				colours[[3]uint32{r, g, b}] = true
			}
		}
		if len(colours) < 20 { // white, greys of the letters, colours
			t.Errorf("%s has %d colours only", f.Name, len(colours))
		}
		if bytes.Contains(data, []byte("tIME")) {
			t.Errorf("%s carries a time", f.Name)
		}
	}
}

// letters returns the text of a drawing, which must be well-formed.
func letters(t *testing.T, f document.Figure, sys units.System) string {
	t.Helper()
	data, err := Of(f, sys).SVG()
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(data, []byte("NaN")) || bytes.Contains(data, []byte("Inf")) {
		t.Errorf("%s is drawn with what is no number", f.Name)
	}
	if bytes.Contains(data, []byte("font-family:Liberation Sans;")) || !bytes.Contains(data, []byte("sans-serif")) {
		t.Errorf("%s has no font to fall back on", f.Name)
	}
	var text strings.Builder
	dec := xml.NewDecoder(bytes.NewReader(data))
	for {
		token, err := dec.Token()
		if errors.Is(err, io.EOF) {
			return text.String()
		}
		if err != nil {
			t.Fatalf("%s: %v", f.Name, err)
		}
		if chars, ok := token.(xml.CharData); ok {
			text.Write(chars)
		}
	}
}

// Every SVG is well-formed, whatever the plant's name, holds its title, and names
// a font that every viewer has.
func TestSVG(t *testing.T) {
	const name = `<Fennick> & "Valley"`
	for _, f := range figures(name) {
		text := letters(t, f, units.SI)
		for _, want := range []string{name, "The message"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s does not say %s", f.Name, want)
			}
		}
	}
}

// The system of units reaches axes and labels: 1,800 t are 1,984 short tons
// (907.18474 kg each, NIST SP 811, from memory).
func TestUnitsAreShown(t *testing.T) {
	for sys, want := range map[units.System][]string{
		units.US: {"yd3 a year", "1,984"}, units.SI: {"m3 a year", "1,800"},
	} {
		all := ""
		for _, f := range figures("") {
			all += letters(t, f, sys)
		}
		for _, w := range want {
			if !strings.Contains(all, w) {
				t.Errorf("in %v nothing says %q", sys, w)
			}
		}
	}
}

// What has no number has no name beside the diagram, and nothing at all is drawn
// without harm.
func TestWithoutNumbers(t *testing.T) {
	f := figures("")[0]
	nan := math.NaN()
	for i := range f.Panels {
		f.Panels[i].Series = slices.Clone(f.Panels[i].Series[3:])
		f.Panels[i].Series[0].Values = []float64{nan, nan}
		f.Panels[i].Series[0].Name = document.Words("unknown")
	}
	if text := letters(t, f, units.US); strings.Contains(text, "unknown") || !strings.Contains(text, "of shape") {
		t.Errorf("what is unknown is named, or what is known is not: %s", text)
	}
	for i := range f.Panels {
		f.Panels[i].Series = nil
	}
	letters(t, f, units.US)
	letters(t, document.Figure{Name: "nothing", Title: document.Words("nothing"), Flow: &document.Flow{Quantity: document.Mass}}, units.US)
}

// BenchmarkPNG measures drawing and encoding one picture of each kind.
func BenchmarkPNG(b *testing.B) {
	for b.Loop() {
		for _, f := range figures("Fennick Valley") {
			if _, err := Of(f, units.US).PNG(); err != nil {
				b.Fatal(err)
			}
		}
	}
}
