package table

// A Plot is a drawing beside the tables: a [Curve], [Dots], a [Chart], a
// [Tornado], [Bars], a [Graph] or [Labels]. Plots are for people; the same figures belong
// in a table.
type Plot interface {
	Block
	caption() (title, desc string)
}

// A Curve shows shares that fall in steps, such as survival, with their bands.
type Curve struct {
	Title string
	Desc  string // says in words what the drawing shows
	Axis  string // what runs along the bottom, such as "days since the graft"
	Lines []Line
}

// A Line is one curve.
type Line struct {
	Name  string
	Steps []Step  // by rising At; a curve begins at 0 with share 1 if no step does
	End   float64 // how far to the right the line is known
}

// A Step is the share from At on, with the ends of its interval; all three are
// fractions. Low and High may be NaN.
type Step struct{ At, Share, Low, High float64 }

// Dots shows one interval with its middle a line, on one common scale.
type Dots struct {
	Title, Desc string
	Axis        string
	Log         bool // logarithmic scale, for odds ratios
	// Reference is where a line is drawn to compare with: 1 for odds ratios,
	// 0 for differences, the overall rate for rates; unknown for none.
	Reference Cell
	Rows      []Dot
}

// A Dot is one row of [Dots]. The cells are all of one kind, KindRate,
// KindChange or KindNumber; Low and High may be unknown.
type Dot struct {
	Label            string
	Low, Point, High Cell
}

// A Chart is a control chart of shares in time: is a change more than chance?
type Chart struct {
	Title, Desc string
	Axis        string
	Centre      float64 // fraction
	Points      []Sample
}

// A Sample is one point of a [Chart] with its own limits; all are fractions.
type Sample struct {
	Label               string // such as an ISO date or a week
	Share, Lower, Upper float64
	Signal              bool // the point breaks a rule of the chart
}

// A Tornado shows how far an outcome moves when one assumption at a time does.
type Tornado struct {
	Title, Desc string
	Axis        string
	Base        Cell
	Swings      []Swing // the widest first
}

// A Swing is one assumption: the outcome at its low and at its high end.
type Swing struct {
	Label         string
	LowAt, HighAt string // what the ends are, such as "take 62 %"; may be empty
	Low, High     Cell   // of the kind of the tornado's Base
}

// Bars shows amounts by length.
type Bars struct {
	Title, Desc string
	Axis        string
	Rows        []Bar
}

// A Bar is one row of [Bars].
type Bar struct {
	Label string
	Value Cell // a number of any kind, not below zero
}

// A Graph shows what came from what, in steps from left to right. It has no
// drawing of letters: give an [Outline] beside it.
type Graph struct {
	Title, Desc string
	Nodes       []Node
	Edges       []Edge
	Lines       []string // the kinds of step, which the key names in this order
}

// A Node is one box of a [Graph].
type Node struct {
	Label   string
	Detail  string // said below the label, less loudly; may be empty
	Focus   bool   // what the graph is about
	Outside bool   // not of the nursery, such as a supplier
}

// An Edge is one step of a [Graph], by the indices of its nodes and of its kind.
type Edge struct{ From, To, Line int }

// Labels is a sheet of labels to print and cut apart, all alike. It has no
// drawing of letters: give its lines as [Facts] beside it.
type Labels struct {
	Title, Desc string
	Heading     string
	Lines       []string
	Code        string // what the QR code on each label says
	Count       int    // from 1 to [LabelsOnASheet]
	Foot        string // below the sheet
}

func (Curve) block()   {}
func (Dots) block()    {}
func (Chart) block()   {}
func (Tornado) block() {}
func (Bars) block()    {}
func (Graph) block()   {}
func (Labels) block()  {}

func (p Curve) caption() (title, desc string)   { return p.Title, p.Desc }
func (p Dots) caption() (title, desc string)    { return p.Title, p.Desc }
func (p Chart) caption() (title, desc string)   { return p.Title, p.Desc }
func (p Tornado) caption() (title, desc string) { return p.Title, p.Desc }
func (p Bars) caption() (title, desc string)    { return p.Title, p.Desc }
func (p Graph) caption() (title, desc string)   { return p.Title, p.Desc }
func (p Labels) caption() (title, desc string)  { return p.Title, p.Desc }

// wide reports whether a plot is drawn as large as it is, and not as there is
// room; such a plot has no drawing of letters.
func wide(p Block) bool {
	switch p.(type) {
	case Graph, Labels:
		return true
	}
	return false
}
