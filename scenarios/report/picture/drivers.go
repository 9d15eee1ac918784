package picture

import (
	"fmt"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/drivers"
	"loamcast/scenarios/simulate"
	"loamcast/sim/stats"
)

// DriversView is how the drivers of an answer are written: in order, with luck
// where it belongs.
type DriversView struct {
	Title   string
	Unit    string                // of the output
	Convert func(float64) float64 // of the output into Unit
	Names   []string
	Ranges  []string
	Drivers []drivers.Driver
}

// Drivers returns the pictures of what moves an answer: a bar for each input, the
// longest on top, and another with the shares of the variance if they are known.
func Drivers(a *drivers.Answer, v DriversView) []Picture {
	subtitle := fmt.Sprintf("%s · %d runs, seed %d", name(&simulate.Answer{Basis: answer.Basis{Facility: a.Facility}}), a.Runs, a.Seed)
	if a.Invented {
		subtitle += " · invented data"
	}
	shown := v.Drivers
	if len(shown) > mostRows {
		shown = shown[:mostRows]
		subtitle += fmt.Sprintf(" · the first %d of %d inputs", mostRows, len(v.Drivers))
	}
	effects := &ladder{title: v.Title, subtitle: subtitle, unit: v.Unit, key: effectsKey()}
	shares := &ladder{title: "What one run's answer owes to each input", subtitle: subtitle, unit: "% of the variance", key: sharesKey()}
	for i := range shown {
		effects.rows = append(effects.rows, effectRow(a, &v, i))
		shares.rows = append(shares.rows, shareRow(&v, i))
	}
	list := []Picture{{Name: "drivers", Title: effects.title, draw: effects.draw}}
	if a.Rows > 0 {
		list = append(list, Picture{Name: "drivers-variance", Title: shares.title, draw: shares.draw})
	}
	return list
}

func effectRow(a *drivers.Answer, v *DriversView, i int) ladderRow {
	d := &v.Drivers[i]
	fill := gas
	if a.Above(d) {
		fill = blue
	}
	at := interval95(d.Effect.MuStar, v.Convert)
	return ladderRow{name: v.Names[i], note: v.Ranges[i], bars: []span{{to: at.at, fill: fill}}, dots: []dot{at}}
}

func shareRow(v *DriversView, i int) ladderRow {
	s := v.Drivers[i].Share
	percent := func(share float64) float64 { return 100 * max(0, share) } // below nothing is sampling error
	all, alone := interval95(s.Total, percent), interval95(s.First, percent)
	alone.colour = orange
	return ladderRow{name: v.Names[i], note: v.Ranges[i], bars: []span{{to: all.at, fill: skyBlue}}, dots: []dot{all, alone}}
}

func interval95(i stats.Interval, convert func(float64) float64) dot {
	return dot{at: convert(i.Estimate), low: convert(i.Low), high: convert(i.High), colour: black}
}

func effectsKey() []keyEntry {
	return []keyEntry{
		{"moves it more than luck alone", swatch(blue)},
		{"luck alone, and what moves it no more", swatch(gas)},
		{"95 % interval", dotSample(black)},
	}
}

func sharesKey() []keyEntry {
	return []keyEntry{
		{"in all: alone and together with others", swatch(skyBlue)},
		{"in all, 95 % interval", dotSample(black)},
		{"alone, 95 % interval", dotSample(orange)},
	}
}
