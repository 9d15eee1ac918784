// Package prose puts a report into words in one system of units: headlines, paragraphs,
// tables of text, and figures with what they show. Pages of any kind are made of it, so
// that all say the same; it decides nothing but what stands in a table's heading.
package prose
