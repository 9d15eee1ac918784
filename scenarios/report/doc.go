// Package report renders an answer: as a summary that fits a terminal, as
// JSON, as CSV files, as a list of cautions and, through its subpackage
// picture, as PNG and SVG pictures.
//
// It computes nothing but unit conversions and layout; every value comes from
// [simulate.Answer]. It opens no files: it writes to an io.Writer or returns
// named bytes, so that the caller can put them in place all at once. The same
// answer gives the same bytes, which hold no date or time of their own.
//
// Values are taken in SI and shown in the [units.System] asked for. Names of
// JSON fields and CSV columns end in the unit, as [units.FieldSuffix] has it;
// they are part of the output format.
package report
