package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"loamcast/scenarios/plaintext"
)

func newCheck() *cobra.Command {
	return &cobra.Command{
		Use:   "check FILE",
		Short: "Read a facility file and say what is wrong with it",
		Long: `Read a facility file, report everything that is wrong or unusual in it with
line and column, and simulate nothing.
` + exitHelp,
		Args: usage(cobra.ExactArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error {
			s, err := load(cmd.Context(), args)
			if err != nil {
				return err
			}
			s.warn(cmd.ErrOrStderr())
			m := &s.Model
			_, err = fmt.Fprintf(cmd.OutOrStdout(), "%s: %s, %s, %s from %v: sound, %s\n",
				plaintext.Terminal(s.label), plaintext.Terminal(s.Name), count(m.Vessels.Installed, "vessel"), count(m.Years, "year"), m.Start, count(len(s.Warnings), "warning"))
			return err
		},
	}
}

func count(n int, what string) string {
	switch n {
	case 0:
		return "no " + what + "s"
	case 1:
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
