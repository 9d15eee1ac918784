package drivers

import (
	"cmp"
	"slices"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
)

// inputs are the coordinates of a point: the growth scenario, if there is a
// choice, then the uncertain inputs of the file that can move the output, in its
// order, then the random numbers of a replication.
type inputs struct {
	planning *facilityfile.Planning
	growths  []int // places of the scenarios, the one that brings least first; nil without a choice
	moved    []int // places of the uncertain inputs
	steps    []facilityfile.Step
}

func newInputs(f *facilityfile.File, o Output) inputs {
	in := inputs{planning: &f.Planning}
	for i, u := range f.Planning.Inputs {
		if o == PresentWorth || !isPrice(u.Key) {
			in.moved = append(in.moved, i)
		}
	}
	growths := f.Planning.Growths
	if len(growths) < 2 {
		return in
	}
	brought := make([]float64, len(growths)) // in the whole horizon, in first years
	for i, g := range growths {
		in.growths = append(in.growths, i)
		for year := range f.Model.Years {
			brought[i] += g.Growth.Factor(float64(year) + 0.5)
		}
	}
	slices.SortStableFunc(in.growths, func(a, b int) int { return cmp.Compare(brought[a], brought[b]) })
	return in
}

// certain reports whether there is no input but the random numbers.
func (in inputs) certain() bool { return in.dims() == 1 }

func (in inputs) dims() int { return in.growthDims() + len(in.moved) + 1 }

func (in inputs) growthDims() int {
	if in.growths == nil {
		return 0
	}
	return 1
}

// isPrice reports whether an input moves money alone.
func isPrice(key string) bool {
	in, _ := facilityfile.InputNamed(key)
	return in.UsedBy == facilityfile.ForPlanning
}

// at returns the case of a point, and its random numbers, 0 to 1 for the first to
// the last of their streams. Inputs that are not moved
// stay at their medians.
func (in inputs) at(point []float64) (c *study.Case, stream float64) {
	c = &study.Case{Quantiles: in.medians(), Steps: in.steps}
	if in.growths != nil {
		c.Growth = in.scenario(point[0])
	}
	for k, i := range in.moved {
		c.Quantiles[i] = point[in.growthDims()+k]
	}
	return c, point[len(point)-1]
}

// medians are the quantiles that put every input of the file at its median.
func (in inputs) medians() []float64 {
	return slices.Repeat([]float64{0.5}, len(in.planning.Inputs))
}

// scenario returns the place of the growth scenario at a quantile.
func (in inputs) scenario(quantile float64) int {
	for _, place := range in.growths[:len(in.growths)-1] {
		weight := in.planning.Growths[place].Weight
		if quantile < weight {
			return place
		}
		quantile -= weight
	}
	return in.growths[len(in.growths)-1]
}

// Quantiles between which an input is shown.
const shownLow, shownHigh = 0.05, 0.95

// drivers lists the inputs, the noise last, without their effects.
func (in inputs) drivers() []Driver {
	var list []Driver
	if in.growths != nil {
		name := func(quantile float64) string { return in.planning.Growths[in.scenario(quantile)].Name }
		list = append(list, Driver{Key: GrowthKey, LowName: name(shownLow), HighName: name(shownHigh), Dimension: units.Dimensionless})
	}
	for _, i := range in.moved {
		u := &in.planning.Inputs[i]
		list = append(list, Driver{Key: u.Key, Low: u.Quantile(shownLow), High: u.Quantile(shownHigh), Dimension: u.Dimension})
	}
	return append(list, Driver{Key: NoiseKey})
}
