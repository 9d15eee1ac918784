package rendertest

import (
	"bytes"
	"image/color"
	"image/png"
	"math"
	"testing"

	"loamcast/scenarios/document"
	"loamcast/scenarios/render/picture"
	"loamcast/scenarios/units"
)

// leastStep is how far apart in lightness, of 255, two fills of the same hatch are at
// least.
const leastStep = 20

// InGrey checks that fills can be told apart without colour: by their hatch, or else by
// their lightness.
func InGrey(t *testing.T, kinds []document.Kind) {
	t.Helper()
	light := make([]float64, len(kinds))
	for i, k := range kinds {
		light[i] = lightness(t, k)
		for j := range i {
			if o := kinds[j]; o.Hatch == k.Hatch && math.Abs(light[i]-light[j]) < leastStep {
				t.Errorf("%s and %s look alike in grey: %.0f and %.0f of 255", o.Name, k.Name, light[j], light[i])
			}
		}
	}
}

// lightness draws a fill, without its hatch, and looks at it.
func lightness(t *testing.T, k document.Kind) float64 {
	t.Helper()
	k.Hatch = document.Plain
	data, err := picture.Of(document.Figure{Lanes: &document.Lanes{
		Months: []document.YearMonth{{Year: 2027, Month: 1}}, Kinds: []document.Kind{k},
		Lanes: []document.Lane{{Times: []document.Time{{To: 31}}}},
	}}, units.SI).PNG()
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	// The bar lies in the upper half, in the middle: the darkest pixel there is of it.
	least := 255.0
	for y := 20; y < 120; y++ {
		least = min(least, float64(color.GrayModel.Convert(img.At(600, y)).(color.Gray).Y))
	}
	return least
}
