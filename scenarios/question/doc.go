// Package question says what a question is: its name and words, its options
// with dimension, default and range, and how it is asked. From it the command
// line makes commands and flags, and whatever else asks takes the same.
//
// The questions themselves stand in the packages of their answers, and package
// questions lists them all. This package asks nothing.
package question
