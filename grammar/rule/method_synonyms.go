package rule

import (
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/syntax"
)

var methodSynonyms = &Rule{
	Name: "method-synonyms", Severity: finding.Hint,
	Summary: "one method goes by two names",
	Why:     "The trade has several words for many methods, cleft and wedge for one. In the reports they are two methods, and neither has enough grafts to tell anything.",
	Bad:     kestrel + "\n2026-03-02\ngraft 40 of QB25 with M7 by cleft as AM26 worker Ines\ngraft 40 of QB25 with M7 by wedge as AM26b worker Ines\n",
	Good:    kestrel + "\n2026-03-02\ngraft 40 of QB25 with M7 by cleft as AM26 worker Ines\ngraft 40 of QB25 with M7 by cleft as AM26b worker Ines\n",
	check: func(p *pass) {
		first := map[string]*nursery.Method{}
		for _, m := range p.Methods {
			known := m.Trade()
			if known.Name == "" || m.Fact != nil {
				continue
			}
			other := first[known.Name]
			if other == nil {
				first[known.Name] = m
				continue
			}
			f := p.reportf(m.Used, spanOf(m.Used, m.Name), []string{m.Name, other.Name}, "%s and %s are one method; write %s throughout, so that the reports put them together", m.Name, other.Name, syntax.Spell(other.Name))
			also(f, other.Used, "the other name")
			if at := spanOf(m.Used, m.Name); m.Used.File.Text(at) == m.Name {
				f.Mend = &finding.Mend{Span: at, Text: other.Name}
			}
		}
	},
}
