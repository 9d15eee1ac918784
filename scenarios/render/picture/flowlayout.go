package picture

import (
	"gonum.org/v1/plot/vg"
)

// Measures of the flow picture, in points.
const (
	storeWidth vg.Length = 14
	supplyRoom vg.Length = 108 // left of the first layer
	leaveRoom  vg.Length = 112 // right of the last
	storeGap   vg.Length = 48  // between stores one above the other
	bend       vg.Length = 8   // inner radius of the innermost bend
	shaft      vg.Length = 12  // straight part of an arrow, with its head
	flowLine   vg.Length = 1.2 * smallSize
	riseLines  vg.Length = 4 * flowLine   // kept free above the arrows
	fallLines  vg.Length = 5*flowLine + 2 // and below them

	// breathLines is kept free below what comes from the air: a label of two
	// lines, and room to move it down.
	breathLines vg.Length = 6 * flowLine

	loopGap  vg.Length = 16
	thinnest vg.Length = 0.75
)

// flowLayout gives every store and stream its place in an area.
type flowLayout struct {
	*flowGraph
	area vg.Rectangle
	loop map[*stream]vg.Length // upper edge of the lowest part
	low  vg.Length             // lower edge of everything
}

// layOut places the graph in the area at the largest scale that fits.
func layOut(g *flowGraph, area vg.Rectangle) *flowLayout {
	l := &flowLayout{flowGraph: g, area: area}
	var most float64
	for _, s := range g.streams {
		most = max(most, s.flow.Value)
	}
	// Each pass is a little smaller; streams cannot become thinner than
	// thinnest, so there is an end even if nothing fits.
	for scale := 160 / most; scale*most > 10; scale *= 0.97 {
		l.place(scale)
		if l.fits() {
			break
		}
	}
	l.centre()
	return l
}

// place lays everything out below the top of the area, with scale points to a
// kilogram.
func (l *flowLayout) place(scale float64) {
	for _, s := range l.streams {
		s.width = max(thinnest, vg.Length(s.flow.Value*scale))
	}
	var up vg.Length
	for _, s := range l.stores {
		s.height = max(sum(s.ins), sum(s.outs))
		up = max(up, sum(s.outs, rise))
	}
	first := l.area.Max.Y - riseLines - shaft - bend - up
	floor := make([]vg.Length, l.layers)
	for i := range floor {
		floor[i] = first
	}
	for _, s := range l.stores {
		s.x = l.area.Min.X + supplyRoom + vg.Length(s.layer)*l.spacing()
		s.top = floor[s.layer]
		floor[s.layer] -= s.height + storeGap
		stack(s.ins, s.top, func(t *stream, y vg.Length) { t.in = y })
		stack(s.outs, s.top, func(t *stream, y vg.Length) { t.out = y })
	}
	l.placeLoops()
}

func stack(list []*stream, y vg.Length, set func(*stream, vg.Length)) {
	for _, s := range list {
		set(s, y)
		y -= s.width
	}
}

// spacing is the distance from one layer to the next.
func (l *flowLayout) spacing() vg.Length {
	return (l.area.Size().X - supplyRoom - leaveRoom - storeWidth) / vg.Length(max(l.layers-1, 1))
}

// placeLoops puts the loops one below the other, below all else.
func (l *flowLayout) placeLoops() {
	l.low = l.area.Max.Y
	for _, s := range l.stores {
		low := s.top - s.height
		if len(take(s.outs, fall)) > 0 {
			low = min(low, s.fallTip()-fallLines)
		}
		if len(take(s.ins, breath)) > 0 {
			low = min(low, s.breathTail()-breathLines)
		}
		l.low = min(l.low, low)
	}
	l.loop = map[*stream]vg.Length{}
	for _, s := range l.streams {
		if s.route == back {
			l.loop[s] = l.low - loopGap
			l.low -= loopGap + s.width
		}
	}
}

// riseTip is the height to which a store's upward arrows reach.
func (s *store) riseTip() vg.Length { return s.top + bend + sum(s.outs, rise) + shaft }

// bottomOut and bottomIn are the lower ends of the stacks of streams.
func (s *store) bottomOut() vg.Length { return s.top - sum(s.outs) }
func (s *store) bottomIn() vg.Length  { return s.top - sum(s.ins) }

// fallTip is the height to which the downward arrows reach, breathTail that
// from which the streams of air come.
func (s *store) fallTip() vg.Length {
	return s.bottomOut() - bend - sum(s.outs, fall) - shaft
}
func (s *store) breathTail() vg.Length {
	return s.bottomIn() - bend - sum(s.ins, breath) - shaft
}

func (s *store) right() vg.Length { return s.x + storeWidth }

func (s *store) box() vg.Rectangle {
	return vg.Rectangle{Min: vg.Point{X: s.x, Y: s.top - s.height}, Max: vg.Point{X: s.right(), Y: s.top}}
}

// fits reports whether the layout stays in the area and no store's bends reach
// into the next layer.
func (l *flowLayout) fits() bool {
	if l.low < l.area.Min.Y {
		return false
	}
	room := 0.55 * (l.spacing() - storeWidth)
	for _, s := range l.stores {
		if bend+sum(s.outs, rise) > room || bend+sum(s.outs, fall, back) > room || bend+sum(s.ins, back, breath) > room {
			return false
		}
	}
	return true
}

// centre moves everything down by half of the space that is left.
func (l *flowLayout) centre() {
	down := max(0, (l.low-l.area.Min.Y)/2)
	for _, s := range l.stores {
		s.top -= down
	}
	for _, s := range l.streams {
		s.in -= down
		s.out -= down
		if s.route == back {
			l.loop[s] -= down
		}
	}
	l.low -= down
}
