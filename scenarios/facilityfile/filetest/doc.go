// Package filetest changes facility files for tests: one key by its path, or some
// by chance within their bounds. It is part of no program.
//
// It edits the text of a file, so that what is not changed stays as it was written,
// and knows of a key what facilityfile.Keys says.
package filetest
