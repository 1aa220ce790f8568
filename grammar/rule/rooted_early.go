package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var rootedEarly = &Rule{
	Name: "rooted-early", Severity: finding.Hint, Limits: []string{"layer-first-check", "cutting-first-check"},
	Summary: "layers or cuttings are said to have rooted very soon",
	Why:     "In so few days there is callus at most. Look again, and give the verdict when roots can be seen through the wrap.",
	Bad:     kestrel + "layer 8 on M7 as AL26 worker Ines\n2025-11-24\ncheck AL26: 8 rooted\n",
	Good:    kestrel + "layer 8 on M7 as AL26 worker Ines\n2026-01-20\ncheck AL26: 8 rooted\n",
	check: func(p *pass) {
		layers, cuttings := p.gauge("layer-first-check"), p.gauge("cutting-first-check")
		p.batches(func(b *nursery.Batch) {
			first := layers
			switch b.Kind {
			case nursery.CuttingBatch:
				first = cuttings
			case nursery.LayerBatch:
			default:
				return
			}
			for _, e := range b.Checks {
				if e.Day() >= b.FirstCheck || e.Effect.(*fact.Check).Outcomes[0].Verdict != fact.Rooted {
					continue
				}
				if l, ok := first.of(b.Entry.Date, b.Top.Variety, b.Method); ok {
					p.reportf(e, firstLine(e), []string{b.Lot.Name}, "%s is said to have rooted after %s; mostly that takes %s (%s)", b.Lot.Name, days(e.Day()-b.Day), l, l.Mark)
				}
			}
		})
	},
}
