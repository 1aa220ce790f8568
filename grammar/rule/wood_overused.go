package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
)

var woodOverused = &Rule{
	Name: "wood-overused", Severity: finding.Warning,
	Summary: "more scions are used or sold than were cut",
	Why: "Some of the grafts are then of other wood, and nobody knows which. Mostly the cut was counted in sticks and the grafts in buds: " +
		"`cut 20 sticks of 5 buds` makes 100 scions.",
	Bad:  kestrel + "\n2026-03-02\ncut 20 sticks of 1 buds from M7 as W7 store cool\ngraft 40 of QB25 with W7 by cleft as AM26 worker Ines\n",
	Good: kestrel + "\n2026-03-02\ncut 20 sticks of 3 buds from M7 as W7 store cool\ngraft 40 of QB25 with W7 by cleft as AM26 worker Ines\n",
	check: func(p *pass) {
		for _, b := range p.Bundles {
			left, known := b.Left()
			if !known || left >= 0 || b.Noun == fact.Seed {
				continue
			}
			last := b.Entries[len(b.Entries)-1]
			f := p.reportf(last, firstLine(last), []string{b.Name}, "%d scions of %s are used by now, and %d were cut; the wood of %d is unknown",
				b.Count-left, b.Name, b.Count, -left)
			also(f, b.Made, "cut here")
		}
	},
}
