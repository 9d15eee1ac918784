package simulate

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
)

// FreeOf is for tests that bring runs of their own.
var FreeOf = freeOf

// AnswerOf makes the answer of such runs, without what the vessels are in.
func AnswerOf(b answer.Basis, p *plant.Plant, all []Replication) *Answer {
	t := begin(b, p, len(all), answer.ExactRuns)
	for i := range all {
		t.Add(&all[i])
	}
	return t.close()
}
