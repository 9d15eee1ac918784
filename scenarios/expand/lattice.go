package expand

// lattice numbers the configurations of a catalogue: how often each step has
// been taken. Configuration 0 is the plant without any.
type lattice struct {
	most    []int // of each step
	strides []int
	size    int
}

func newLattice(most []int) *lattice {
	l := &lattice{most: most, size: 1}
	for _, n := range most {
		l.strides = append(l.strides, l.size)
		l.size *= n + 1
	}
	return l
}

// count returns how often a step has been taken.
func (l *lattice) count(config, step int) int {
	return config / l.strides[step] % (l.most[step] + 1)
}

// within reports whether configuration b has every step of a.
func (l *lattice) within(a, b int) bool {
	for i := range l.most {
		if l.count(a, i) > l.count(b, i) {
			return false
		}
	}
	return true
}
