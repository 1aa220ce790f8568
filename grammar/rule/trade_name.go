package rule

import (
	"strings"

	"github.com/budstick/budstick/grammar/finding"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/nursery"
)

var tradeName = &Rule{
	Name: "trade-name", Severity: finding.Warning,
	Summary: "what a variety is sold as can be taken for the name of a cultivar, or for another variety",
	Why: "What a variety is sold as may be anything, may differ from country to country, and is no name: the cultivar's stands beside it. So it has no single quotes " +
		"(International Code of Nomenclature for Cultivated Plants, 9th edition, 2016, on trade designations; from memory), and is not what another variety is called or sold as: " +
		"a buyer could not tell them apart, nor could you in a recall.",
	Bad:  kestrel + "variety Redwing parents Amberlight x unknown sold as Amberlight\n",
	Good: kestrel + "variety Redwing parents Amberlight x unknown sold as \"Harbour Gold\"\n",
	check: func(p *pass) {
		sold := map[string]*nursery.Variety{}
		for _, v := range p.Varieties {
			trade := v.Fact.Trade
			if !trade.Given() {
				continue
			}
			if plain := strings.Trim(trade.Text, "'‘’‚`´"); plain != trade.Text && plain != "" {
				p.reportf(v.Made, trade.Span, []string{v.Name}, "single quotes are for names of cultivars, and this is what %s is sold as; leave them out", v.Name)
			}
			key := spelling.Fold(strings.Trim(trade.Text, "'‘’‚`´"))
			if other, ok := p.Variety(key); ok && other != v {
				f := p.reportf(v.Made, trade.Span, []string{v.Name, other.Name}, "%s is sold as %s, and that is another variety; sell it by a word of its own", v.Name, other.Name)
				also(f, other.Made, "the variety of that name")
			} else if other := sold[key]; other != nil {
				f := p.reportf(v.Made, trade.Span, []string{v.Name, other.Name}, "%s is sold as %s, and so is %s; nobody can tell them apart then", v.Name, trade.Text, other.Name)
				also(f, other.Made, "the other")
			} else {
				sold[key] = v
			}
		}
	},
}
