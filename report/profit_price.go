package report

import (
	"fmt"

	"github.com/budstick/budstick/report/cost"
	"github.com/budstick/budstick/report/money"
	"github.com/budstick/budstick/report/table"
)

// perTree is the cost of a tree that can be sold: all that was sold and all that
// stands, divided by what was sold and what lives. Plants that failed or wait
// still are borne by the others, and one that came back is counted where it was
// sold first.
func (a *account) perTree() (total money.Amount, trees int64) {
	return a.load.Cost().Add(a.closing.Cost()), a.sold + a.living - a.again
}

// pricesOf are the cost of a tree that can be sold, the price that breaks even
// and the one that leaves the margin that is wanted.
func (p *profitDoc) pricesOf(a *account) (each, even, wanted table.Cell) {
	total, trees := a.perTree()
	if trees <= 0 {
		return table.Unknown(), table.Unknown(), table.Unknown()
	}
	price := func(margin int) table.Cell {
		amount, err := money.PriceFor(total, trees, hundredths(p.options.Selling), hundredths(margin), p.book.Places)
		if err != nil {
			return table.Unknown() // selling and margin take it all
		}
		return p.cash(amount)
	}
	each, even, wanted = p.each(total, trees), price(0), table.Unknown()
	if p.options.Margin > 0 {
		wanted = price(p.options.Margin)
	}
	return each, even, wanted
}

func hundredths(n int) money.Ratio { return money.Ratio{Num: int64(n), Den: 100} }

// makeUp is what the cost of a tree is made of.
func (p *profitDoc) makeUp() table.Table {
	a := &p.finished
	t := table.Table{Name: "made_of", Title: "What a tree for sale costs", Columns: []table.Column{
		{Name: "part", Kind: table.KindText},
		{Name: "cost", Kind: table.KindMoney},
		{Name: "each", Kind: table.KindMoney},
	}}
	load := a.load.Plus(a.closing)
	parts := make([]money.Amount, cost.Hours)
	for part := range parts {
		parts[part] = load[part]
	}
	_, trees := a.perTree()
	for part, sum := range money.RoundParts(parts, p.book.Places) {
		t.Add(table.Text(cost.Part(part).String()), p.cash(sum), p.each(parts[part], trees))
	}
	t.Total = []table.Cell{table.Text("all"), p.cash(load.Cost()), p.each(load.Cost(), trees)}
	t.Notes = []string{fmt.Sprintf("Of %s that were sold or live, without what is raised to be worked as a stock.", counted(int(trees), "tree", "trees"))}
	return t
}

// prices are what a tree must fetch, and did.
func (p *profitDoc) prices() table.Facts {
	a := &p.finished
	each, even, wanted := p.pricesOf(a)
	f := table.Facts{Name: "tree", Title: "What a tree must fetch", Items: []table.Fact{
		{Name: "cost_per_saleable", Heading: "cost of a tree that can be sold", Value: each},
		{Name: "break_even", Heading: p.priceWords("breaks even", 0), Value: even},
	}}
	if p.options.Margin > 0 {
		f.Items = append(f.Items, table.Fact{Name: "wanted_price", Heading: p.priceWords(fmt.Sprintf("leaves %d %%", p.options.Margin), p.options.Margin), Value: wanted})
	}
	return table.Facts{Name: f.Name, Title: f.Title, Items: append(f.Items,
		table.Fact{Name: "price_got", Heading: "price that it fetched", Value: p.each(a.revenue, a.sold)})}
}

func (p *profitDoc) priceWords(what string, _ int) string {
	if p.options.Selling == 0 {
		return "price that " + what
	}
	return fmt.Sprintf("price that %s, with %d %% for selling", what, p.options.Selling)
}
