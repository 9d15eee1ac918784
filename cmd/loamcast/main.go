// Loamcast plans a biosolids composting facility: it simulates cake, batches,
// vessels, curing, screening and recycled chips, and says how many vessels,
// how many chips and how much compost the years ahead hold.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
)

func main() {
	// The first Ctrl-C ends the work cleanly; a second one kills the program.
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop)
	os.Exit(execute(ctx, os.Args[1:], os.Stdout, os.Stderr))
}
