package picture

import (
	"image/color"
	"strings"

	xfont "golang.org/x/image/font"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"loamcast/scenarios/units"
)

// Colours of Okabe and Ito, Color Universal Design (2008).
var (
	black     = color.NRGBA{0, 0, 0, 255}
	orange    = color.NRGBA{230, 159, 0, 255}
	skyBlue   = color.NRGBA{86, 180, 233, 255}
	green     = color.NRGBA{0, 158, 115, 255}
	blue      = color.NRGBA{0, 114, 178, 255}
	vermilion = color.NRGBA{213, 94, 0, 255}
	yellow    = color.NRGBA{240, 228, 66, 255}
	purple    = color.NRGBA{204, 121, 167, 255}
)

// Greys for what carries no data.
var (
	ink   = color.NRGBA{34, 34, 34, 255}
	faded = color.NRGBA{90, 90, 90, 255}
	rule  = color.NRGBA{222, 222, 222, 255}
	gas   = color.NRGBA{153, 153, 153, 255}
)

// tint mixes a colour with white, keeping the part given.
func tint(c color.NRGBA, part float64) color.NRGBA {
	mix := func(v uint8) uint8 { return uint8(255 - part*(255-float64(v)) + 0.5) }
	return color.NRGBA{mix(c.R), mix(c.G), mix(c.B), 255}
}

// Dashes that tell lines apart without colour.
var (
	solid  []vg.Length
	dashed = []vg.Length{7, 4}
	dotted = []vg.Length{2, 3}
	mixed  = []vg.Length{9, 3, 2, 3}
)

func stroke(c color.Color, width vg.Length, dashes []vg.Length) draw.LineStyle {
	return draw.LineStyle{Color: c, Width: width, Dashes: dashes}
}

// Sizes of type, in points.
const (
	titleSize = 15
	textSize  = 11
	smallSize = 10
)

// lettering returns a text style anchored at its left edge and baseline box's
// bottom; callers change the alignment.
func lettering(size vg.Length, c color.Color) text.Style {
	return text.Style{
		Color:   c,
		Font:    font.Font{Typeface: "Liberation", Variant: "Sans", Size: size},
		XAlign:  draw.XLeft,
		YAlign:  draw.YBottom,
		Handler: plot.DefaultTextHandler,
	}
}

func bold(s text.Style) text.Style {
	s.Font.Weight = xfont.WeightBold
	return s
}

func aligned(s text.Style, x text.XAlignment, y text.YAlignment) text.Style {
	s.XAlign, s.YAlign = x, y
	return s
}

// fold breaks a text at spaces into lines that are no wider than width.
func fold(s text.Style, txt string, width vg.Length) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(txt) {
		longer := strings.TrimSpace(line + " " + word)
		if line != "" && s.Width(longer) > width {
			lines = append(lines, line)
			longer = word
		}
		line = longer
	}
	return append(lines, line)
}

// unitOf returns the unit of a dimension as a picture writes it: "yd3", "short
// tons".
func unitOf(dim units.Dimension, sys units.System) string {
	_, label := units.Convert(0, dim, sys)
	return strings.ReplaceAll(label, "short ton", "short tons")
}
