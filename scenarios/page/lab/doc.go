// Package lab asks questions of facility files that change all the time, for a page that
// somebody turns dials on. It keeps the tables of courses, the last answers and what
// plants were found to carry, shows looks that become surer, and bounds how much is
// simulated at a time: one question in a tab, of which a new one takes the place, and a few
// in all. Its answers are those of the command line for the same file and seed.
package lab
