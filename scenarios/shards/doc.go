// Package shards lets the replications of an answer be simulated in shares, by as many
// machines as there are, and makes one answer of them: the one that a single machine
// would give, to the byte.
//
// Share i of n takes every n-th replication from the i-th on. Each is written whole into a
// file of its own when it is done, with the file, seed, program and share that it belongs
// to and a checksum, so that what was stopped goes on where it was, and nothing is put
// together that does not belong together. Beside them lies the facility file as it was
// read, so that whoever puts them together needs nothing else.
//
// How a replication is simulated and what becomes of all of them is the question's
// business ([question.Replicated]); variants of a facility are package study's.
package shards
