package sim

// Constants of the 64-bit FNV-1a hash (Fowler, Noll, Vo; from memory, checked
// against hash/fnv in the tests).
const (
	fnvOffset uint64 = 14695981039346656037
	fnvPrime  uint64 = 1099511628211
)

// trace is the running hash of what was executed; zero means not recorded.
type trace uint64

// RecordFingerprint makes the kernel hash every event that it executes from now
// on. It costs some 50 ns an event, so it is off until asked for.
func (k *Kernel) RecordFingerprint() {
	if k.trace == 0 {
		k.trace = trace(fnvOffset)
	}
}

// Fingerprint returns the FNV-1a hash over the time, priority and name of every
// event executed since [Kernel.RecordFingerprint], or 0 without it. Two runs
// that did the same things in the same order have the same fingerprint.
func (k *Kernel) Fingerprint() uint64 { return uint64(k.trace) }

func (t *trace) record(e *entry, name string) {
	h := hashWord(uint64(*t), uint64(e.at))
	h = hashWord(h, uint64(e.rank.priority()))
	for i := range len(name) {
		h = (h ^ uint64(name[i])) * fnvPrime
	}
	*t = trace(h)
}

// hashWord feeds the eight bytes of w, lowest first. Those that are zero at its end,
// most of them, come to one multiplication.
func hashWord(h, w uint64) uint64 {
	zeros := 8
	for ; w != 0; zeros-- {
		h = (h ^ w&0xff) * fnvPrime
		w >>= 8
	}
	return h * fnvPowers[zeros]
}

// fnvPowers are the powers of fnvPrime from 0 to 8.
var fnvPowers = func() (powers [9]uint64) {
	powers[0] = 1
	for i := range 8 {
		powers[i+1] = powers[i] * fnvPrime
	}
	return powers
}()
