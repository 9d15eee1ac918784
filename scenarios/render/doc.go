// Package render turns a document into what is shown or kept: text that fits a
// terminal, JSON, CSV and the files of a folder, with pictures by its
// subpackage picture.
//
// It decides nothing but layout: units are converted, lines broken, columns
// aligned. It opens no files: it writes to an io.Writer or returns named bytes,
// so that the caller can put them in place all at once. The same document gives
// the same bytes, which hold no date or time of their own.
//
// Names of JSON members and CSV columns end in the unit, as
// [units.FieldSuffix] has it; they are part of the output format.
package render
