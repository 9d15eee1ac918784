// Package dials makes fields of the keys of a facility file: what each says, its unit,
// range, usual range with source, what the file has, and what is wrong with it. All words
// and limits are those of the table of keys. It turns fields of changed values back into
// the text of the file, of which nothing else changes.
//
// It draws nothing and simulates nothing.
package dials
