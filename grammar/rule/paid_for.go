package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	spelling "github.com/budstick/budstick/grammar/name"
)

var paidFor = &Rule{
	Name: "paid-for", Severity: finding.Hint,
	Summary: "a payment is for a paper, or of a customer, that no sale names",
	Why: "A slip in the number of a paper leaves one invoice open and another paid that never was. A payment may come before its sale: this asks at the end of " +
		"the journal. If a deposit stands there for long, allow it.",
	Bad:  bench + "2026-11-20\nsell 5 of AM26 to Bob at 19.00 each paper \"note 14\"\npaid 95.00 from Bob paper \"note 41\"\n",
	Good: bench + "2026-11-20\nsell 5 of AM26 to Bob at 19.00 each paper \"note 14\"\npaid 95.00 from Bob paper \"note 14\"\n",
	check: func(p *pass) {
		sold := map[bill]bool{}
		each(p, func(_ *fact.Entry, f *fact.Leave) {
			if f.How == fact.Sold {
				party := spelling.Fold(f.To.Text)
				sold[bill{party, spelling.Fold(f.Paper.Text)}], sold[bill{party, ""}] = true, true
			}
		})
		var paid []*fact.Entry
		each(p, func(e *fact.Entry, _ *fact.Paid) { paid = append(paid, e) })
		p.end(func() {
			for _, e := range paid {
				f := e.Effect.(*fact.Paid)
				party := spelling.Fold(f.From.Text)
				switch {
				case !sold[bill{party, ""}]:
					p.reportf(e, f.From.Span, []string{f.From.Text}, "nothing was ever sold to %s, who pays here; mend the name, or write the sale", f.From.Text)
				case !sold[bill{party, spelling.Fold(f.Paper.Text)}]:
					p.reportf(e, f.Paper.Span, []string{f.From.Text}, "no sale to %s names %s; mend the number, or write the paper on the sale", f.From.Text, f.Paper.Text)
				}
			}
		})
	},
}

// A bill is a paper of a customer; without a paper it is all that was sold.
type bill struct{ party, paper string }
