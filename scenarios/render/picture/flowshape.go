package picture

import (
	"math"

	"gonum.org/v1/plot/vg"
)

const quarter = math.Pi / 2

// shape returns the outline of a stream.
func (l *flowLayout) shape(s *stream) vg.Path {
	switch s.route {
	case rise:
		return s.riseShape()
	case fall:
		return s.fallShape()
	case supply:
		return straight(l.area.Min.X, s.to.x, s.in, s.width, 0)
	case leave:
		return straight(s.from.right(), l.area.Max.X, s.out, s.width, head(s.width))
	case breath:
		return s.breathShape()
	case back:
		return l.loopShape(s)
	}
	return between(s.from.right(), s.out, s.to.x, s.in, s.width)
}

// head is the length of an arrow's head.
func head(width vg.Length) vg.Length { return min(shaft, max(3, 0.4*width)) }

// straight is a level band from x0 to x1 with its upper edge at y; an arrow's
// head of the given length takes the end.
func straight(x0, x1, y, width, head vg.Length) vg.Path {
	var p vg.Path
	p.Move(vg.Point{X: x0, Y: y})
	p.Line(vg.Point{X: x1 - head, Y: y})
	p.Line(vg.Point{X: x1, Y: y - width/2})
	p.Line(vg.Point{X: x1 - head, Y: y - width})
	p.Line(vg.Point{X: x0, Y: y - width})
	p.Close()
	return p
}

// between is a band from one level to another, with upper edges y0 and y1.
func between(x0, y0, x1, y1, width vg.Length) vg.Path {
	middle := (x0 + x1) / 2
	var p vg.Path
	p.Move(vg.Point{X: x0, Y: y0})
	p.CubeTo(vg.Point{X: middle, Y: y0}, vg.Point{X: middle, Y: y1}, vg.Point{X: x1, Y: y1})
	p.Line(vg.Point{X: x1, Y: y1 - width})
	p.CubeTo(vg.Point{X: middle, Y: y1 - width}, vg.Point{X: middle, Y: y0 - width}, vg.Point{X: x0, Y: y0 - width})
	p.Close()
	return p
}

// elbow is the centre of a stream's bend beside a store, and its inner radius.
type elbow struct {
	vg.Point
	radius vg.Length
}

// The bends of one side of a store share a centre, so that the streams lie
// snugly in each other.
func (s *stream) riseElbow() elbow {
	return elbow{vg.Point{X: s.from.right(), Y: s.from.top + bend}, bend + s.from.top - s.out}
}

func (s *stream) fallElbow() elbow {
	bottom := s.from.bottomOut()
	return elbow{vg.Point{X: s.from.right(), Y: bottom - bend}, bend + s.out - s.width - bottom}
}

func (s *stream) inElbow() elbow {
	bottom := s.to.bottomIn()
	return elbow{vg.Point{X: s.to.x, Y: bottom - bend}, bend + s.in - s.width - bottom}
}

func (s *stream) riseShape() vg.Path {
	e, w := s.riseElbow(), s.width
	inner, tip := e.X+e.radius, s.from.riseTip()
	var p vg.Path
	p.Move(vg.Point{X: e.X, Y: e.Y - e.radius})
	p.Arc(e.Point, e.radius, -quarter, quarter)
	p.Line(vg.Point{X: inner, Y: tip - head(w)})
	p.Line(vg.Point{X: inner + w/2, Y: tip})
	p.Line(vg.Point{X: inner + w, Y: tip - head(w)})
	p.Line(vg.Point{X: inner + w, Y: e.Y})
	p.Arc(e.Point, e.radius+w, 0, -quarter)
	p.Close()
	return p
}

func (s *stream) fallShape() vg.Path {
	e, w := s.fallElbow(), s.width
	inner, tip := e.X+e.radius, s.from.fallTip()
	var p vg.Path
	p.Move(vg.Point{X: e.X, Y: e.Y + e.radius})
	p.Arc(e.Point, e.radius, quarter, -quarter)
	p.Line(vg.Point{X: inner, Y: tip + head(w)})
	p.Line(vg.Point{X: inner + w/2, Y: tip})
	p.Line(vg.Point{X: inner + w, Y: tip + head(w)})
	p.Line(vg.Point{X: inner + w, Y: e.Y})
	p.Arc(e.Point, e.radius+w, 0, quarter)
	p.Close()
	return p
}

func (s *stream) breathShape() vg.Path {
	e, w := s.inElbow(), s.width
	inner, tail := e.X-e.radius, s.to.breathTail()
	var p vg.Path
	p.Move(vg.Point{X: inner, Y: tail})
	p.Line(vg.Point{X: inner, Y: e.Y})
	p.Arc(e.Point, e.radius, math.Pi, -quarter)
	p.Line(vg.Point{X: e.X, Y: e.Y + e.radius + w})
	p.Arc(e.Point, e.radius+w, quarter, quarter)
	p.Line(vg.Point{X: inner - w, Y: tail})
	p.Close()
	return p
}

// loopShape goes down on the right of one store, to the left below all, and up
// into the left side of the other: once along the inner edge, and back along
// the outer.
func (l *flowLayout) loopShape(s *stream) vg.Path {
	a, b, w := s.fallElbow(), s.inElbow(), s.width
	y := l.loop[s]
	right, left := a.X+a.radius, b.X-b.radius // inner edges of the upright parts
	c := vg.Point{X: right - bend, Y: y + bend}
	d := vg.Point{X: left + bend, Y: y + bend}
	var p vg.Path
	p.Move(vg.Point{X: a.X, Y: a.Y + a.radius})
	p.Arc(a.Point, a.radius, quarter, -quarter)
	p.Arc(c, bend, 0, -quarter)
	p.Arc(d, bend, -quarter, -quarter)
	p.Arc(b.Point, b.radius, math.Pi, -quarter)
	p.Line(vg.Point{X: b.X, Y: b.Y + b.radius + w})
	p.Arc(b.Point, b.radius+w, quarter, quarter)
	p.Arc(d, bend+w, math.Pi, quarter)
	p.Arc(c, bend+w, -quarter, quarter)
	p.Arc(a.Point, a.radius+w, 0, quarter)
	p.Close()
	return p
}
