package facilityfile

// ShareOut gives each of n replications a growth scenario of the file, by its place:
// the one that is furthest behind its weight. After any number of replications each has
// about its weight's share of them, and replication 7 has the same scenario however many
// follow, and in whatever question: what one question simulates another may have, too.
func (p *Planning) ShareOut(n int) []int {
	weights := make([]float64, len(p.Growths))
	for i, g := range p.Growths {
		weights[i] = g.Weight
	}
	return shareOut(weights, n)
}

func shareOut(weights []float64, n int) []int {
	out, behind := make([]int, n), make([]float64, len(weights))
	for rep := range out {
		most := 0
		for i, w := range weights {
			if behind[i] += w; behind[i] > behind[most] {
				most = i
			}
		}
		if len(behind) > 0 {
			behind[most]--
		}
		out[rep] = most
	}
	return out
}
