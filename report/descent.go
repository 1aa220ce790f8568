package report

import (
	"fmt"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

// How much of a line of descent is drawn, if nobody asks for more. Its lists of
// things and steps are whole.
const (
	defaultDepth = 12  // steps
	mostThings   = 400 // things
)

// A descentDrawing draws what is reached from one subject. Each thing is drawn
// with what comes next to it in the place that is nearest to the subject, and
// elsewhere by its name alone; so a drawing grows with the things and not with
// the ways between them.
type descentDrawing struct {
	n       *nursery.Nursery
	reach   nursery.Reach
	up      bool // what the subject came from, not what came of it
	options Options
	notes   []string

	next  map[nursery.Source][]int // edges, by the end that is nearer to the subject
	home  map[nursery.Source]int   // the edge by which a source is drawn in full
	depth map[nursery.Source]int
	drawn map[nursery.Source]bool
}

// blocks are the drawing as an outline and as a graph, which says what it shows
// when it stands alone, and the lists for programs.
func (d *descentDrawing) blocks(root subject, title string) []table.Block {
	d.place(root)
	words := "Its line"
	if !d.up {
		words = "Its descent"
	}
	outline := table.Outline{Title: words, Roots: []table.Branch{d.branch(root, "")}}
	return []table.Block{outline, d.graph(root, title), d.nodes(), d.edges()}
}

// far is the end of an edge that is farther from the subject, and near the
// other.
func (d *descentDrawing) far(e nursery.Edge) nursery.Source {
	if d.up {
		return e.From
	}
	return e.To
}

func (d *descentDrawing) near(e nursery.Edge) nursery.Source {
	if d.up {
		return e.To
	}
	return e.From
}

// place decides what is drawn, and where. The edges come nearest first.
func (d *descentDrawing) place(root subject) {
	d.next, d.home = map[nursery.Source][]int{}, map[nursery.Source]int{root.Source: -1}
	d.depth, d.drawn = map[nursery.Source]int{}, map[nursery.Source]bool{root.Source: true}
	most := d.options.Depth
	if most == 0 {
		most = defaultDepth
	}
	for i, e := range d.reach.Edges {
		near, far := d.near(e), d.far(e)
		d.next[near] = append(d.next[near], i)
		if _, placed := d.home[far]; placed {
			continue
		}
		d.home[far], d.depth[far] = i, d.depth[near]+1
		if d.drawn[near] && d.depth[far] <= most && len(d.drawn) < mostThings {
			d.drawn[far] = true
		}
	}
	if hidden := len(d.reach.Sources) - len(d.drawn); hidden > 0 {
		d.notes = append(d.notes, fmt.Sprintf("%s left out of the drawing, which has %s and %d things at most; a greater depth draws more, and JSON lists all.",
			counted(hidden, "thing", "things"), counted(most, "step", "steps"), mostThings))
	}
}

// branch draws a source with what comes next to it.
func (d *descentDrawing) branch(s subject, lead string) table.Branch {
	b := table.Branch{Label: lead + s.Label(), Detail: s.describe()}
	if s.identity().Nucellar() {
		b.Marks = append(b.Marks, nucellarMark)
	}
	if d.up {
		if why := trailEnds(d.n, s); why != "" {
			b.Detail = commaed(b.Detail, why)
		}
	}
	for _, i := range d.next[s.Source] {
		e := d.reach.Edges[i]
		far := subject{d.far(e)}
		switch lead := d.stepWords(e) + " "; {
		case !d.drawn[far.Source]:
		case d.home[far.Source] == i:
			b.Branches = append(b.Branches, d.branch(far, lead))
		default:
			b.Branches = append(b.Branches, table.Branch{Label: lead + far.Label(), Detail: "(drawn elsewhere)"})
		}
	}
	return b
}

// stepWords say how the far end of an edge stands to the near one.
func (d *descentDrawing) stepWords(e nursery.Edge) string {
	words := stepUp[e.Step]
	if !d.up {
		words = stepDown[e.Step]
	}
	if e.OneOf {
		words += ", one of"
	}
	if e.Topless {
		words += ", its top gone"
	}
	return words + ":"
}

// What something is to that which came of it, and what came of something is to
// it.
var (
	stepUp = map[nursery.Step]string{
		nursery.Scion: "scion", nursery.Interstock: "interstock", nursery.StockOf: "stock", nursery.LimbOf: "limb of",
		nursery.LayerOf: "layered on", nursery.CuttingOf: "cuttings of", nursery.WoodOf: "wood of", nursery.Kept: "the same plants",
		nursery.Seedling: "seed of", nursery.BoughtFrom: "bought from", nursery.RootsFrom: "new roots", nursery.TopOn: "worked over",
		nursery.OfVariety: "variety", nursery.SportOf: "sport of", nursery.SeedParent: "seed parent", nursery.PollenParent: "pollen parent",
	}
	stepDown = map[nursery.Step]string{
		nursery.Scion: "scion on", nursery.Interstock: "interstock of", nursery.StockOf: "stock of", nursery.LimbOf: "limbs of it",
		nursery.LayerOf: "layers", nursery.CuttingOf: "cuttings", nursery.WoodOf: "wood", nursery.Kept: "the same plants",
		nursery.Seedling: "its seed", nursery.BoughtFrom: "brought", nursery.RootsFrom: "new roots of", nursery.TopOn: "a top of",
		nursery.OfVariety: "of this variety", nursery.SportOf: "sport", nursery.SeedParent: "seed parent of", nursery.PollenParent: "pollen parent of",
	}
)

// lineNames are the kinds of step as the graph tells them apart, and lineOf the kind
// of each step.
var (
	lineNames = []string{"scion line: a top made of it, or wood, or the same plants", "stock, interstock or new roots", "seed", "brought in, or of a variety"}
	lineOf    = map[nursery.Step]int{
		nursery.Interstock: 1, nursery.StockOf: 1, nursery.RootsFrom: 1, nursery.LimbOf: 1,
		nursery.Seedling: 2, nursery.SeedParent: 2, nursery.PollenParent: 2,
		nursery.BoughtFrom: 3, nursery.OfVariety: 3,
	}
)

// graph draws the same things as the outline, in layers.
func (d *descentDrawing) graph(root subject, title string) table.Graph {
	g := table.Graph{Title: title, Lines: lineNames,
		Desc: fmt.Sprintf("Each step leads from left to right, from what was to what came of it. %s is framed more heavily, and what is not of the nursery has a broken frame.", root.Label())}
	index := map[nursery.Source]int{}
	for _, source := range d.reach.Sources {
		if s := (subject{source}); d.drawn[source] {
			index[source] = len(g.Nodes)
			g.Nodes = append(g.Nodes, table.Node{Label: s.Label(), Detail: s.describe(), Focus: s == root, Outside: s.Thing == nil})
		}
	}
	for _, e := range d.reach.Edges {
		from, ok := index[e.From]
		to, ok2 := index[e.To]
		if ok && ok2 {
			g.Edges = append(g.Edges, table.Edge{From: from, To: to, Line: lineOf[e.Step]})
		}
	}
	return g
}

// nodes lists everything that is reached, for programs.
func (d *descentDrawing) nodes() table.Table {
	t := table.Table{Name: "nodes", Title: "Things", Columns: []table.Column{
		{Name: "id", Kind: table.KindText, For: table.Machines}, {Name: "kind", Kind: table.KindText, For: table.Machines},
		{Name: "label", Kind: table.KindText, For: table.Machines}, {Name: "date", Kind: table.KindText, For: table.Machines},
		{Name: "variety", Kind: table.KindText, For: table.Machines},
	}}
	for _, source := range d.reach.Sources {
		s := subject{source}
		t.Add(table.Text(s.id()), table.Text(s.kind()), table.Text(s.Label()), textOrUnknown(s.day()), textOrUnknown(s.called()))
	}
	return t
}

// oneOf marks a step from one of several sources, of which nobody can say which.
var oneOf = table.Mark{Name: "one_of", Note: "one of: each plant came from one of several such sources"}

// edges lists the steps between them, from what was to what came of it.
func (d *descentDrawing) edges() table.Table {
	t := table.Table{Name: "edges", Title: "Steps", Columns: []table.Column{
		{Name: "from", Kind: table.KindText, For: table.Machines}, {Name: "to", Kind: table.KindText, For: table.Machines},
		{Name: "how", Kind: table.KindText, For: table.Machines}, {Name: "date", Kind: table.KindDate, For: table.Machines},
		{Name: "count", Kind: table.KindCount, For: table.Machines}, {Name: "method", Kind: table.KindText, For: table.Machines},
		{Name: "worker", Kind: table.KindText, For: table.Machines},
	}}
	for _, e := range d.reach.Edges {
		date, count, by, who := table.Unknown(), table.Unknown(), "", ""
		if e.Entry != nil {
			date, by, who = dayCell(e.Entry.Day()), method(e.Entry), nursery.Crew(e.Entry)
		}
		if e.Count > 0 {
			count = table.Count(e.Count)
		}
		how := table.Text(e.Step.String())
		if e.OneOf {
			how = how.With(oneOf)
		}
		if e.Topless {
			how = how.With(toplessMark)
		}
		t.Add(table.Text(subject{e.From}.id()), table.Text(subject{e.To}.id()), how, date, count, textOrUnknown(by), textOrUnknown(who))
	}
	return t
}

var toplessMark = table.Mark{Name: "topless", Note: "its top had failed or was cut off: only what stood below came along"}

// dayCell is a day, or unknown.
func dayCell(d fact.Date) table.Cell {
	if d == 0 {
		return table.Unknown()
	}
	return table.Date(d.String())
}
