package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
)

var noCurrency = &Rule{
	Name: "no-currency", Severity: finding.Hint,
	Summary: "money is written without a currency, and the farm has none",
	Why:     "Sums of money need one currency. It is said once, with the farm, by its ISO 4217 code.",
	Bad:     "farm \"Kestrel Hollow\"\nparty Bob as supplier\nvariety \"Quince BA\" species \"Cydonia oblonga\" use rootstock\n2025-11-03\nbuy 100 liners of \"Quince BA\" as QB25 from Bob for 180.00\n",
	Good:    "farm \"Kestrel Hollow\" currency EUR\nparty Bob as supplier\nvariety \"Quince BA\" species \"Cydonia oblonga\" use rootstock\n2025-11-03\nbuy 100 liners of \"Quince BA\" as QB25 from Bob for 180.00\n",
	check: func(p *pass) {
		if p.Farm != nil && p.Farm.Currency != "" {
			return
		}
		said := false
		p.entries(func(e *fact.Entry) {
			if !said {
				eachMoney(e, func(m fact.Money) {
					if m.Currency == "" && !said {
						said = true
						p.reportf(e, m.Span, p.farm(), "%s of which money? write the currency with the farm: farm \"…\" currency EUR", m.Amount)
					}
				})
			}
		})
	},
}
