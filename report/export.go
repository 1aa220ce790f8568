package report

import (
	"strconv"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

// An Export is one tidy table of facts, for a database that many journals are
// poured into: one row a thing, one column a fact, and the farm's name in each
// row. Facts are exported, never figures that can be worked out from them.
type Export struct {
	Name    string // of the table
	Summary string
	Key     []string // the columns that tell rows apart
	columns []exportColumn
	rows    func(n *nursery.Nursery, yield func([]table.Cell))
}

type exportColumn struct {
	name string
	kind table.Kind
	what string // for the documentation of the schema
}

// Table makes the table from a journal.
func (x *Export) Table(n *nursery.Nursery) table.Table {
	t := table.Table{Name: x.Name, Columns: x.Columns()}
	farm := table.Text(farmName(n))
	x.rows(n, func(cells []table.Cell) { t.Rows = append(t.Rows, append([]table.Cell{farm}, cells...)) })
	return t
}

// Columns are those of the table, the farm's name first.
func (x *Export) Columns() []table.Column {
	cols := []table.Column{{Name: "farm", Kind: table.KindText}}
	for _, c := range x.columns {
		cols = append(cols, table.Column{Name: c.name, Kind: c.kind})
	}
	return cols
}

// Describe gives a column's meaning, for the documentation of the schema.
func (x *Export) Describe(column string) string {
	if column == "farm" {
		return "the farm's name, or empty"
	}
	for _, c := range x.columns {
		if c.name == column {
			return c.what
		}
	}
	return ""
}

func farmName(n *nursery.Nursery) string {
	if n.Farm == nil {
		return ""
	}
	return n.Farm.Name.Text
}

// entryID tells entries apart within a farm: the file and the line.
func entryID(e *fact.Entry) string { return e.File.Path + ":" + strconv.Itoa(int(e.Line)) }

// Exports lists the tables, those that others refer to first.
var Exports = []*Export{entriesExport, lotsExport, treesExport, attemptsExport, movesExport, salesExport, descentExport}

var entriesExport = &Export{
	Name: "entries", Summary: "every entry that counts", Key: []string{"entry"},
	columns: []exportColumn{
		{"entry", table.KindText, "file and line"},
		{"date", table.KindDate, "the day it is written under; unknown for what stands above the first day"},
		{"happened", table.KindDate, "the day it happened"},
		{"verb", table.KindText, "the word it begins with"},
		{"place", table.KindText, "the place it names"},
		{"workers", table.KindText, "who did it, joined by +"},
		{"minutes", table.KindQuantity, "the time it took them, added up"},
		{"text", table.KindText, "as it was written"},
	},
	rows: func(n *nursery.Nursery, yield func([]table.Cell)) {
		for _, e := range n.Entries {
			yield([]table.Cell{
				table.Text(entryID(e)), dateOrUnknown(e.Date), dateOrUnknown(e.Day()), table.Text(e.Verb),
				textOrUnknown(e.At().Text), textOrUnknown(nursery.Crew(e)), minutesOf(e), table.Text(e.File.Text(e.Span)),
			})
		}
	},
}

func dateOrUnknown(d fact.Date) table.Cell {
	if d == 0 {
		return table.Unknown()
	}
	return table.Date(d.String())
}

// minutesOf adds up the time on an entry; decimals of a minute stay exact.
func minutesOf(e *fact.Entry) table.Cell {
	total, timed := fact.Decimal{}, false
	for _, w := range e.Workers() {
		if w.Timed {
			total, timed = total.Plus(w.Minutes), true
		}
	}
	if !timed {
		return table.Unknown()
	}
	return table.Quantity(total.String())
}

var lotsExport = &Export{
	Name: "lots", Summary: "every lot, with where its plants are now", Key: []string{"lot"},
	columns: append([]exportColumn{
		{"lot", table.KindText, "its name"},
		{"entry", table.KindText, "the entry that made it"},
		{"began", table.KindDate, "the day from which its age counts"},
		{"how", table.KindText, "how it began: sown, stuck, bought, layered, grafted, severed, released, split off, potted, moved, joined, returned"},
		{"variety", table.KindText, "of the top"},
		{"seedling", table.KindCount, "1 where it is a seedling of that variety, else 0"},
		{"species", table.KindText, "botanical name"},
		{"stock", table.KindText, "what the roots are; unknown on own roots"},
		{"limbs", table.KindCount, "1 where it is limbs of a standing tree, which are no plants, else 0"},
		{"place", table.KindText, "where it stands"},
		{"pot", table.KindText, "what it stands in"},
		{"entered", table.KindCount, "plants that came in: the sum of all columns that follow"},
	}, ledgerColumns()...),
	rows: func(n *nursery.Nursery, yield func([]table.Cell)) {
		for _, l := range n.Lots {
			on := table.Unknown()
			if l.Grafted() {
				on = table.Text(l.Stock().String())
			}
			cells := []table.Cell{
				table.Text(l.Name), table.Text(entryID(l.Made)), dateOrUnknown(l.Day), table.Text(l.How.String()), varietyCell(l.Top),
				bit(l.Top.Seedling), textOrUnknown(l.Top.Species()), on, bit(l.Limbs), textOrUnknown(placeName(l.Place)), textOrUnknown(l.Pot.String()),
				table.Count(l.Entered),
			}
			for s := fact.Waiting; s < fact.States; s++ {
				cells = append(cells, table.Count(l.On[s]))
			}
			for _, how := range exits {
				cells = append(cells, table.Count(l.Out[how]))
			}
			yield(append(cells, table.Count(l.Gone), table.Count(l.Unexplained)))
		}
	},
}

// exits are the ways out of a lot in the order of the sum.
var exits = []fact.How{fact.Sold, fact.Given, fact.Lost, fact.Culled, fact.PlantedOut, fact.Worked}

func ledgerColumns() []exportColumn {
	var cols []exportColumn
	for s := fact.Waiting; s < fact.States; s++ {
		cols = append(cols, exportColumn{s.String(), table.KindCount, "on hand, " + s.String()})
	}
	for _, how := range exits {
		cols = append(cols, exportColumn{strings.ReplaceAll(how.String(), " ", "_"), table.KindCount, how.String()})
	}
	return append(cols,
		exportColumn{"gone_to_lots", table.KindCount, "passed on to other lots"},
		exportColumn{"unexplained", table.KindCount, "missing at stocktakes (over: below zero)"})
}

func varietyCell(id nursery.Identity) table.Cell {
	if id.Variety == nil {
		return table.Unknown()
	}
	return table.Text(id.Variety.Name)
}

func bit(b bool) table.Cell {
	if b {
		return table.Count(1)
	}
	return table.Count(0)
}

var treesExport = &Export{
	Name: "trees", Summary: "every plant that is followed on its own", Key: []string{"tree"},
	columns: []exportColumn{
		{"tree", table.KindText, "its name"},
		{"entry", table.KindText, "the entry that declared or planted it"},
		{"variety", table.KindText, "of its own top"},
		{"seedling", table.KindCount, "1 where it is a seedling of that variety, else 0"},
		{"stock", table.KindText, "what its roots are; unknown on own roots"},
		{"planted_from", table.KindDate, "planted on this day or later"},
		{"planted_to", table.KindDate, "planted on this day or earlier"},
		{"place", table.KindText, "where it stands or stood"},
		{"gone", table.KindText, "sold, given, lost or culled; unknown while it stands"},
		{"gone_on", table.KindDate, "when"},
	},
	rows: func(n *nursery.Nursery, yield func([]table.Cell)) {
		for _, t := range n.Trees {
			stock, gone := table.Unknown(), table.Unknown()
			if len(t.On) > 0 {
				stock = table.Text(t.On[len(t.On)-1].String())
			}
			if t.Gone != 0 {
				gone = table.Text(t.Gone.String())
			}
			yield([]table.Cell{
				table.Text(t.Name), table.Text(entryID(t.Made)), varietyCell(t.Identity()), bit(t.Seedling), stock,
				dateOrUnknown(t.Planted.First), dateOrUnknown(t.Planted.Last), textOrUnknown(placeName(t.Place)), gone, dateOrUnknown(t.GoneDay),
			})
		}
	},
}

var attemptsExport = &Export{
	Name: "attempts", Summary: "stocks worked, layers set, cuttings stuck and seeds sown, with what became of them", Key: []string{"entry"},
	columns: []exportColumn{
		{"entry", table.KindText, "the entry that made them"},
		{"lot", table.KindText, "the lot that it made"},
		{"kind", table.KindText, "graft, layer, cutting or seed"},
		{"day", table.KindDate, "when"},
		{"season", table.KindCount, "the year that names the season"},
		{"variety", table.KindText, "of the top"},
		{"seedling", table.KindCount, "1 where it is a seedling of that variety, else 0"},
		{"stock", table.KindText, "what was worked, of grafts"},
		{"mother", table.KindText, "the tree the wood came from; several joined by +"},
		{"method", table.KindText, "of grafting"},
		{"worker", table.KindText, "who; several joined by +"},
		{"place", table.KindText, "where"},
		{"ordinal", table.KindCount, "1 for the first attempt on a stock"},
		{"limbs", table.KindCount, "1 where limbs of a standing tree were worked, else 0"},
		{"made", table.KindCount, "attempts: the sum of took, failed, went and waiting"},
		{"took", table.KindCount, "took, rooted or came up"},
		{"failed", table.KindCount, "failed, the dead among them"},
		{"dead", table.KindCount, "of the failed: the stock, layer or cutting died too"},
		{"went", table.KindCount, "left while waiting"},
		{"waiting", table.KindCount, "not known yet"},
		{"late", table.KindCount, "of those that took: failed later"},
		{"plants", table.KindCount, "of seed: plants that came up"},
	},
	rows: func(n *nursery.Nursery, yield func([]table.Cell)) {
		for _, b := range n.Batches {
			stock := table.Unknown()
			if b.Kind == nursery.GraftBatch {
				stock = table.Text(b.Stock.String())
			}
			method := table.Unknown()
			if b.Method != nil {
				method = table.Text(b.Method.Name)
			}
			yield([]table.Cell{
				table.Text(entryID(b.Entry)), table.Text(b.Lot.Name), table.Text(b.Kind.String()), dateOrUnknown(b.Day),
				table.Count(fact.SeasonOf(b.Day, n.SeasonFrom()).Year()), varietyCell(b.Top), bit(b.Top.Seedling), stock,
				textOrUnknown(motherOf(n, b)), method, textOrUnknown(b.Crew()), textOrUnknown(placeOf(n, b)),
				table.Count(b.Ordinal), bit(b.Limbs), table.Count(b.Made), table.Count(b.Took), table.Count(b.Failed), table.Count(b.Dead),
				table.Count(b.Left), table.Count(b.Waiting()), table.Count(b.Late), table.Count(b.Plants),
			})
		}
	},
}

var movesExport = &Export{
	Name: "moves", Summary: "plants changing state, lot or owner: added up in order they give every count", Key: []string{"move"},
	columns: []exportColumn{
		{"move", table.KindCount, "counts up"},
		{"entry", table.KindText, "by which entry"},
		{"date", table.KindDate, "the day it counts"},
		{"happened", table.KindDate, "the day it happened"},
		{"how", table.KindText, "the act"},
		{"cause", table.KindText, "of a loss or a cull, where one is given"},
		{"lot_from", table.KindText, "out of this lot; unknown for what came in"},
		{"state_from", table.KindText, "out of this state"},
		{"lot_to", table.KindText, "into this lot; unknown for what went out"},
		{"state_to", table.KindText, "into this state"},
		{"plants", table.KindCount, "how many; below zero for what a stocktake found over"},
	},
	rows: func(n *nursery.Nursery, yield func([]table.Cell)) {
		for i := range n.Moves {
			m := &n.Moves[i]
			_, cause := lossOf(m)
			yield([]table.Cell{
				table.Count(i + 1), table.Text(entryID(m.Entry)), dateOrUnknown(m.Entry.Date), dateOrUnknown(m.Entry.Day()),
				table.Text(m.How.String()), textOrUnknown(cause),
				lotCell(m.From), textOrUnknown(m.FromState.String()), lotCell(m.To), textOrUnknown(m.ToState.String()), table.Count(m.N),
			})
		}
	},
}

func lotCell(l *nursery.Lot) table.Cell {
	if l == nil {
		return table.Unknown()
	}
	return table.Text(l.Name)
}

var salesExport = &Export{
	Name: "sales", Summary: "what was sold or given, to whom and for how much", Key: []string{"entry"},
	columns: []exportColumn{
		{"entry", table.KindText, "the entry"},
		{"date", table.KindDate, "the day it happened"},
		{"how", table.KindText, "sold or given"},
		{"party", table.KindText, "to whom"},
		{"what", table.KindText, "the lot, tree, limb or bundle"},
		{"noun", table.KindText, "plants, fruit, scions …"},
		{"count", table.KindCount, "how many, where they were counted"},
		{"quantity", table.KindQuantity, "how much, where it was weighed"},
		{"unit", table.KindText, "of the quantity"},
		{"price", table.KindQuantity, "for each, or per price_unit"},
		{"price_unit", table.KindText, "what the price is per; unknown for each"},
		{"total", table.KindQuantity, "in all, where that was written"},
		{"currency_code", table.KindText, "ISO 4217; unknown for the farm's own"},
		{"paper", table.KindText, "invoice or delivery note"},
	},
	rows: func(n *nursery.Nursery, yield func([]table.Cell)) {
		for _, e := range n.Entries {
			f, ok := e.Effect.(*fact.Leave)
			if !ok || f.How != fact.Sold && f.How != fact.Given {
				continue
			}
			count := table.Unknown()
			if f.Count.Given {
				count = table.Count(f.Count.N)
			}
			yield([]table.Cell{
				table.Text(entryID(e)), dateOrUnknown(e.Day()), table.Text(f.How.String()), textOrUnknown(f.To.Text), table.Text(f.Of.Text),
				table.Text(f.Noun.String()), count, quantityCell(f.Quantity.Given, f.Quantity.Value), textOrUnknown(string(f.Quantity.Unit)),
				quantityCell(f.Price.Each.Given, f.Price.Each.Amount), textOrUnknown(string(f.Price.Per)),
				quantityCell(f.Price.Total.Given, f.Price.Total.Amount), textOrUnknown(f.Price.Each.Currency + f.Price.Total.Currency), textOrUnknown(f.Paper.Text),
			})
		}
	},
}

func quantityCell(given bool, d fact.Decimal) table.Cell {
	if !given {
		return table.Unknown()
	}
	return table.Quantity(d.String())
}

var descentExport = &Export{
	Name: "descent", Summary: "what came from what, one row a step", Key: []string{"child", "parent", "step"},
	columns: []exportColumn{
		{"child", table.KindText, "the lot, tree, limb or bundle"},
		{"child_kind", table.KindText, "what that is"},
		{"parent", table.KindText, "what it came from"},
		{"parent_kind", table.KindText, "what that is; party for someone outside the farm"},
		{"step", table.KindText, "scion, interstock, stock, limb, layer, cutting, wood, same plants, seed, bought or new roots"},
		{"one_of", table.KindCount, "1 where each plant came from one of several such parents, else 0"},
		{"entry", table.KindText, "the entry that made the step"},
		{"plants", table.KindCount, "plants, scions or seeds; unknown where it was not counted"},
	},
	rows: func(n *nursery.Nursery, yield func([]table.Cell)) {
		for t := range n.All() {
			child := of(t)
			for _, link := range n.Parents(child.Source) {
				parent := subject{link.From}
				entry, plants := table.Unknown(), table.Unknown()
				if link.Entry != nil {
					entry = table.Text(entryID(link.Entry))
				}
				if link.Count > 0 {
					plants = table.Count(link.Count)
				}
				yield([]table.Cell{
					table.Text(child.Label()), table.Text(child.kind()), table.Text(parent.Label()), table.Text(parent.kind()),
					table.Text(link.Step.String()), bit(link.OneOf), entry, plants,
				})
			}
		}
	},
}
