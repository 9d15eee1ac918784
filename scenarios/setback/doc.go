// Package setback answers what is lost when something goes wrong: vessels that fail, in
// each month in which that may begin, and seasons that are not as their months are.
//
// Each is simulated beside the same replications without it (common random numbers), so
// that the difference is its consequence and nothing else. What counts is the twelve
// months from its first day. The month that costs least is the one to take a vessel out
// for planned work, and the one that costs most is what to be prepared for.
//
// It is no forecast: how often vessels fail or winters are wet is not in it. Maintenance
// that a plant does by the calendar belongs to the file, and is in every answer.
//
// Units are SI inside; documents convert.
package setback
