package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var joinOrigins = &Rule{
	Name: "join-origins", Severity: finding.Warning,
	Summary: "lots of different mothers or stocks are joined",
	Why: "From then on each plant is one of several, and a recall of one mother takes in all of them. Papers may ask for the mother and the stock of mixed plants. " +
		"Keep them apart, or allow it for the new lot.",
	Bad:  bench + secondTree + "graft 20 of QB25 with M8 by cleft as BM26 worker Ines\n2026-05-04\ncheck BM26: 18 took, 2 failed\njoin AM26, BM26 as AM26t\n",
	Good: bench + "graft 20 of QB25 with M7 by cleft as BM26 worker Ines\n2026-05-04\ncheck BM26: 18 took, 2 failed\njoin AM26, BM26 as AM26t\n",
	check: func(p *pass) {
		p.lots(func(l *nursery.Lot) {
			if l.How != fact.Joined {
				return
			}
			f := l.Made.Effect.(*fact.Join)
			switch mothers := mothersOf(l.Wood); {
			case l.MixedBelow:
				p.reportf(l.Made, f.As.Span, []string{l.Name}, "the plants of %s stand on different stocks, and nobody can tell which from now on; keep them apart, or allow it", l.Name)
			case len(mothers) > 1:
				p.reportf(l.Made, f.As.Span, []string{l.Name}, "the plants of %s come from %s or %s, and nobody can tell which from now on; keep them apart, or allow it", l.Name, mothers[0].Name, mothers[1].Name)
			}
		})
	},
}

// mothersOf are the trees that wood is from, each once.
func mothersOf(wood []nursery.Source) []*nursery.Tree {
	var list []*nursery.Tree
	add := func(t *nursery.Tree) {
		for _, old := range list {
			if old == t {
				return
			}
		}
		list = append(list, t)
	}
	for _, s := range wood {
		if b, ok := s.Thing.(*nursery.Bundle); ok {
			for _, t := range mothersOf(b.From) {
				add(t)
			}
		} else if t := nursery.TreeOf(s.Thing); t != nil {
			add(t)
		}
	}
	return list
}
