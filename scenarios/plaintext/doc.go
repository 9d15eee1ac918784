// Package plaintext makes words from a file fit for where they are shown. A
// name may have been written by somebody else: it must not move a terminal's
// cursor, turn the order of what is read, become a formula in a spreadsheet or
// break a picture's XML. There is one function for each place.
package plaintext
