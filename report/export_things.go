package report

import (
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

var entriesExport = &Export{
	Name: "entries", Summary: "every entry that counts", Key: []string{"entry"},
	columns: []exportColumn{
		{"entry", table.KindText, "file and line"},
		{"dated", table.KindDate, "the day it is written under; unknown for what stands above the first day"},
		{"happened", table.KindDate, "the day it happened"},
		{"verb", table.KindText, "the word it begins with"},
		{"place", table.KindText, "the place it names"},
		{"workers", table.KindText, "who did it, joined by +"},
		{"minutes", table.KindQuantity, "the time it took them, added up"},
		{"wording", table.KindText, "as it was written, up to 4,000 characters"},
	},
	rows: func(n *nursery.Nursery, yield func([]table.Cell)) {
		for _, e := range n.Entries {
			yield([]table.Cell{
				table.Text(entryID(e)), dateOrUnknown(e.Date), dateOrUnknown(e.Day()), table.Text(e.Verb),
				textOrUnknown(e.At().Text), textOrUnknown(nursery.Crew(e)), minutesOf(e), table.Text(upTo(e.File.Text(e.Span), longestText)),
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

// longestText is how many characters of a text fit into a column.
const longestText = 4000

// upTo cuts a text after so many characters.
func upTo(s string, most int) string {
	seen := 0
	for i := range s {
		if seen++; seen > most {
			return s[:i]
		}
	}
	return s
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
