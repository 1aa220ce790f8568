package rule

import "github.com/budstick/budstick/grammar/finding"

var storeWord = &Rule{
	Name: "store-word", Severity: finding.Hint,
	Summary: "wood is kept in a way that says nothing about how long it keeps",
	Why: "How long wood keeps is known for three ways of keeping it: as it is, `cool` (10 to 15 degrees) and `cold` (2 to 7 degrees, a refrigerator). " +
		"Of wood that is stored otherwise the tool says nothing.",
	Bad:  kestrel + "\n2026-03-02\ncut 40 scions from M7 as W7 store fridge\n",
	Good: kestrel + "\n2026-03-02\ncut 40 scions from M7 as W7 store cold\n",
	check: func(p *pass) {
		for _, b := range p.Bundles {
			if storedAs(b) == "" {
				p.reportf(b.Made, spanOf(b.Made, b.Store), []string{b.Name}, "store %s says nothing about how long the wood keeps; write store cool (10 to 15 degrees) or store cold (2 to 7)", b.Store)
			}
		}
	},
}
