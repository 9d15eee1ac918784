// Package workbook writes a report as a workbook of spreadsheets: the summary, the tables
// by month and year, every value used, and money as formulas, so that another price or
// another discount rate shows at once what it would cost.
//
// It decides nothing but layout. Tables are those that documents have for files, with
// native numbers and dates; sheets on money are laid out from a document's
// [document.Reckoning], and their formulas are the arithmetic of package money. No word of
// a file can become a formula. The same report gives the same bytes.
//
// Quantities are in the system of units asked for, which headings name; rates and shares
// are in percent.
package workbook
