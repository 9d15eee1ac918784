package report

import (
	"loamcast/scenarios/outfile"
)

// File is a rendering with the name it should be given.
type File = outfile.File
