package picture

import (
	"bytes"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"

	"loamcast/scenarios/plaintext"
)

// pixelsPerInch makes a point 4/3 of a pixel, as browsers do.
const pixelsPerInch = 96

// PNG renders the picture with 1200 by 700 pixels.
func (p Picture) PNG() ([]byte, error) {
	c := vgimg.NewWith(vgimg.UseWH(Width, Height), vgimg.UseDPI(pixelsPerInch))
	p.draw(draw.New(c))
	var b bytes.Buffer
	if _, err := (vgimg.PngCanvas{Canvas: c}).WriteTo(&b); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// wellFormed keeps characters that XML cannot hold out of a document.
type wellFormed struct{ *vgsvg.Canvas }

func (w wellFormed) FillString(f font.Face, at vg.Point, s string) {
	w.Canvas.FillString(f, at, plaintext.XML(s))
}

// SVG renders the picture as a document that names its font, with others of
// nearly the same widths for where that font is missing.
func (p Picture) SVG() ([]byte, error) {
	c := vgsvg.New(Width, Height)
	p.draw(draw.New(wellFormed{c}))
	var b bytes.Buffer
	if _, err := c.WriteTo(&b); err != nil {
		return nil, err
	}
	return bytes.ReplaceAll(b.Bytes(),
		[]byte("font-family:Liberation Sans;"),
		[]byte("font-family:Liberation Sans,Arial,Helvetica,sans-serif;")), nil
}

// DrawOn draws the picture on a canvas of its size, such as a page.
func (p Picture) DrawOn(c vg.Canvas) { p.draw(draw.NewCanvas(c, Width, Height)) }
