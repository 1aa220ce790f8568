package report

import (
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/cost"
	"github.com/budstick/budstick/report/money"
	"github.com/budstick/budstick/report/table"
)

var accountant = &Report{
	Name:    "accountant",
	Summary: "sales, costs, payments and stock as lists, for the accountant",
	Long: `Every sale, every cost and every payment of the time, line by line, with its day, its paper, its money as it was written
and in the farm's own, and what stands at the end at cost. Each list is a table of its own: --as csv --part sales, costs,
hours, payments, stock or things. Hours are listed apart from what was paid, since a wage may not have been.

The lists follow the journal and no law. What of it is income, expense or stock, and when, your accountant knows.`,
	Example: "--season 2026 --as csv --part sales",
	Takes:   Spans,
	Build:   buildAccountant,
}

func buildAccountant(n *nursery.Nursery, o Options) (*table.Doc, error) {
	a := &accounts{n: n, options: o, sales: salesTable(), costs: costsTable(), hours: hoursTable(), payments: paymentsTable()}
	book, err := cost.Ready(n).Follow(cost.Terms{AsAt: o.AsAt, Until: o.Period().Last}, a.take)
	if err != nil {
		return nil, err
	}
	a.book = book
	doc := calendar(n, o, "accountant", "For the accountant")
	doc.Cautions = []string{accountantCaution}
	a.write()
	doc.Body = []table.Block{a.sales, a.costs, a.hours, a.payments, a.stock(), (&profitDoc{earnings: &earnings{n: n, options: o, book: book}}).things()}
	doc.Notes = []string{
		"Days and papers are as they were written. Money in another currency is in the farm's own by the rate in force on its day.",
	}
	if unpriced := book.Doubts.Unpriced; len(unpriced) > 0 {
		doc.Notes = append(doc.Notes, "Sales without a price are listed at nothing: "+linesOf(unpriced)+".")
	}
	return doc, nil
}

// accounts are the lists. Flows are kept until the currency is known.
type accounts struct {
	n                             *nursery.Nursery
	options                       Options
	book                          *cost.Book
	flows                         []cost.Flow
	sales, costs, hours, payments table.Table
}

func (a *accounts) take(f *cost.Flow) {
	switch f.Kind {
	case cost.Sold, cost.Returned, cost.Out, cost.In:
		if f.Day >= a.options.Period().First {
			a.flows = append(a.flows, *f)
		}
	}
}

func (a *accounts) write() {
	for i := range a.flows {
		switch f := &a.flows[i]; f.Kind {
		case cost.In:
			a.payments.Add(append([]table.Cell{day(f), textOrUnknown(customerOf(a.n, f)), textOrUnknown(paperOf(f.Entry))}, a.amount(f, f.Revenue)...)...)
		case cost.Out:
			a.cost(f)
		default:
			a.sale(f)
		}
	}
}

func day(f *cost.Flow) table.Cell { return table.Date(f.Day.String()) }

// amount is money in the farm's own and as it was written.
func (a *accounts) amount(f *cost.Flow, own money.Amount) []table.Cell {
	written, in := table.Unknown(), table.Unknown()
	if f.Written.Currency != "" {
		places, _ := fact.MinorUnit(f.Written.Currency)
		written, in = table.Quantity(f.Written.Amount.Fixed(places)), table.Text(f.Written.Currency)
	}
	return []table.Cell{table.Money(own.Fixed(a.book.Places), a.book.Currency), written, in}
}

var amountColumns = []table.Column{
	{Name: "amount", Kind: table.KindMoney},
	{Name: "written", Heading: "as written", Kind: table.KindQuantity, Spare: 2},
	{Name: "written_in", Heading: "in", Kind: table.KindText, Spare: 2},
}

func salesTable() table.Table {
	return table.Table{Name: "sales", Title: "Sales", Columns: append([]table.Column{
		{Name: "date", Kind: table.KindDate},
		{Name: "paper", Kind: table.KindText, Spare: 1},
		{Name: "customer", Kind: table.KindText},
		{Name: "enterprise", Kind: table.KindText, Spare: 3},
		{Name: "what", Kind: table.KindText},
		{Name: "variety", Kind: table.KindText, Spare: 4},
		{Name: "number", Kind: table.KindCount},
		{Name: "kg", Kind: table.KindQuantity, Unit: "kg", Spare: 3},
	}, amountColumns...)}
}

// sale lists a sale, or below nought what was given back.
func (a *accounts) sale(f *cost.Flow) {
	number, kg := table.Count(f.N), table.Unknown()
	if f.Kind == cost.Returned {
		number = table.Count(-f.N)
	}
	what := labelOf(f.Thing)
	if m, ok := f.Entry.Effect.(*fact.Leave); ok {
		what = m.Of.Text
		if m.Quantity.Given {
			number, kg = table.Unknown(), table.Quantity(kilograms(m.Quantity).String())
		}
	}
	cells := []table.Cell{
		day(f), textOrUnknown(paperOf(f.Entry)), textOrUnknown(customerOf(a.n, f)), table.Text(f.Enterprise.String()),
		table.Text(what), textOrUnknown(varietyOfFlow(a.n, f)), number, kg,
	}
	a.sales.Add(append(cells, a.amount(f, f.Revenue)...)...)
}

func costsTable() table.Table {
	return table.Table{Name: "costs", Title: "Costs", Columns: append([]table.Column{
		{Name: "date", Kind: table.KindDate},
		{Name: "what", Kind: table.KindText},
		{Name: "supplier", Kind: table.KindText, Spare: 1},
		{Name: "for", Kind: table.KindText, Spare: 3},
		{Name: "serves_until", Kind: table.KindDate, Spare: 4},
	}, amountColumns...)}
}

func hoursTable() table.Table {
	return table.Table{Name: "hours", Title: "Hours", Columns: []table.Column{
		{Name: "date", Kind: table.KindDate},
		{Name: "what", Kind: table.KindText},
		{Name: "worker", Kind: table.KindText},
		{Name: "for", Kind: table.KindText, Spare: 1},
		{Name: "hours", Kind: table.KindQuantity, Unit: "h"},
		{Name: "amount", Heading: "at the wage", Kind: table.KindMoney},
	}}
}

// cost lists what an entry cost: what was paid, and the hours apart.
func (a *accounts) cost(f *cost.Flow) {
	e := f.Entry
	if paid := f.Load[cost.Bought].Add(f.Load[cost.Material]); paid != (money.Amount{}) {
		until := table.Unknown()
		for _, t := range a.book.Things {
			if t.Entry == e {
				until = table.Date(t.Ends.String())
			}
		}
		a.costs.Add(append([]table.Cell{day(f), table.Text(a.whatFor(e)), textOrUnknown(supplierOf(e, a.n)), textOrUnknown(namesOf(e)), until}, a.amount(f, paid)...)...)
	}
	if hours := f.Load[cost.Hours]; hours != (money.Amount{}) {
		a.hours.Add(day(f), table.Text(a.whatFor(e)), table.Text(nursery.Crew(e)), textOrUnknown(namesOf(e)),
			table.Quantity(hours.Fixed(2)), table.Money(f.Load[cost.Labour].Fixed(a.book.Places), a.book.Currency))
	}
}

// whatFor is what an entry's cost is for: the grower's word, or what was bought.
func (a *accounts) whatFor(e *fact.Entry) string {
	if b, ok := e.Effect.(*fact.Begin); ok && b.How == fact.Bought {
		return b.Noun.String() + " of " + b.Of.Text
	}
	return labelOfCost(e)
}

func supplierOf(e *fact.Entry, n *nursery.Nursery) string {
	name := ""
	switch m := e.Effect.(type) {
	case *fact.Spend:
		name = m.From.Text
	case *fact.Begin:
		if len(m.From) > 0 {
			name = m.From[0].Text
		}
	}
	if p, ok := n.Party(name); ok {
		return p.Name
	}
	return name
}

// namesOf are the lots and trees that an entry names or makes.
func namesOf(e *fact.Entry) string {
	var names []string
	for _, name := range cost.Named(e) {
		names = append(names, name.Text)
	}
	return strings.Join(names, ", ")
}

func paymentsTable() table.Table {
	return table.Table{Name: "payments", Title: "Payments of customers", Columns: append([]table.Column{
		{Name: "date", Kind: table.KindDate},
		{Name: "customer", Kind: table.KindText},
		{Name: "paper", Kind: table.KindText, Spare: 1},
	}, amountColumns...)}
}

// stock is what stands at the end, at cost. The figures add up to the cent.
func (a *accounts) stock() table.Table {
	t := table.Table{Name: "stock", Title: "Stock at the end, at cost", Columns: []table.Column{
		{Name: "what", Kind: table.KindText},
		{Name: "variety", Kind: table.KindText},
		{Name: "number", Kind: table.KindCount},
		{Name: "cost", Kind: table.KindMoney},
		{Name: "each", Kind: table.KindMoney, Spare: 1},
	}}
	parts := make([]money.Amount, len(a.book.Standing))
	for i, s := range a.book.Standing {
		parts[i] = s.Load.Cost()
	}
	rounded := money.RoundParts(parts, a.book.Places)
	for i, s := range a.book.Standing {
		var thing nursery.Thing = s.Lot
		if s.Bundle != nil {
			thing = s.Bundle
		}
		each := table.Unknown()
		if s.N > 0 {
			each = table.Money(parts[i].MulFrac(1, s.N).Fixed(a.book.Places), a.book.Currency)
		}
		t.Add(table.Text(thing.Label()), table.Text(varietyOfFlow(a.n, &cost.Flow{Thing: thing})), table.Count(s.N),
			table.Money(rounded[i].Fixed(a.book.Places), a.book.Currency), each)
	}
	return t
}
