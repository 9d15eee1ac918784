package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"loamcast/scenarios/cache"
	doc "loamcast/scenarios/document"
)

// newCache is the command about what is kept from one command to the next.
func newCache() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "cache",
		Short: "Show or clear what is kept from one command to the next",
		Long: `Commands that simulate keep what takes long. Tables are the courses of standard loads that they
have integrated, so that the next command about the same vessels and pads need not
integrate them again. Runs are what the plant was seen to do, month by month, in every
replication, so that nothing is simulated twice: a command asked again, another that asks
about the same years, or the same with other prices finds them. Designs are the recipes of
files that leave them to the program. Answers are the same without, to the last digit;
--no-cache does without. All lies in the folder that the
environment's ` + cache.Variable + ` names, or in one of the user's caches, and takes 1 GB at
most, the runs of one command a quarter of that: what was not used for the longest time
goes first.
` + exitHelp,
		Args: usage(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	cmd.AddCommand(&cobra.Command{
		Use:   "show",
		Short: "Say where all that is, and how large",
		Args:  usage(cobra.NoArgs),
		RunE:  func(cmd *cobra.Command, _ []string) error { return showCache(cmd) },
	}, &cobra.Command{
		Use:   "clear",
		Short: "Remove all that is kept",
		Args:  usage(cobra.NoArgs),
		RunE:  func(cmd *cobra.Command, _ []string) error { return clearCache(cmd) },
	})
	return cmd
}

// sizeOf says how much is kept in a folder.
func sizeOf(dir string) string {
	size := cache.Size(dir)
	var parts []string
	for _, k := range []struct {
		name string
		cache.Kept
	}{{"tables", size.Tables}, {"runs", size.Runs}, {"designs", size.Designs}} {
		if k.Files > 0 {
			parts = append(parts, fmt.Sprintf("%s of %s, %s", doc.Counted(k.Files, "file"), k.name, sizeText(k.Bytes)))
		}
	}
	if len(parts) == 0 {
		return "nothing"
	}
	return strings.Join(parts, "; ")
}

// sizeText tells a size.
func sizeText(bytes int64) string {
	const kilo, mega = 1e3, 1e6
	switch size := float64(bytes); {
	case size < mega/10:
		return fmt.Sprintf("%.0f kB", max(1, size/kilo))
	case size < 10*mega:
		return fmt.Sprintf("%.1f MB", size/mega)
	default:
		return fmt.Sprintf("%.0f MB", size/mega)
	}
}

func showCache(cmd *cobra.Command) error {
	dir, err := cache.Folder()
	if err != nil {
		return nowhere(cmd, err)
	}
	_, err = fmt.Fprintf(cmd.OutOrStdout(), "%s: %s\n", dir, sizeOf(dir))
	return err
}

func clearCache(cmd *cobra.Command) error {
	dir, err := cache.Folder()
	if err != nil {
		return nowhere(cmd, err)
	}
	had := sizeOf(dir)
	if err := cache.Clear(dir); err != nil {
		return err
	}
	_, err = fmt.Fprintf(cmd.OutOrStdout(), "%s: removed %s\n", dir, had)
	return err
}

// nowhere says why there is no folder.
func nowhere(cmd *cobra.Command, why error) error {
	_, err := fmt.Fprintf(cmd.OutOrStdout(), "Nothing is kept: %v. Name a folder in %s.\n", why, cache.Variable)
	return err
}
