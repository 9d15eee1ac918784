// Package html writes a report as one page that needs nothing else: style and pictures
// are in it, nothing is fetched, and it can be read on a telephone and printed. It
// decides nothing but the layout.
package html
