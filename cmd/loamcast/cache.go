package main

import (
	"fmt"

	"github.com/spf13/cobra"

	doc "loamcast/scenarios/document"
	"loamcast/scenarios/tablecache"
)

// newCache is the command about the tables that are kept from one command to the next.
func newCache() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "cache",
		Short: "Show or clear the tables kept from one command to the next",
		Long: `Commands that simulate keep the courses of standard loads that they have integrated, so
that the next one about the same vessels and pads need not integrate them again. Answers
are the same without, to the last digit; --no-cache does without. The tables lie in
the folder that the environment's ` + tablecache.Variable + ` names, or in one of the user's
caches, and take 1 GB at most: those not used for the longest time go first.
` + exitHelp,
		Args: usage(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	cmd.AddCommand(&cobra.Command{
		Use:   "show",
		Short: "Say where the tables are, and how large",
		Args:  usage(cobra.NoArgs),
		RunE:  func(cmd *cobra.Command, _ []string) error { return showCache(cmd) },
	}, &cobra.Command{
		Use:   "clear",
		Short: "Remove all tables",
		Args:  usage(cobra.NoArgs),
		RunE:  func(cmd *cobra.Command, _ []string) error { return clearCache(cmd) },
	})
	return cmd
}

// sizeOf says how much is kept in a folder.
func sizeOf(dir string) string {
	count, bytes := tablecache.Size(dir)
	const mega = 1e6
	decimals := 1
	if bytes >= 10*mega {
		decimals = 0
	}
	if count == 0 {
		return "no tables"
	}
	return fmt.Sprintf("%s of tables, %.*f MB", doc.Counted(count, "file"), decimals, float64(bytes)/mega)
}

func showCache(cmd *cobra.Command) error {
	dir, err := tablecache.Folder()
	if err != nil {
		return nowhere(cmd, err)
	}
	_, err = fmt.Fprintf(cmd.OutOrStdout(), "%s: %s\n", dir, sizeOf(dir))
	return err
}

func clearCache(cmd *cobra.Command) error {
	dir, err := tablecache.Folder()
	if err != nil {
		return nowhere(cmd, err)
	}
	had := sizeOf(dir)
	if err := tablecache.Clear(dir); err != nil {
		return err
	}
	_, err = fmt.Fprintf(cmd.OutOrStdout(), "%s: removed %s\n", dir, had)
	return err
}

// nowhere says why there is no folder.
func nowhere(cmd *cobra.Command, why error) error {
	_, err := fmt.Fprintf(cmd.OutOrStdout(), "Nothing is kept: %v. Name a folder in %s.\n", why, tablecache.Variable)
	return err
}
