package report

import (
	"cmp"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/cost"
	"github.com/budstick/budstick/report/money"
	"github.com/budstick/budstick/report/table"
)

var owed = &Report{
	Name:    "owed",
	Summary: "what each customer bought, has paid and still owes, and by which paper",
	Long: `What was sold to each customer, less what was given back for plants that came back, and what has been paid. What is
still owed is only told of customers of whom a payment is written (paid 110.40 from Bob): of the others nobody can say
whether they paid at the stall.

Sales that name an invoice or delivery note (paper "note 14") are listed by it.`,
	Example: "--as-at 2026-09-30",
	Build:   buildOwed,
}

// debt is what a customer, or a paper of theirs, comes to.
type debt struct {
	customer, paper     string
	first, last, paidOn fact.Date
	sales               int
	bought, paid        money.Amount
	pays                bool // payments are written
}

func (d *debt) add(f *cost.Flow) {
	switch f.Kind {
	case cost.In:
		d.paid, d.paidOn, d.pays = d.paid.Add(f.Revenue), f.Day, true
	case cost.Sold:
		d.sales++
		fallthrough
	default:
		d.bought = d.bought.Add(f.Revenue)
		d.last = f.Day
		if d.first == 0 {
			d.first = f.Day
		}
	}
}

func buildOwed(n *nursery.Nursery, o Options) (*table.Doc, error) {
	type key struct{ customer, paper string }
	debts := map[key]*debt{}
	var order []*debt
	of := func(customer, paper string) *debt {
		k := key{customer, paper}
		if debts[k] == nil {
			debts[k] = &debt{customer: customer, paper: paper}
			order = append(order, debts[k])
		}
		return debts[k]
	}
	book, err := cost.Ready(n).Follow(cost.Terms{AsAt: o.AsAt}, func(f *cost.Flow) {
		if f.Kind != cost.Sold && f.Kind != cost.Returned && f.Kind != cost.In {
			return
		}
		customer := customerOf(n, f)
		of(customer, "").add(f)
		if paper := paperOf(f.Entry); paper != "" {
			of(customer, paper).add(f)
		}
	})
	if err != nil {
		return nil, err
	}
	slices.SortFunc(order, func(a, b *debt) int {
		return cmp.Or(orderOfValues(a.customer, b.customer), cmp.Compare(a.first, b.first), naturally(a.paper, b.paper))
	})
	doc := heading(n, o, "owed", "What customers owe", table.NoBasis)
	doc.Body = []table.Block{owedRows(order, book), owedPapers(order, book)}
	doc.Notes = owedNotes(order, book)
	return doc, nil
}

func paperOf(e *fact.Entry) string {
	switch m := e.Effect.(type) {
	case *fact.Leave:
		return m.Paper.Text
	case *fact.Paid:
		return m.Paper.Text
	}
	return ""
}

// owedCells are what was bought and paid, and what is left of it.
func owedCells(book *cost.Book, d *debt, pays bool) []table.Cell {
	cash := func(a money.Amount) table.Cell { return table.Money(a.Fixed(book.Places), book.Currency) }
	paid, owes := table.Unknown(), table.Unknown()
	if pays {
		paid, owes = cash(d.paid), cash(d.bought.Sub(d.paid))
	}
	return []table.Cell{cash(d.bought), paid, owes}
}

func owedRows(order []*debt, book *cost.Book) table.Table {
	t := table.Table{Name: "rows", Title: "By customer", Columns: []table.Column{
		{Name: "customer", Kind: table.KindText, Group: true},
		{Name: "sales", Kind: table.KindCount},
		{Name: "last_sale", Kind: table.KindDate, Spare: 1},
		{Name: "bought", Heading: "bought for", Kind: table.KindMoney},
		{Name: "paid", Kind: table.KindMoney},
		{Name: "owes", Kind: table.KindMoney},
		{Name: "last_paid", Kind: table.KindDate, Spare: 2},
	}}
	for _, d := range order {
		if d.paper != "" {
			continue
		}
		cells := append([]table.Cell{textOrUnknown(d.customer), table.Count(d.sales), dateOrUnknown(d.last)}, owedCells(book, d, d.pays)...)
		t.Rows = append(t.Rows, append(cells, dateOrUnknown(d.paidOn)))
	}
	return t
}

func owedPapers(order []*debt, book *cost.Book) table.Table {
	t := table.Table{Name: "papers", Title: "By paper", Columns: []table.Column{
		{Name: "paper", Kind: table.KindText, Group: true},
		{Name: "customer", Kind: table.KindText},
		{Name: "date", Kind: table.KindDate},
		{Name: "sales", Kind: table.KindCount, Spare: 1},
		{Name: "bought", Heading: "bought for", Kind: table.KindMoney},
		{Name: "paid", Kind: table.KindMoney},
		{Name: "owes", Heading: "open", Kind: table.KindMoney},
	}}
	pays := map[string]bool{}
	for _, d := range order {
		pays[d.customer] = pays[d.customer] || d.pays
	}
	for _, d := range order {
		if d.paper == "" {
			continue
		}
		cells := []table.Cell{table.Text(d.paper), textOrUnknown(d.customer), dateOrUnknown(d.first), table.Count(d.sales)}
		t.Rows = append(t.Rows, append(cells, owedCells(book, d, pays[d.customer])...))
	}
	slices.SortStableFunc(t.Rows, func(a, b []table.Cell) int {
		return cmp.Or(cmp.Compare(a[2].Plain(), b[2].Plain()), naturally(a[0].Plain(), b[0].Plain()))
	})
	return t
}

func owedNotes(order []*debt, book *cost.Book) []string {
	var notes []string
	if !slices.ContainsFunc(order, func(d *debt) bool { return d.pays }) {
		notes = append(notes, `No payment is written, so nobody can say who owes what. Write them as they come: paid 110.40 from Bob paper "note 14".`)
	}
	if len(book.Doubts.Foreign) > 0 {
		notes = append(notes, "Money in "+listed(book.Doubts.Foreign)+" is counted in "+book.Currency+" by the rate in force on its day.")
	}
	if len(book.Doubts.Unpriced) > 0 {
		notes = append(notes, "Sales without a price count for nothing: "+linesOf(book.Doubts.Unpriced)+".")
	}
	return append(notes, "What was given back for plants that came back is taken off what was bought; a payment that names a paper is counted there too.")
}
