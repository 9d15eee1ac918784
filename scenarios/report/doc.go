// Package report puts the answers about a facility together in the order of a reader: a
// page for the board, each answer in full, the plant and its accounts, the values that
// it rests on, the equations with their sources, and the words. It asks the questions
// themselves, so that it says what their commands say, and computes nothing.
package report
