package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var returnOtherParty = &Rule{
	Name: "return-other-party", Severity: finding.Warning,
	Summary: "plants come back from someone to whom they were not sold",
	Why:     "Mostly the buyer's name is spelled in two ways, or the plants are of another lot.",
	Bad:     bench + "party Ada as customer\n2026-11-20\nsell 5 of AM26 to Bob at 19.00 each\nreturn 1 living of AM26 from Ada as RT26 for 19.00\n",
	Good:    bench + "2026-11-20\nsell 5 of AM26 to Bob at 19.00 each\nreturn 1 living of AM26 from Bob as RT26 for 19.00\n",
	check: func(p *pass) {
		known := map[*nursery.Lot]map[*nursery.Party]bool{}
		each(p, func(e *fact.Entry, f *fact.Return) {
			l := p.lot(f.Of)
			if l == nil || !f.From.Given() {
				return
			}
			if known[l] == nil {
				known[l] = p.buyers(l)
			}
			who, _ := p.Party(f.From.Text)
			if buyers := known[l]; !buyers[who] && !buyers[nil] {
				p.reportf(e, f.From.Span, []string{l.Name, f.From.Text}, "nothing of %s was sold to %s; mend the buyer's name, or the lot", l.Name, f.From.Text)
			}
		})
	},
}

// buyers are all to whom plants of a lot went; nil is among them where an entry
// does not say to whom.
func (p *pass) buyers(l *nursery.Lot) map[*nursery.Party]bool {
	buyers := map[*nursery.Party]bool{}
	for _, e := range l.Entries {
		if f, ok := e.Effect.(*fact.Leave); ok && (f.How == fact.Sold || f.How == fact.Given) {
			who, _ := p.Party(f.To.Text)
			buyers[who] = true
		}
	}
	return buyers
}
