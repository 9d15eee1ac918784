package main

import (
	"errors"
	"fmt"
	"os"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"loamcast/scenarios/cycleplan"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/report"
)

// cycleFlags are the flags of `cycle`.
type cycleFlags struct {
	month       string
	hours, days float64
	show        showFlags
}

func newCycle() *cobra.Command {
	var flags cycleFlags
	cmd := &cobra.Command{
		Use:   "cycle [FILE]",
		Short: "Follow one load through vessel and curing",
		Long: `Follow one load of a month through the vessel and then on the curing pad: day
by day its temperature, moisture, solids, air and oxygen; when it meets each
criterion, or why it does not; what it takes and gives. The load is the file's
chips-to-cake ratio with the chips that such loads give back. With --month all,
a row for each month.
` + exampleHelp() + exitHelp,
		Example: `  loamcast cycle --month jul
  loamcast cycle plant.yaml --month all
  loamcast cycle plant.yaml --month jan --days 21 --out january`,
		Args: usage(cobra.MaximumNArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error { return followLoad(cmd, args, flags) },
	}
	f := cmd.Flags()
	f.StringVar(&flags.month, "month", "", monthHelp+`; "all" compares the months`)
	f.Float64Var(&flags.days, "days", 0, "days to stay in the vessel (default: the file's residence)")
	f.Float64Var(&flags.hours, "hours", 0, "the same in hours")
	flags.show.register(cmd)
	return cmd
}

func followLoad(cmd *cobra.Command, args []string, flags cycleFlags) error {
	s, err := load(cmd.Context(), args)
	if err != nil {
		return err
	}
	system, err := s.unitsFlag(flags.show.units)
	if err != nil {
		return err
	}
	o := cycleplan.Options{Source: s.label, Invented: s.invented, Version: version}
	if o.Months, err = parseMonths(flags.month, s.File); err != nil {
		return err
	}
	if o.Stay, err = flags.stay(cmd); err != nil {
		return err
	}
	s.warn(cmd.ErrOrStderr())

	bar := newProgress(os.Stderr, "following")
	o.Progress = bar.update
	a, err := cycleplan.Plan(cmd.Context(), s.File, o)
	bar.done()
	if err != nil {
		return err
	}
	return present(cmd, a, system, flags.show, renderers[*cycleplan.Answer]{report.CycleTerminal, report.CycleJSON, report.CycleFiles})
}

// parseMonths is parseMonth that also takes "all".
func parseMonths(text string, f *facilityfile.File) ([]time.Month, error) {
	if strings.EqualFold(text, "all") {
		var all []time.Month
		for m := time.January; m <= time.December; m++ {
			all = append(all, m)
		}
		return all, nil
	}
	m, err := parseMonth(text, f)
	return []time.Month{m}, err
}

// stay returns the hours in the vessel that were asked for, 0 if none were.
func (c cycleFlags) stay(cmd *cobra.Command) (float64, error) {
	const most = 366 * 24 // h
	name, hours := "days", c.days*24
	if cmd.Flags().Changed("hours") {
		if cmd.Flags().Changed("days") {
			return 0, usageError{errors.New("--days and --hours: give one of them")}
		}
		name, hours = "hours", c.hours
	}
	if cmd.Flags().Changed(name) && !(hours >= 1 && hours <= most) {
		return 0, usageError{fmt.Errorf("--%s: a stay of %g h is not from 1 hour to 366 days", name, hours)}
	}
	return hours, nil
}
