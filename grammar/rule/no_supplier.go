package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
)

var noSupplier = &Rule{
	Name: "no-supplier", Severity: finding.Warning,
	Summary: "something was bought, and nothing says from whom",
	Why:     "The line of every plant made from it ends there. When something turns up in it, nobody can be asked.",
	Bad:     kestrel + "buy 50 liners of \"Quince BA\" as QC25 for 90.00\n",
	Good:    kestrel + "buy 50 liners of \"Quince BA\" as QC25 from \"Valley Liners\" for 90.00\n",
	check: func(p *pass) {
		each(p, func(e *fact.Entry, f *fact.Begin) {
			if f.How == fact.Bought && len(f.From) == 0 {
				p.reportf(e, firstLine(e), []string{f.As.Text}, "nothing says from whom %s was bought, so the line of its plants ends here; add: from …", f.As.Text)
			}
		})
	},
}
