// Loamcast plans a biosolids composting facility: it simulates cake, batches,
// vessels, curing, screening and recycled chips, and says how many vessels,
// how many chips and how much compost the years ahead hold.
package main

import (
	"context"
	"os"
)

func main() {
	ctx := interruptible(context.Background())
	os.Exit(execute(ctx, os.Args[1:], os.Stdout, os.Stderr))
}
