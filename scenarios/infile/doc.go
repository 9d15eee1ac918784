// Package infile reads what a user names as input, and nothing that could hang
// or flood the program: regular files and standard input, up to a size. What the
// files hold is for its callers to judge.
package infile
