package plant

import (
	"loamcast/sim/digest"
	"loamcast/sim/random"
)

// Played is what a run leaves.
type Played struct {
	Record *Record
	Stays  []Stay // of its vessels, if they were watched
}

// Runs knows what runs have left that were simulated before. It is asked by several
// goroutines at a time.
type Runs interface {
	// Recall returns what a run has left, which is the caller's from then on; ok is false
	// if that is not known.
	Recall(run digest.Sum) (left Played, ok bool)
	// Keep is told what a run has left, which is not the keeper's: it may read it until it
	// returns.
	Keep(run digest.Sum, left Played)
}

// KeepRuns has the runs of the plant, and of those that are made of it, looked up before
// they are simulated, and told of when they have been. The records are the same without.
func (p *Plant) KeepRuns(r Runs) { p.runs = r }

// identify identifies a run of the plant: all that its record follows from, as long as the program
// is the same.
func (p *Plant) identify(key random.Key, watched bool) digest.Sum {
	return digest.Of(&p.Model, p.airByYear, p.unmarked, key, watched)
}

// recalled returns what a run has left before, or has it simulated.
func (p *Plant) recalled(key random.Key, watched bool, simulate func() (Played, error)) (Played, error) {
	if p.runs == nil {
		return simulate()
	}
	run := p.identify(key, watched)
	if left, ok := p.runs.Recall(run); ok {
		return left, nil
	}
	left, err := simulate()
	if err == nil {
		p.runs.Keep(run, left)
	}
	return left, err
}
