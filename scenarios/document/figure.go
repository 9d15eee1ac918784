package document

// Figure is a picture. Its title is the message. It is one of: panels one under
// the other, a [Ladder], [Phases], [Lanes], or a [Flow].
type Figure struct {
	Name            string // of its files
	Title, Subtitle Text
	Panels          []Panel
	Ladder          *Ladder
	Phases          *Phases
	Lanes           *Lanes
	Flow            *Flow
}

// Panel is a diagram whose series are named at their right ends. Values are in
// the answer's unit of Quantity and shown in that of the system.
type Panel struct {
	Quantity Quantity
	Y        string // written above the vertical axis; "{unit}" in it is the unit, "{currency}" the file's
	Whole    bool   // values are counted in whole numbers
	X        Axis
	Series   []Series
}

// Axis is a horizontal axis.
type Axis struct {
	Title    string
	From, To float64
	// What is marked: the beginnings of months, month i at i; places with a label,
	// label i at i; or, where there is neither, round numbers. As many are named
	// as there is room for.
	Months []YearMonth
	Labels []string
}

// YearMonth is a month of a year.
type YearMonth struct{ Year, Month int }

// Shape is how a series is drawn.
type Shape int

// Shapes of series.
const (
	Line     Shape = iota // joins the values; what is not finite is stepped over
	Curve                 // joins the values; breaks where one is not finite
	Steps                 // each value a level from half before its place to half after
	Band                  // fills the space between Low and Values
	Bars                  // stand on Low and reach up to Values
	Whiskers              // thin upright lines from Low to Values
	Upright               // a line across the panel at At, its name at the foot
)

// Series is something drawn in a panel. A value that is not finite is left out.
type Series struct {
	Name  Text // at its right end; empty for none
	Shape Shape
	// X are the places of the values; without them the first is at At, and the
	// others follow by ones.
	X      []float64
	At     float64
	Values []float64
	Low    []float64 // of Band, Bars and Whiskers
	Ink    Ink
	Tint   float64 // the part of the ink, the rest is white; 0 is all ink
	Hatch  Hatch   // of Bars
	Dash   Dash
	Width  float64 // of a line, points
	// NameHigh puts the name of a band at its high end, not in its middle.
	NameHigh bool
}

// Ladder has a row for each of several things, over one horizontal axis through
// zero. Values are in the answer's unit of Quantity.
type Ladder struct {
	Quantity Quantity
	Unit     string // of the axis; "{unit}" in it is that of the system, "{currency}" the file's
	Rows     []Rung
	Key      []KeyEntry
}

// Rung is a name with a note, bars, and dots one below the other.
type Rung struct {
	Name string
	Note Text
	Bars []Span
	Dots []Dot
}

// Span is a bar.
type Span struct {
	From, To float64
	Ink      Ink
}

// Dot is a value with an interval.
type Dot struct {
	At, Low, High float64
	Ink           Ink
}

// KeyEntry explains an ink, of a bar or of a dot.
type KeyEntry struct {
	Name string
	Ink  Ink
	Dot  bool
}

// Phases has a band for each of several plans, and in it a bar for each step,
// from when it is ordered and from when it is in service on; both are parts of
// the horizon from 0 to 1.
type Phases struct {
	Years []string // labels of the horizon
	From  int      // the first year that is drawn
	Plans []PhasedPlan
}

// PhasedPlan is a plan with its steps in order.
type PhasedPlan struct {
	Name  string
	Note  Text
	Steps []Phase
}

// Phase is a step of a plan; steps of the same Kind have the same ink.
type Phase struct {
	Name               string
	Kind               int
	Ordered, InService float64
}

// Lanes has a row for each of several things and in it a bar for each time that is told
// of, over some months.
type Lanes struct {
	Months []YearMonth // from the beginning of the first to the end of the last
	Lanes  []Lane
	Kinds  []Kind
}

// Lane is a thing with its times in order.
type Lane struct {
	Name  string
	Times []Time
}

// Time is a bar, in days from the beginning of the first month, with a word in it where
// it has room.
type Time struct {
	From, To float64
	Kind     int // by place in the kinds
	Name     string
}

// Kind is what bars have in common, and how they are filled.
type Kind struct {
	Name  string
	Ink   Ink
	Tint  float64 // the part of the ink; 0 is all
	Hatch Hatch
}

// Flow has the stores of a plant as boxes and flows as bands whose width is
// their value. An empty From or To is outside.
type Flow struct {
	Quantity Quantity
	Streams  []Stream
}

// Stream is a flow between two stores. Solid says that it brings or takes dry
// matter. What leaves for the outside without dry matter rises, unless it Sinks.
type Stream struct {
	Name, From, To string
	Value          float64
	Solid, Sinks   bool
	Ink            Ink
	Tint           float64
}
