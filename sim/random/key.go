package random

import "math/rand/v2"

// Key is the root of all streams of one replication.
type Key struct {
	Seed        uint64
	Replication int
}

// Stream returns the stream of a purpose, and of an entity of it if one is
// given: Stream("repair", 3) for the third truck's repairs. Equal arguments give
// equal streams, different ones give streams with nothing in common.
//
// The generator is PCG of math/rand/v2, its 128 bits of state filled by hashing
// the arguments.
func (k Key) Stream(name string, entity ...uint64) *rand.Rand {
	h := mix(k.Seed, uint64(k.Replication))
	h = mix(h, hashName(name))
	for _, e := range entity {
		h = mix(h, e)
	}
	h = mix(h, uint64(len(entity)))
	return rand.New(rand.NewPCG(scramble(h), scramble(h+golden)))
}

// golden is 2^64 divided by the golden ratio, made odd.
const golden uint64 = 0x9e3779b97f4a7c15

// mix folds a word into a hash. Both are scrambled in turn, so that the order of
// the words matters and neighbouring numbers end far apart.
func mix(h, word uint64) uint64 {
	return scramble(scramble(h+golden) ^ scramble(word))
}

// scramble is the output function of SplitMix64 (Steele, Lea and Flood 2014;
// constants from memory, checked in the tests against the published first
// output for seed 0). It is one to one.
func scramble(x uint64) uint64 {
	x += golden
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// hashName is 64-bit FNV-1a.
func hashName(s string) uint64 {
	h := uint64(14695981039346656037)
	for i := range len(s) {
		h = (h ^ uint64(s[i])) * 1099511628211
	}
	return h
}
