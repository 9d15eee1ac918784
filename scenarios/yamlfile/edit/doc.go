// Package edit gives keys of a YAML file other values and leaves every other byte as it
// is: comments, layout and the order of keys stay. It knows no schema; what a value may be
// is for the reader of the file to say.
package edit
