package pdf

import (
	"image"
	"image/color"
	"math"

	"codeberg.org/go-pdf/fpdf"
	xfont "golang.org/x/image/font"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// canvas is a part of a page on which a picture is drawn, with the origin at its lower
// left corner. It implements vg.Canvas.
type canvas struct {
	pdf         *fpdf.Fpdf
	left, lower float64 // of the page, points from its upper left corner
	scale       float64 // points of the page in one of the picture
	now         state
	before      []state
}

// state is what Push keeps and Pop brings back.
type state struct {
	matrix affine
	width  vg.Length
	dash   []vg.Length
	offset vg.Length
	colour color.Color
}

// affine takes a point of the picture to (a·x + c·y + e, b·x + d·y + f).
type affine struct{ a, b, c, d, e, f float64 }

// then is m after n: n is applied first.
func (m affine) then(n affine) affine {
	return affine{
		m.a*n.a + m.c*n.b, m.b*n.a + m.d*n.b,
		m.a*n.c + m.c*n.d, m.b*n.c + m.d*n.d,
		m.a*n.e + m.c*n.f + m.e, m.b*n.e + m.d*n.f + m.f,
	}
}

func (m affine) of(p vg.Point) (x, y float64) {
	return m.a*float64(p.X) + m.c*float64(p.Y) + m.e, m.b*float64(p.X) + m.d*float64(p.Y) + m.f
}

func newCanvas(pdf *fpdf.Fpdf, left, lower, scale float64) *canvas {
	return &canvas{pdf: pdf, left: left, lower: lower, scale: scale,
		now: state{matrix: affine{a: 1, d: 1}, width: 1, colour: color.Black}}
}

func (c *canvas) SetLineWidth(w vg.Length) { c.now.width = w }

func (c *canvas) SetLineDash(pattern []vg.Length, offset vg.Length) {
	c.now.dash, c.now.offset = pattern, offset
}

func (c *canvas) SetColor(colour color.Color) {
	if colour == nil {
		colour = color.Black
	}
	c.now.colour = colour
}

func (c *canvas) Rotate(angle float64) {
	sin, cos := math.Sincos(angle)
	c.now.matrix = c.now.matrix.then(affine{cos, sin, -sin, cos, 0, 0})
}

func (c *canvas) Translate(by vg.Point) {
	c.now.matrix = c.now.matrix.then(affine{1, 0, 0, 1, float64(by.X), float64(by.Y)})
}

func (c *canvas) Scale(x, y float64) {
	c.now.matrix = c.now.matrix.then(affine{x, 0, 0, y, 0, 0})
}

func (c *canvas) Push() { c.before = append(c.before, c.now) }

func (c *canvas) Pop() {
	last := len(c.before) - 1
	c.now, c.before = c.before[last], c.before[:last]
}

func (c *canvas) Stroke(path vg.Path) {
	if c.now.width <= 0 {
		return
	}
	r, g, b := rgb(c.now.colour)
	c.pdf.SetDrawColor(r, g, b)
	c.pdf.SetLineWidth(float64(c.now.width) * c.scale)
	dash := make([]float64, len(c.now.dash))
	for i, d := range c.now.dash {
		dash[i] = float64(d) * c.scale
	}
	c.pdf.SetDashPattern(dash, float64(c.now.offset)*c.scale)
	c.trace(path)
	c.pdf.DrawPath("D")
	c.pdf.SetDashPattern(nil, 0)
}

func (c *canvas) Fill(path vg.Path) {
	r, g, b := rgb(c.now.colour)
	c.pdf.SetFillColor(r, g, b)
	c.trace(path)
	c.pdf.DrawPath("F")
}

// rgb drops how transparent a colour is: pictures are drawn on white with opaque inks.
func rgb(colour color.Color) (r, g, b int) {
	n := color.NRGBAModel.Convert(colour).(color.NRGBA)
	return int(n.R), int(n.G), int(n.B)
}

// place is a point of the picture on the page.
func (c *canvas) place(p vg.Point) (x, y float64) {
	x, y = c.now.matrix.of(p)
	return c.left + c.scale*x, c.lower - c.scale*y
}

// trace lays a path on the page.
func (c *canvas) trace(path vg.Path) {
	for _, part := range path {
		switch part.Type {
		case vg.MoveComp:
			c.pdf.MoveTo(c.place(part.Pos))
		case vg.LineComp:
			c.pdf.LineTo(c.place(part.Pos))
		case vg.CurveComp:
			c.curve(part)
		case vg.ArcComp:
			c.arc(part)
		case vg.CloseComp:
			c.pdf.ClosePath()
		}
	}
}

// curve lays a Bézier curve with one or two control points.
func (c *canvas) curve(part vg.PathComp) {
	x, y := c.place(part.Pos)
	cx, cy := c.place(part.Control[0])
	if len(part.Control) == 1 {
		c.pdf.CurveTo(cx, cy, x, y)
		return
	}
	dx, dy := c.place(part.Control[1])
	c.pdf.CurveBezierCubicTo(cx, cy, dx, dy, x, y)
}

// arcStep is the angle that one line of an arc spans: its distance from the arc is then
// less than a thousandth of the radius.
const arcStep = math.Pi / 36

// arc lays an arc as short lines.
func (c *canvas) arc(part vg.PathComp) {
	n := max(1, int(math.Ceil(math.Abs(part.Angle)/arcStep)))
	for i := range n + 1 {
		sin, cos := math.Sincos(part.Start + part.Angle*float64(i)/float64(n))
		c.pdf.LineTo(c.place(vg.Point{X: part.Pos.X + part.Radius*vg.Length(cos), Y: part.Pos.Y + part.Radius*vg.Length(sin)}))
	}
}

func (c *canvas) FillString(f font.Face, at vg.Point, text string) {
	if f.Font.Size == 0 {
		return
	}
	weight := ""
	if f.Font.Weight == xfont.WeightBold {
		weight = "B"
	}
	r, g, b := rgb(c.now.colour)
	c.pdf.SetTextColor(r, g, b)
	c.pdf.SetFont(sans, weight, float64(f.Font.Size)*c.scale)
	x, y := c.place(at)
	if angle := math.Atan2(c.now.matrix.b, c.now.matrix.a); angle != 0 {
		c.pdf.TransformBegin()
		defer c.pdf.TransformEnd()
		c.pdf.TransformRotate(angle*180/math.Pi, x, y)
	}
	c.pdf.Text(x, y, text)
}

// DrawImage is not used: no picture holds another.
func (c *canvas) DrawImage(vg.Rectangle, image.Image) {
	c.pdf.SetErrorf("a picture holds an image")
}
