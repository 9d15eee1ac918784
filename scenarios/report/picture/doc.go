// Package picture draws an answer: vessels needed against vessels installed,
// vessels in use, chips, product and diverted solids over time, and the flow
// of masses through the plant.
//
// It converts units and draws, and computes nothing else. A [Picture] can be
// drawn on any canvas of gonum's vg, or rendered as PNG or SVG; it is laid out
// for [Width] by [Height] points. Colours are of the Okabe–Ito palette, which
// people who confuse red and green can tell apart, and lines also differ by
// their dashes. Rendering the same answer twice gives the same bytes.
package picture
