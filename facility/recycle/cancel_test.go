package recycle

import (
	"context"
	"errors"
	"testing"
	"time"
)

// counting is a context that ends when it has been looked at some times.
type counting struct {
	context.Context
	looks, most int
}

func (c *counting) Err() error {
	if c.looks++; c.looks > c.most {
		return context.Canceled
	}
	return nil
}

// Shows that the loop ends with its context, whether that has ended before it begins
// or does in the midst of it, and looks at it only a few times more.
func TestSteadyEndsWithItsContext(t *testing.T) {
	m := constant()
	for _, most := range []int{0, 1, 20} {
		ctx := &counting{Context: t.Context(), most: most}
		s, err := New(&m, time.January).Steady(ctx, AsRun(&m, time.January))
		if s != nil || !errors.Is(err, context.Canceled) {
			t.Errorf("ended at look %d: %v", most+1, err)
		}
		if more := ctx.looks - most; more > 2 {
			t.Errorf("ended at look %d, and looked %d times after", most+1, more)
		}
	}
}
