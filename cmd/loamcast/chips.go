package main

import (
	"errors"
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"loamcast/scenarios/chipplan"
	"loamcast/scenarios/report"
	"loamcast/scenarios/units"
)

// chipsFlags are the flags of `chips`.
type chipsFlags struct {
	fiscalFlags
	budget, perOrder, stockOut string
}

func newChips() *cobra.Command {
	var flags chipsFlags
	cmd := &cobra.Command{
		Use:   "chips [FILE]",
		Short: "Plan the purchase of chips: how many, for how much, when to order",
		Long: `Plan the chips to buy by month and fiscal year: fresh chips, what the screen
gives back and what is lost, truckloads, the store, and the money; the figure
for the budget and the chance of passing it; and the reorder point and order
size that keep mixing from waiting for chips, at least cost.
` + exampleHelp() + exitHelp,
		Example: `  loamcast chips
  loamcast chips plant.yaml --fiscal-year jul --years 3 --budget "120,000 USD"
  loamcast chips plant.yaml --stockout "2 %" --order-cost "150 USD" --out chips`,
		Args: usage(cobra.MaximumNArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error { return planChips(cmd, args, flags) },
	}
	flags.register(cmd)
	f := cmd.Flags()
	f.StringVar(&flags.budget, "budget", "", `amount for a fiscal year whose chance of being passed is asked, e.g. "120,000 USD"`)
	f.StringVar(&flags.stockOut, "stockout", "5 %", "chance that mixing waits for chips in a year, at most")
	f.StringVar(&flags.perOrder, "order-cost", "", `fixed cost of an order beside the chips, e.g. "150 USD" (default: none)`)
	return cmd
}

func planChips(cmd *cobra.Command, args []string, flags chipsFlags) error {
	s, system, err := flags.open(cmd, args)
	if err != nil {
		return err
	}
	plan, err := flags.plan(s)
	if err != nil {
		return err
	}
	o := chipplan.Options{Source: s.label, Invented: s.invented, Version: version, Workers: flags.workers}
	if o.Budget, err = amount("budget", flags.budget); err != nil {
		return err
	}
	if o.PerOrder, err = amount("order-cost", flags.perOrder); err != nil {
		return err
	}
	if o.StockOut, err = units.Parse(flags.stockOut, units.Fraction); err != nil {
		return usageError{fmt.Errorf("--stockout: %w", err)}
	}
	if o.StockOut <= 0 || o.StockOut >= 1 {
		return usageError{fmt.Errorf("--stockout %s: must be above 0 %% and below 100 %%", flags.stockOut)}
	}
	if o.Budget > 0 && !s.Mix.Priced {
		return usageError{errors.New(`--budget: the file has no price of chips; add a line such as "price: 9 USD/yd3" under chips`)}
	}
	if o.PerOrder > 0 && !s.Planning.Priced {
		return usageError{errors.New("--order-cost: the cost of orders can be weighed against stock only if the file has a section on money")}
	}
	s.warn(cmd.ErrOrStderr())

	bar := newProgress(os.Stderr, "simulating")
	o.Progress = bar.update
	a, err := chipplan.Plan(cmd.Context(), s.File, plan, o)
	bar.done()
	if err != nil {
		return err
	}
	return present(cmd, a, system, flags.showFlags, renderers[*chipplan.Answer]{report.ChipsTerminal, report.ChipsJSON, report.ChipsFiles})
}

// amount reads an amount of money; an empty text is 0.
func amount(flag, text string) (float64, error) {
	if text == "" {
		return 0, nil
	}
	v, err := units.Parse(text, units.Money)
	if err != nil {
		return 0, usageError{fmt.Errorf("--%s: %w", flag, err)}
	}
	if v <= 0 {
		return 0, usageError{fmt.Errorf("--%s %s: must be more than nothing", flag, text)}
	}
	return v, nil
}
