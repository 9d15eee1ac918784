package simulate_test

import (
	"strings"
	"testing"
)

const (
	firstPart = "for: 7 day, setpoint: 62 °C"
	cured     = "  longest_time: 30 day\n"
	tipped    = cured + "  handling_loss: 30 %\n  handling_drop: 2 °C\n"
	turned    = cured + "  turning: {after: [3 day, 8 day], loss: 40 %, drop: 3 °C}\n"
	whenHot   = cured + "  turning: {above: 35 °C, apart: 2 day}\n"
	waiting   = "for: 2 day, setpoint: 62 °C, held: 52 °C, held_for: 2 day, longest: 9 day"
	blowers   = "  blowers: 700 cfm\n  turndown: 10 %\n  blower_per_vessel: 350 cfm"
)

// heatOptions are the keys of programs that wait and of the heat of a lot.
var heatOptions = []option{
	{key: "curing.handling_loss", base: []string{cured, tipped}, old: "handling_loss: 30 %", new: "handling_loss: 90 %"},
	{key: "curing.handling_drop", base: []string{cured, tipped}, old: "handling_drop: 2 °C", new: "handling_drop: 20 °C"},
	{key: "curing.turning.after", base: []string{cured, turned}, old: "[3 day, 8 day]", new: "[3 day, 4 day, 5 day]"},
	{key: "curing.turning.loss", base: []string{cured, turned}, old: "loss: 40 %", new: "loss: 90 %"},
	{key: "curing.turning.drop", base: []string{cured, turned}, old: "drop: 3 °C", new: "drop: 20 °C"},
	{key: "curing.turning.above", base: []string{cured, whenHot}, old: "above: 35 °C", new: "above: 75 °C"},
	{key: "curing.turning.apart", base: []string{cured, whenHot}, old: "apart: 2 day", new: "apart: 9 day"},
	{key: "aeration.program.ramp_per_hour", old: "for: 10 day, setpoint: 50 °C", new: "for: 10 day, setpoint: 50 °C, ramp_per_hour: 0.2 °C"},
	{key: "aeration.program.until", old: firstPart, new: "for: 2 day, setpoint: 62 °C, until: pathogen reduction, longest: 14 day"},
	{key: "aeration.program.held", base: []string{firstPart, waiting}, old: "held: 52 °C", new: "held: 58 °C"},
	{key: "aeration.program.held_for", base: []string{firstPart, waiting}, old: "held_for: 2 day", new: "held_for: 4 day"},
	{key: "aeration.program.longest", base: []string{firstPart, waiting}, old: "longest: 9 day", new: "longest: 3 day"},
	{key: "aeration.turndown", base: []string{"  blower_per_vessel: 350 cfm", blowers}, old: "turndown: 10 %", new: "turndown: 100 %"},
}

// Every key of programs that wait and of the heat of a lot moves what is simulated.
func TestEveryOptionOfHeatMatters(t *testing.T) { everyOptionMatters(t, readSmall(t), heatOptions) }

// The built-in programs differ in what is simulated.
func TestBuiltInProgramMatters(t *testing.T) {
	text := readSmall(t)
	from, to := strings.Index(text, "  program:\n"), strings.Index(text, "  blower_per_vessel: 350 cfm")
	base := edited(t, text, text[from:to], "  built_in: by the clock\n")
	c := option{key: "aeration.built_in", old: "by the clock", new: "until the criteria are met"}
	c.check(t, recordOf(t, base), recordOf(t, edited(t, base, c.old, c.new)))
}
