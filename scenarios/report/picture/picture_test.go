package picture

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image/png"
	"io"
	"math"
	"strings"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/report/internal/sample"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/units"
)

func mustAll(t *testing.T, a *simulate.Answer, sys units.System) []Picture {
	t.Helper()
	list, err := All(a, sys)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// Every picture has 1200 by 700 pixels, is drawn over with more than its
// background, and carries no time stamp.
func TestPNG(t *testing.T) {
	for _, p := range mustAll(t, sample.Answer(20), units.US) {
		data, err := p.PNG()
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(bytes.NewReader(data))
		if err != nil {
			t.Fatalf("%s: %v", p.Name, err)
		}
		if b := img.Bounds(); b.Dx() != 1200 || b.Dy() != 700 {
			t.Errorf("%s is %v", p.Name, b)
		}
		colours := map[[3]uint32]bool{}
		for x := 0; x < 1200; x += 3 {
			for y := 0; y < 700; y += 3 {
				r, g, b, _ := img.At(x, y).RGBA()
				colours[[3]uint32{r, g, b}] = true
			}
		}
		if len(colours) < 20 { // white, greys of the letters, colours
			t.Errorf("%s has %d colours only", p.Name, len(colours))
		}
		if bytes.Contains(data, []byte("tIME")) {
			t.Errorf("%s carries a time", p.Name)
		}
	}
}

// Every SVG is well-formed, whatever the plant's name, and names a font that
// every viewer has.
func TestSVG(t *testing.T) {
	a := sample.Answer(20)
	a.Facility = `<Fennick> & "Valley"` + "\x07"
	for _, p := range mustAll(t, a, units.SI) {
		data, err := p.SVG()
		if err != nil {
			t.Fatal(err)
		}
		var text strings.Builder
		dec := xml.NewDecoder(bytes.NewReader(data))
		for {
			token, err := dec.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", p.Name, err)
			}
			if chars, ok := token.(xml.CharData); ok {
				text.Write(chars)
			}
		}
		if !strings.Contains(text.String(), `<Fennick> & "Valley"`) {
			t.Errorf("%s does not name the facility", p.Name)
		}
		if bytes.Contains(data, []byte("font-family:Liberation Sans;")) || !bytes.Contains(data, []byte("sans-serif")) {
			t.Errorf("%s has no font to fall back on", p.Name)
		}
	}
}

// The unit system reaches the axes and the labels.
func TestUnitsAreShown(t *testing.T) {
	for _, c := range []struct {
		sys  units.System
		want map[string]string
	}{
		{units.US, map[string]string{"chips": "yd³ a year", "diverted": "short tons dry a year", "mass-flow": "short tons a year"}},
		{units.SI, map[string]string{"chips": "m³ a year", "diverted": "t dry a year", "mass-flow": "· t a year"}},
	} {
		for _, p := range mustAll(t, sample.Answer(5), c.sys) {
			data, err := p.SVG()
			if err != nil {
				t.Fatal(err)
			}
			if want := c.want[p.Name]; !bytes.Contains(data, []byte(want)) {
				t.Errorf("%s in %v does not say %q", p.Name, c.sys, want)
			}
		}
	}
}

// The first picture's title is the headline.
func TestTitleIsHeadline(t *testing.T) {
	a := sample.Answer(20)
	if got := mustAll(t, a, units.US)[0].Title; got != a.Headline().String() {
		t.Errorf("title %q", got)
	}
}

// Drawing survives short runs, empty plants and numbers that are none.
func TestOddAnswers(t *testing.T) {
	none := answer.Spread{Mean: math.NaN(), P10: math.NaN(), P50: math.NaN(), P90: math.NaN()}
	empty := sample.Answer(2)
	empty.Flows = nil
	for i := range empty.Years {
		empty.Years[i] = simulate.Year{Label: empty.Years[i].Label, DivertedDry: none, ChipsBought: none}
	}
	for i := range empty.Months {
		empty.Months[i] = simulate.Month{Year: empty.Months[i].Year, Month: empty.Months[i].Month, VesselsMean: none}
	}
	for name, a := range map[string]*simulate.Answer{
		"one year":   sample.Answer(1),
		"60 years":   sample.Answer(60),
		"empty plan": empty,
	} {
		for _, p := range mustAll(t, a, units.US) {
			if _, err := p.PNG(); err != nil {
				t.Errorf("%s, %s: %v", name, p.Name, err)
			}
			svg, err := p.SVG()
			if err != nil || bytes.Contains(svg, []byte("NaN")) || bytes.Contains(svg, []byte("Inf")) {
				t.Errorf("%s, %s: SVG holds no number, or %v", name, p.Name, err)
			}
		}
	}
	if _, err := All(sample.Answer(0), units.US); err == nil {
		t.Error("an answer without years was drawn")
	}
}

// A series that shows nothing has no name beside the chart.
func TestUnknownNeedHasNoName(t *testing.T) {
	a := sample.Answer(3)
	nan := math.NaN()
	for i := range a.Years {
		a.Years[i].VesselsNeeded = answer.Spread{Mean: nan, P10: nan, P50: nan, P90: nan}
	}
	for _, p := range mustAll(t, a, units.US) {
		svg, err := p.SVG()
		if err != nil {
			t.Fatal(err)
		}
		if p.Name == "vessels-needed" && (bytes.Contains(svg, []byte("needed, median")) || !bytes.Contains(svg, []byte("installed"))) {
			t.Error("the need is named, or what is installed is not")
		}
	}
}

// BenchmarkPNG measures drawing and encoding all pictures.
func BenchmarkPNG(b *testing.B) {
	list, err := All(sample.Answer(20), units.US)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		for _, p := range list {
			if _, err := p.PNG(); err != nil {
				b.Fatal(err)
			}
		}
	}
}
