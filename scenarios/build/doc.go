// Package build identifies the program that runs, for what is kept or handed on to be read
// by the same program only. Its version is for people and stays the same while the
// program changes.
package build
