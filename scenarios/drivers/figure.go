package drivers

import (
	"fmt"

	doc "loamcast/scenarios/document"
	"loamcast/scenarios/units"
	"loamcast/sim/stats"
)

// mostDrawn is how many inputs there is room for.
const mostDrawn = 14

// figures are a bar for each input, the longest on top, and another with the
// shares of the variance if they are known.
func (a *Answer) figures() []doc.Figure {
	list := a.InOrder()
	shows := []string{fmt.Sprintf("%s, seed %d", a.effort(), a.Seed)}
	about := doc.About(&a.Basis, shows...)
	if n := len(list); n > mostDrawn {
		about = about.Then(" · the first %d of %d inputs", mostDrawn, n)
		list = list[:mostDrawn]
	}
	quantity, unit := a.Output.quantity(), "{unit}"
	switch a.Output {
	case ChipsBought:
		quantity, unit = doc.Volume, "{unit} a year"
	case VesselYear:
		unit = "years"
	}
	effects := &doc.Ladder{Quantity: quantity, Unit: unit, Key: []doc.KeyEntry{
		{Name: "moves it more than chance alone", Ink: doc.Blue},
		{Name: "chance alone, and what moves it no more", Ink: doc.Grey},
		{Name: "95 % interval", Ink: doc.Black, Dot: true},
	}}
	percent := doc.Quantity{Dim: units.Fraction, ToBase: 1}
	shares := &doc.Ladder{Quantity: percent, Unit: "% of the variance", Key: []doc.KeyEntry{
		{Name: "in all: alone and together with others", Ink: doc.SkyBlue},
		{Name: "in all, 95 % interval", Ink: doc.Black, Dot: true},
		{Name: "alone, 95 % interval", Ink: doc.Orange, Dot: true},
	}}
	for i := range list {
		d := &list[i]
		ink := doc.Grey
		if a.Above(d) {
			ink = doc.Blue
		}
		e := d.Effect.MuStar
		effects.Rows = append(effects.Rows, doc.Rung{Name: d.Title(), Note: d.Range(),
			Bars: []doc.Span{{To: e.Estimate, Ink: ink}}, Dots: []doc.Dot{dot(e, doc.Black)}})
		shares.Rows = append(shares.Rows, doc.Rung{Name: d.Title(), Note: d.Range(),
			Bars: []doc.Span{{To: max(0, d.Share.Total.Estimate), Ink: doc.SkyBlue}},
			Dots: []doc.Dot{share(d.Share.Total, doc.Black), share(d.Share.First, doc.Orange)}})
	}
	figures := []doc.Figure{{Name: "drivers", Title: a.message(), Subtitle: doc.Words(doc.Capital(a.named())+": how far each input moves it over its range · ").Then("%s", about), Ladder: effects}}
	if a.Rows > 0 {
		figures = append(figures, doc.Figure{Name: "drivers-variance", Title: doc.Words("What " + a.varies() + " owes to each input"), Subtitle: about, Ladder: shares})
	}
	return figures
}

// message says what moves the answer most, as the title of a picture.
func (a *Answer) message() doc.Text {
	first := &a.Drivers[0]
	if a.AboveNoise() == 0 {
		return doc.Words("Nothing that is uncertain moves the answer more than chance alone")
	}
	return doc.Say("%s moves the answer most: by %s", doc.Capital(first.Name()), a.size(first.Effect))
}

func dot(i stats.Interval, ink doc.Ink) doc.Dot {
	return doc.Dot{At: i.Estimate, Low: i.Low, High: i.High, Ink: ink}
}

// share is a dot of a share: below nothing is sampling error.
func share(i stats.Interval, ink doc.Ink) doc.Dot {
	return doc.Dot{At: max(0, i.Estimate), Low: max(0, i.Low), High: max(0, i.High), Ink: ink}
}
