// Package pdf writes a report as paper: pages with numbers, contents, tables whose
// headings stand on every page, and pictures made of lines and letters. Its letters are
// in it, and can be searched and copied. It decides nothing but the layout.
package pdf
