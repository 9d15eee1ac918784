// Package rendertest holds the renderings of a document against files that a
// person has reviewed. Only tests use it. One switch renews the files of a
// package: go test ./scenarios/chipplan -update.
package rendertest
