// Package picture draws the figures of a document as PNG and SVG: panels with
// series named at their ends, ladders of bars and dots, phases of plans, and the
// flows of a plant.
//
// It knows nothing of what the figures mean: titles, names and numbers are the
// document's; it converts units and places ink. Colours can be told apart by
// all readers, and dashes tell lines apart without colour.
package picture
