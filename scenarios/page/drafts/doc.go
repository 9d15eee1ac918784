// Package drafts keeps what is edited on the page and not saved in a folder of the user's,
// so that it outlives the browser's tab and the program. A draft is of a file, by its
// path, and of a tab; it is written whole, and offered when the page of that file is
// opened anew. It says which bytes it began from, so that a file that has changed since
// is not written over unasked.
package drafts
