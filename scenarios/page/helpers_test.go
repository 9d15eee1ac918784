package page_test

import (
	"context"

	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/mixplan"
	"loamcast/scenarios/warmup"
)

// dunmarrow is the invented plant of three vessels.
var dunmarrow = examples.Data("dunmarrow")

// prepared makes a file ready, as the command line does.
func prepared(ctx context.Context, f *facilityfile.File) error {
	if _, err := mixplan.Apply(ctx, f, 0); err != nil {
		return err
	}
	_, err := warmup.Apply(ctx, f)
	return err
}
