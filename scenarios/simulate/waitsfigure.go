package simulate

import (
	"cmp"
	"fmt"
	"slices"

	doc "loamcast/scenarios/document"
)

// drawnWaits is how many causes of waiting have bars of their own, beside the others
// together.
const drawnWaits = 5

// waitInks are those of the causes, the longest first, dark and light in turn; the last
// is of all others.
var waitInks = [drawnWaits + 1]struct {
	ink   doc.Ink
	tint  float64
	hatch doc.Hatch
}{
	{doc.Blue, 0, doc.Plain}, {doc.Orange, 0.8, doc.Plain}, {doc.Vermilion, 0, doc.Rising}, {doc.SkyBlue, 0.55, doc.Plain},
	{doc.Green, 0, doc.Falling}, {doc.Grey, 0.5, doc.Crossed},
}

// waitsFigure stacks how long solids wait on their way, by cause, in each year: the kg ×
// days of the bottleneck account on each kg that came in.
func (a *Answer) waitsFigure() doc.Figure {
	order := make([]int, len(a.Waits))
	whole := make([]float64, len(a.Waits))
	all := 0.0
	for i, w := range a.Waits {
		order[i] = i
		for _, v := range w.Years {
			whole[i] += v
			all += v
		}
	}
	shown := func(k int) bool { return k < len(order) && whole[order[k]] >= leastWait*all && all > 0 }
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(whole[j], whole[i]) })

	base := make([]float64, len(a.Years))
	var series []doc.Series
	stack := func(name string, k int, causes []int) {
		top := slices.Clone(base)
		for _, c := range causes {
			for y := range top {
				top[y] += perUnit(a.Waits[c].Years[y], a.Years[y].FeedDry.Mean)
			}
		}
		series = append(series, doc.Series{Name: doc.Words(name), Shape: doc.Bars, Values: top, Low: base, Ink: waitInks[k].ink, Tint: waitInks[k].tint, Hatch: waitInks[k].hatch})
		base = top
	}
	drawn := 0
	for ; drawn < drawnWaits && shown(drawn); drawn++ {
		stack(a.Waits[order[drawn]].Cause, drawn, order[drawn:drawn+1])
	}
	if drawn == drawnWaits && shown(drawn) {
		stack("all others", drawn, order[drawn:])
	}
	// Names stand in the order of the bars, the highest first.
	slices.Reverse(series)
	return a.yearly("waiting", a.waitsMessage(), fmt.Sprintf("days that solids wait between arrival and product, on each kg of %s that came in, by what they wait for: means", a.Held()),
		doc.Days, "days", series...)
}

// waitsMessage says what solids wait for longest in the last year.
func (a *Answer) waitsMessage() doc.Text {
	y := len(a.Years) - 1
	longest := a.LongestWaits(y)
	if len(longest) == 0 {
		return doc.Words("Solids hardly ever wait")
	}
	total := 0.0
	for _, w := range a.Waits {
		total += w.Years[y]
	}
	return doc.Say("In %s solids wait %s on their way, %s of it %s", a.Years[y].Label,
		doc.Show(perUnit(total, a.Years[y].FeedDry.Mean), doc.Days), doc.ShareText(longest[0].Share), standsFor(longest[0].Name))
}

// standsFor says of a cause what the time is spent on.
func standsFor(cause string) string {
	switch cause {
	case "collecting a load", "mixing", "off shift", "drying":
		return map[string]string{
			"collecting a load": "until a load has come together", "mixing": "while mixers are at work",
			"off shift": "until work begins", "drying": "until they are dry enough",
		}[cause]
	case "vessel":
		return "for a vessel"
	}
	return waitsFor(cause)
}
