// Package page serves a local page on which a planner turns dials of a facility file and
// sees the answers move, asks every question, compares cases and edits the file.
//
// It is for one person on one machine. It listens on the loopback interface alone, answers
// no other host or origin, and wants a token, new at each start, for everything but its own
// still parts. It reads and writes in the folder of its file alone. Nothing is kept here
// between requests but what saves time (package lab), and drafts: the browser holds what is
// edited, so that nothing is lost when the program ends, and sends it to be kept for another
// tab or the next start (package drafts), in a folder of the user's.
//
// Words, limits and decisions are those of the keys ([facilityfile.Key]), the questions and
// their answers; the page has none of its own.
package page
