package document

// Ink is the colour of something drawn.
type Ink int

// Inks: eight that all readers can tell apart, and two greys.
const (
	Black Ink = iota
	Orange
	SkyBlue
	Green
	Blue
	Vermilion
	Purple
	Faded
	Grey
	Yellow
)

// Dash tells lines apart without colour.
type Dash int

// Dashes of lines.
const (
	Solid Dash = iota
	Dashed
	Dotted
	Mixed
)

// Hatch tells fills apart without colour.
type Hatch int

// Hatches of fills.
const (
	Plain Hatch = iota
	Rising
	Falling
	Upstanding
	Lying
	Crossed
)
