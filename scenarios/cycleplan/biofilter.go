package cycleplan

import (
	"cmp"
	"math"
	"slices"

	"loamcast/facility/plant"
	"loamcast/facility/process"
)

// biofilter sizes a bed for the site's vessels, all in use.
func biofilter(m *plant.Model, c *process.Course) Biofilter {
	bed := process.DefaultBiofilter()
	n := m.Vessels.Installed
	b := Biofilter{
		Vessels: n, Mean: float64(n) * c.MeanFlow(), AtOnce: float64(n) * c.PeakFlow(),
		Staggered: staggered(c, n, m.Vessels.Turnaround.Hours()),
		Loading:   bed.Loading, Depth: bed.Depth, Residence: bed.Residence(),
	}
	b.Area = bed.Area(b.Staggered)
	return b
}

// staggered returns the largest total flow of n vessels whose loads are begun
// at even intervals, each followed by a turnaround without air. Where blowers blow on
// and off, one of them is on at any moment beyond its mean.
func staggered(c *process.Course, n int, turnaround float64) float64 {
	round := c.Final().Hours + turnaround
	peak := 0.0
	for _, s := range c.Samples {
		total, pulse := 0.0, 0.0
		for i := range n {
			mean, blowing := flowAt(c, math.Mod(s.Hours+float64(i)*round/float64(n), round))
			total += mean
			pulse = max(pulse, blowing-mean)
		}
		peak = max(peak, total+pulse)
	}
	return peak
}

// flowAt returns the air flow in the step that ends at or after an hour: its mean, and
// while the blower is on.
func flowAt(c *process.Course, hour float64) (mean, blowing float64) {
	i, _ := slices.BinarySearchFunc(c.Samples, hour-1e-9, func(s process.Sample, h float64) int { return cmp.Compare(s.Hours, h) })
	if i == len(c.Samples) {
		return 0, 0
	}
	return c.Samples[i].Flow, c.Samples[i].Blowing
}
