package picture

import (
	"image/color"
	"strings"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// flowLabel is lines of text about a point, each perhaps with a spot of colour
// before it.
type flowLabel struct {
	lines []string
	spots []color.Color
	at    vg.Point // top edge; left, middle or right as style.XAlign says
	style text.Style
}

const spotRoom vg.Length = 10

// box is the rectangle that the label covers.
func (l flowLabel) box() vg.Rectangle {
	var width vg.Length
	for _, line := range l.lines {
		width = max(width, l.style.Width(line))
	}
	if l.spots != nil {
		width += spotRoom
	}
	left := l.at.X + vg.Length(l.style.XAlign)*width
	return vg.Rectangle{
		Min: vg.Point{X: left, Y: l.at.Y - vg.Length(len(l.lines))*flowLine},
		Max: vg.Point{X: left + width, Y: l.at.Y},
	}
}

func (l flowLabel) draw(c draw.Canvas) {
	style := aligned(l.style, l.style.XAlign, draw.YTop)
	for i, line := range l.lines {
		at := vg.Point{X: l.at.X, Y: l.at.Y - vg.Length(i)*flowLine}
		if l.spots != nil {
			spot := vg.Rectangle{Min: vg.Point{X: at.X, Y: at.Y - 9}, Max: vg.Point{X: at.X + 7, Y: at.Y - 2}}
			c.SetColor(l.spots[i])
			c.Fill(spot.Path())
			at.X += spotRoom
		}
		c.FillText(style, at, line)
	}
}

// labeller writes the labels of a layout; amounts writes a value in the shown unit.
type labeller struct {
	*flowLayout
	amounts func(float64) string
	labels  []flowLabel
}

func (l *flowLayout) labels(amounts func(float64) string) []flowLabel {
	w := &labeller{flowLayout: l, amounts: amounts}
	for _, s := range l.stores {
		w.nameStore(s)
		w.nameRises(s)
		w.nameFalls(s)
	}
	for _, s := range l.streams {
		switch s.route {
		case supply:
			w.nameBand(s, l.area.Min.X, s.in, s.to.x-l.area.Min.X, draw.XLeft)
		case leave:
			w.nameBand(s, s.from.right()+6, s.out, l.area.Max.X-s.from.right()-6, draw.XLeft)
		case forward:
			w.nameBand(s, (s.from.right()+s.to.x)/2, (s.out+s.in)/2, s.to.x-s.from.right(), draw.XCenter)
		case back:
			w.nameLoop(s)
		}
	}
	for _, s := range l.stores { // last, since they can make way
		w.nameBreaths(s)
	}
	return w.labels
}

// amount is a stream's value in the shown unit.
func (w *labeller) amount(s *stream) string { return w.amounts(s.flow.Value) }

// nameOf is a flow's name without its place, which the picture shows.
func nameOf(s *stream) string {
	name, _, _ := strings.Cut(s.flow.Name, ",")
	return name
}

func (w *labeller) add(lines []string, spots []color.Color, at vg.Point, style text.Style) {
	w.labels = append(w.labels, flowLabel{lines, spots, at, style})
}

func (w *labeller) nameStore(s *store) {
	at := vg.Point{X: s.right(), Y: s.top + flowLine + 3}
	w.add([]string{s.name}, nil, at, aligned(bold(lettering(smallSize, ink)), draw.XRight, draw.YTop))
}

// nameBand writes a stream's name and amount in the middle of its band, a name that is
// wider than the room between the stores in several lines. If the band is thin or the
// place taken, the first free place counts of: above the band, above the names of the
// stores, below the band.
func (w *labeller) nameBand(s *stream, x, top, room vg.Length, align text.XAlignment) {
	if align == draw.XLeft {
		x += 4
	}
	label := flowLabel{style: aligned(lettering(smallSize, ink), align, draw.YTop)}
	label.lines = append(fold(label.style, nameOf(s), room-8), w.amount(s))
	high := vg.Length(len(label.lines)) * flowLine
	places := []vg.Length{top + high + 1, top + high + flowLine + 4, top - s.width - 1}
	if s.width >= high+2 {
		places = append([]vg.Length{top - s.width/2 + high/2}, places...)
	}
	for _, y := range places {
		label.at = vg.Point{X: x, Y: y}
		if w.free(label.box()) {
			break
		}
	}
	w.labels = append(w.labels, label)
}

// free reports whether no store and no label yet placed covers part of the box.
func (w *labeller) free(box vg.Rectangle) bool {
	for _, s := range w.stores {
		if overlap(box, s.box()) {
			return false
		}
	}
	for _, l := range w.labels {
		if overlap(box, l.box()) {
			return false
		}
	}
	return true
}

func overlap(a, b vg.Rectangle) bool {
	return a.Min.X < b.Max.X && b.Min.X < a.Max.X && a.Min.Y < b.Max.Y && b.Min.Y < a.Max.Y
}

// nameRises lists what goes up from a store above its arrows.
func (w *labeller) nameRises(s *store) {
	var lines []string
	var spots []color.Color
	for _, t := range take(s.outs, rise) {
		lines = append(lines, nameOf(t)+" "+w.amount(t))
		spots = append(spots, streamColor(t))
	}
	if lines == nil {
		return
	}
	at := vg.Point{X: s.right() + bend, Y: s.riseTip() + vg.Length(len(lines))*flowLine + 2}
	w.add(lines, spots, at, lettering(smallSize, ink))
}

// nameFalls lists what goes down from a store below its arrows.
func (w *labeller) nameFalls(s *store) {
	style := lettering(smallSize, ink)
	var lines []string
	var spots []color.Color
	for _, t := range take(s.outs, fall) {
		folded := fold(style, nameOf(t)+" "+w.amount(t), 0.6*w.spacing())
		for i, line := range folded {
			lines = append(lines, line)
			spot := streamColor(t)
			if i > 0 {
				spot = color.NRGBA{} // no spot before a line that goes on
			}
			spots = append(spots, spot)
		}
	}
	if lines == nil {
		return
	}
	x := s.right() + bend + sum(s.outs, back)
	w.add(lines, spots, vg.Point{X: x, Y: s.fallTip() - 2}, style)
}

// nameBreaths names what a store takes from the air: below the arrow and to
// the left, or else to the right, or else as much lower as it takes.
func (w *labeller) nameBreaths(s *store) {
	for _, t := range take(s.ins, breath) {
		e := t.inElbow()
		label := flowLabel{lines: []string{nameOf(t), w.amount(t)}}
		for lower := 2 * flowLine; lower <= breathLines; lower += flowLine {
			label.at = vg.Point{X: e.X - e.radius, Y: s.breathTail() - 2 - lower + 2*flowLine}
			label.style = aligned(lettering(smallSize, ink), draw.XRight, draw.YTop)
			if w.free(label.box()) {
				break
			}
			label.at.X -= t.width
			label.style.XAlign = draw.XLeft
			if w.free(label.box()) {
				break
			}
		}
		w.labels = append(w.labels, label)
	}
}

// nameLoop writes in the lowest part of a loop, or above it if it is thin.
func (w *labeller) nameLoop(s *stream) {
	top := w.loop[s]
	y := top - s.width/2 + flowLine/2
	if s.width < flowLine+2 {
		y = top + flowLine + 1
	}
	x := (s.from.x + s.to.x) / 2
	w.add([]string{nameOf(s) + " " + w.amount(s)}, nil, vg.Point{X: x, Y: y},
		aligned(lettering(smallSize, ink), draw.XCenter, draw.YTop))
}
