package picture

import (
	"bytes"
	"fmt"
	"image/png"
	"math"
	"testing"

	"loamcast/scenarios/money"
	"loamcast/scenarios/options"
	"loamcast/sim/stats"
)

// comparison has n choices, each a million dearer than the one before, of which
// the last earns more than it costs.
func comparison(n int) *options.Answer {
	a := &options.Answer{Facility: "a plant", Stated: 2027, Years: []string{"2027"}, Replications: 20,
		Growths: []options.Growth{{Name: "slow", Weight: 0.5}, {Name: "fast", Weight: 0.5}}}
	for i := range n {
		c := options.Choice{Name: fmt.Sprintf("choice %d", i)}
		c.Service.FirstMissed = -i % 2
		c.Service.Keeps = c.Service.FirstMissed < 0
		v := float64(i+1) * 1e6
		if i == n-1 {
			v = -2e6
		}
		c.All = options.Summary{Present: stats.Interval{Estimate: v}, Low: v - 5e5, High: v + 5e5,
			OverFirst: stats.Interval{Estimate: v - 1e6, Low: v - 1.5e6, High: v - 5e5}}
		c.All.ByPart[money.Labour] = max(v, 0)
		c.All.ByPart[money.Sales] = min(v, 0)
		c.Growths = []options.Summary{c.All, c.All}
		a.Choices, a.Order = append(a.Choices, c), append(a.Order, i)
	}
	return a
}

// The axis holds every bar and interval, and zero.
func TestLadderReach(t *testing.T) {
	for _, c := range []struct {
		row       ladderRow
		low, high float64
	}{
		{ladderRow{bars: []span{{from: 0, to: 3}, {from: 3, to: 7.9}}}, 0, 8},
		{ladderRow{bars: []span{{from: 0, to: -0.3}}, dots: []dot{{at: 0.5, low: 0.2, high: 0.7}}}, -0.4, 0.8},
		{ladderRow{dots: []dot{{at: 2, low: 1, high: 2.4}}}, 0, 2.5},
		{ladderRow{dots: []dot{{}}}, 0, 1}, // nothing differs
	} {
		l := ladder{rows: []ladderRow{c.row}}
		if low, high := l.reach(); math.Abs(low-c.low) > 1e-9 || math.Abs(high-c.high) > 1e-9 {
			t.Errorf("%+v reaches from %g to %g, want %g to %g", c.row, low, high, c.low, c.high)
		}
	}
}

// Parts are stacked away from zero and end at what the choice costs in all.
func TestCostRowAddsUp(t *testing.T) {
	a := comparison(2)
	c := &a.Choices[0]
	for i := range c.All.ByPart {
		c.All.ByPart[i] = 1e6
	}
	c.All.ByPart[money.Sales], c.All.ByPart[money.Salvage] = -5e6, -2e6
	right, left := 0.0, 0.0
	for _, b := range costRow(a, c).bars {
		right, left = max(right, b.to), min(left, b.to)
		if math.Abs(b.to) < math.Abs(b.from) {
			t.Errorf("a bar from %g to %g runs towards zero", b.from, b.to)
		}
	}
	if got, want := right+left, c.All.ByPart.Total()/million; math.Abs(got-want) > 1e-9 {
		t.Errorf("bars end at %g and %g, together %g; the cost is %g", right, left, got, want)
	}
}

// Few choices and many are drawn, as PNG of the usual size and as SVG, the same
// each time.
func TestOptionsPictures(t *testing.T) {
	for _, n := range []int{2, 40} {
		first, again := Options(comparison(n)), Options(comparison(n))
		if len(first) != 2 {
			t.Fatalf("%d pictures", len(first))
		}
		for i, p := range first {
			data, err := p.PNG()
			if err != nil {
				t.Fatal(err)
			}
			config, err := png.DecodeConfig(bytes.NewReader(data))
			if err != nil || config.Width != 1200 || config.Height != 700 {
				t.Errorf("%s: %d by %d (%v)", p.Name, config.Width, config.Height, err)
			}
			other, err := again[i].PNG()
			if err != nil || !bytes.Equal(data, other) {
				t.Errorf("%s is drawn otherwise the second time (%v)", p.Name, err)
			}
			if svg, err := p.SVG(); err != nil || !bytes.Contains(svg, []byte("choice 0")) {
				t.Errorf("%s as SVG: %v", p.Name, err)
			}
		}
	}
}
