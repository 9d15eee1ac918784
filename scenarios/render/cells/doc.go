// Package cells writes the tables of a document as words: headings with their units, and
// cells with the digits that the document asks for. What has lines, boxes or pages makes
// its tables of them.
package cells
