package report

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/cost"
	"github.com/budstick/budstick/report/table"
)

var salesExport = &Export{
	Name: "sales", Summary: "what was sold or given, and what came back: to whom, how much, for how much", Key: []string{"entry"},
	columns: []exportColumn{
		{"entry", table.KindText, "the entry"},
		{"dated", table.KindDate, "the day it counts"},
		{"happened", table.KindDate, "the day it happened"},
		{"how", table.KindText, "sold, given or returned"},
		{"party", table.KindText, "to whom, or from whom"},
		{"what", table.KindText, "the lot, tree, limb or bundle"},
		{"noun", table.KindText, "plants, fruit, scions …"},
		{"state", table.KindText, "of plants: living, failed …; unknown for what is dead"},
		{"pieces", table.KindCount, "how many, where they were counted"},
		{"quantity", table.KindQuantity, "how much, where it was weighed"},
		{"unit", table.KindText, "of the quantity"},
		{"price", table.KindQuantity, "for each, or per price_unit; the declared one where none is written"},
		{"price_unit", table.KindText, "what the price is per; unknown for each"},
		{"price_from", table.KindText, "entry, where the price or the total is written on it, or list, where it is declared; unknown where there is none"},
		{"total", table.KindQuantity, "in all, where that was written; of what came back, what was given back"},
		{"currency_code", table.KindText, "ISO 4217; unknown for the farm's own"},
		{"paper", table.KindText, "invoice or delivery note"},
	},
	rows: func(n *nursery.Nursery, yield func([]table.Cell)) {
		left := leftBy(n)
		for _, e := range n.Entries {
			switch f := e.Effect.(type) {
			case *fact.Leave:
				if f.How == fact.Sold || f.How == fact.Given {
					yield(saleCells(n, e, f, left[e]))
				}
			case *fact.Return:
				state := table.Text(f.State.String())
				if f.Dead {
					state = table.Unknown()
				}
				yield([]table.Cell{
					table.Text(entryID(e)), dateOrUnknown(e.Date), dateOrUnknown(e.Day()), table.Text(fact.Returned.String()), partyCell(n, f.From),
					thingCell(n, f.Of), table.Text(fact.Plants.String()), state, table.Count(f.Count.N), {}, {}, {}, {}, {},
					quantityCell(f.Total.Given, f.Total.Amount), textOrUnknown(f.Total.Currency), {},
				})
			}
		}
	},
}

// leftBy is how many plants, or parts of a bundle, each entry took out.
func leftBy(n *nursery.Nursery) map[*fact.Entry]int32 {
	left := map[*fact.Entry]int32{}
	for i := range n.Moves {
		if m := &n.Moves[i]; m.To == nil {
			left[m.Entry] += m.N
		}
	}
	for i := range n.Uses {
		left[n.Uses[i].Entry] += n.Uses[i].N
	}
	return left
}

func saleCells(n *nursery.Nursery, e *fact.Entry, f *fact.Leave, left int32) []table.Cell {
	pieces, state := table.Unknown(), table.Unknown()
	thing, _ := n.Thing(f.Of.Text)
	_, isTree := thing.(*nursery.Tree)
	switch {
	case f.Count.Given:
		pieces = table.Count(f.Count.N)
	case left > 0:
		pieces = table.Count(left)
	case isTree && !f.Quantity.Given:
		pieces = table.Count(1)
	}
	if _, isLot := thing.(*nursery.Lot); isLot && f.Noun == fact.Plants {
		state = table.Text(f.State.String())
		if f.State == fact.AnyState {
			state = table.Text(fact.Living.String())
		}
	}
	price, from := priceOf(n, e, f)
	return []table.Cell{
		table.Text(entryID(e)), dateOrUnknown(e.Date), dateOrUnknown(e.Day()), table.Text(f.How.String()), partyCell(n, f.To), thingCell(n, f.Of),
		table.Text(f.Noun.String()), state, pieces, quantityCell(f.Quantity.Given, f.Quantity.Value), textOrUnknown(string(f.Quantity.Unit)),
		quantityCell(price.Each.Given, price.Each.Amount), textOrUnknown(string(price.Per)), from,
		quantityCell(price.Total.Given, price.Total.Amount), textOrUnknown(price.Each.Currency + price.Total.Currency), textOrUnknown(f.Paper.Text),
	}
}

// priceOf is what was asked for a sale, and where that stands.
func priceOf(n *nursery.Nursery, e *fact.Entry, f *fact.Leave) (fact.Price, table.Cell) {
	if f.Price.Each.Given || f.Price.Total.Given {
		return f.Price, table.Text("entry")
	}
	if f.How == fact.Sold {
		if q, ok := n.Listed(e, f, f.State); ok {
			return fact.Price{Each: q.Each, Per: q.Per}, table.Text("list")
		}
	}
	return fact.Price{}, table.Unknown()
}

// partyCell is a party by the name it was first called by.
func partyCell(n *nursery.Nursery, name fact.Name) table.Cell {
	if p, ok := n.Party(name.Text); ok {
		return table.Text(p.Name)
	}
	return textOrUnknown(name.Text)
}

// thingCell is a thing by the name it was first called by.
func thingCell(n *nursery.Nursery, name fact.Name) table.Cell {
	if t, ok := n.Thing(name.Text); ok {
		return table.Text(t.Label())
	}
	return textOrUnknown(name.Text)
}

func quantityCell(given bool, d fact.Decimal) table.Cell {
	if !given {
		return table.Unknown()
	}
	return table.Quantity(d.String())
}

var costsExport = &Export{
	Name: "costs", Summary: "money paid out and time worked, as it was written", Key: []string{"entry", "item"},
	columns: []exportColumn{
		{"entry", table.KindText, "the entry"},
		{"item", table.KindCount, "counts up within the entry"},
		{"dated", table.KindDate, "the day it counts"},
		{"kind", table.KindText, "bought (plants, wood or seed), spent, cost (beside what the entry is about) or worked"},
		{"label", table.KindText, "what it was spent on, the task, or what was done"},
		{"of_what", table.KindText, "the lots, trees or bundles that it is for, joined by +; unknown for what is for all"},
		{"party", table.KindText, "whom it went to"},
		{"amount", table.KindQuantity, "money; unknown for time"},
		{"currency_code", table.KindText, "ISO 4217; unknown for the farm's own"},
		{"worker", table.KindText, "who worked"},
		{"minutes", table.KindQuantity, "for how long; unknown where it was not written"},
		{"lasts", table.KindQuantity, "for how long the thing serves, where it is more than once"},
		{"lasts_unit", table.KindText, "days, weeks, months or years"},
	},
	rows: func(n *nursery.Nursery, yield func([]table.Cell)) {
		for _, e := range n.Entries {
			costRows(n, e, yield)
		}
	},
}

// costRows are the costs of one entry.
func costRows(n *nursery.Nursery, e *fact.Entry, yield func([]table.Cell)) {
	item := 0
	label, things := costAbout(n, e)
	add := func(kind string, party table.Cell, m fact.Money, worker, minutes, lasts, unit table.Cell) {
		item++
		yield([]table.Cell{
			table.Text(entryID(e)), table.Count(item), dateOrUnknown(e.Date), table.Text(kind), textOrUnknown(label), textOrUnknown(things), party,
			quantityCell(m.Given, m.Amount), textOrUnknown(m.Currency), worker, minutes, lasts, unit,
		})
	}
	none := table.Unknown()
	switch f := e.Effect.(type) {
	case *fact.Spend:
		add("spent", partyCell(n, f.From), f.Amount, none, none, quantityCell(f.Over.Given, f.Over.Value), textOrUnknown(string(f.Over.Unit)))
	case *fact.Begin:
		if f.Total.Given {
			party := none
			if len(f.From) > 0 {
				party = partyCell(n, f.From[0])
			}
			add("bought", party, f.Total, none, none, none, none)
		}
	}
	for _, m := range e.Costs() {
		add("cost", none, m, none, none, none, none)
	}
	for _, w := range e.Workers() {
		name := table.Text(w.Worker.Text)
		if known, ok := n.Worker(w.Worker.Text); ok {
			name = table.Text(known.Name)
		}
		add("worked", none, fact.Money{}, name, quantityCell(w.Timed, w.Minutes), none, none)
	}
}

// costAbout is what the costs of an entry are for: the grower's word, and the
// things that bear them.
func costAbout(n *nursery.Nursery, e *fact.Entry) (label, things string) {
	var names []string
	for _, name := range cost.Named(e) {
		if t, ok := n.Thing(name.Text); ok {
			names = append(names, t.Label())
		}
	}
	return labelOfCost(e), joined(names)
}

var wagesExport = &Export{
	Name: "wages", Summary: "what workers are paid, from a day on", Key: []string{"entry"},
	columns: []exportColumn{
		{"entry", table.KindText, "the entry that declares it"},
		{"dated", table.KindDate, "the day from which it holds; unknown for what stands above the first day"},
		{"worker", table.KindText, "who"},
		{"amount", table.KindQuantity, "money"},
		{"currency_code", table.KindText, "ISO 4217; unknown for the farm's own"},
		{"per", table.KindText, "h or days"},
	},
	rows: func(n *nursery.Nursery, yield func([]table.Cell)) {
		for _, w := range n.Workers {
			for _, e := range w.Wages {
				f := e.Effect.(*fact.Worker)
				yield([]table.Cell{
					table.Text(entryID(e)), dateOrUnknown(e.Date), table.Text(w.Name), quantityCell(f.Wage.Given, f.Wage.Amount),
					textOrUnknown(f.Wage.Currency), textOrUnknown(string(f.Per)),
				})
			}
		}
	},
}
