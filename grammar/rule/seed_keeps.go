package rule

import (
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var oldSeed = &Rule{
	Name: "seed-keeps", Severity: finding.Warning, Limits: []string{"seed-keeps"},
	Summary: "seed was sown that had been kept for longer than its kind lives",
	Why: "Seed of many fruits of warm countries dies within days or weeks of drying. Poor germination is then the seed's age, and not the mix or the sower. " +
		"The days are for seed kept moist and as is usual for its kind; nothing is said of kinds that keep.",
	Bad:  kestrel + "buy 60 seed of Amberlight as SA25 from Bob for 6.00\n2026-01-20\nsow 60 seed of Amberlight as AS26 from SA25\n",
	Good: kestrel + "buy 60 seed of Amberlight as SA25 from Bob for 6.00\n2025-11-10\nsow 60 seed of Amberlight as AS26 from SA25\n",
	check: func(p *pass) {
		keeps := p.gauge("seed-keeps")
		p.batches(func(b *nursery.Batch) {
			if b.Kind != nursery.SeedBatch {
				return
			}
			for _, s := range b.Lot.Roots {
				seed, ok := s.Thing.(*nursery.Bundle)
				if !ok {
					continue
				}
				if l, ok := keeps.of(b.Entry.Date, b.Top.Variety, nil); ok && b.Day-seed.Day > l.Days() {
					p.reportf(b.Entry, spanOf(b.Entry, seed.Name), []string{b.Lot.Name, seed.Name}, "%s was kept for %s, and seed of %s lives about %s (%s)", seed.Name, days(b.Day-seed.Day), b.Top.Species(), l, l.Mark)
				}
			}
		})
	},
}
