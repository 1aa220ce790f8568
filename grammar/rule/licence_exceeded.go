package rule

import (
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var licenceExceeded = &Rule{
	Name: "licence-exceeded", Severity: finding.Error,
	Summary: "more plants of a protected variety are made than the licence is for",
	Why:     "Royalties are owed on each plant above it, or the plants may not be sold. Grafts that failed are not counted.",
	Bad:     kestrel + licensed + "graft 60 of QB25 with WE26 by cleft as EM26 worker Ines\n",
	Good:    kestrel + licensed + "graft 40 of QB25 with WE26 by cleft as EM26 worker Ines\n",
	check: func(p *pass) {
		made := map[*nursery.Variety]int32{}
		p.batches(func(b *nursery.Batch) {
			v := b.Top.Variety
			if v == nil || b.Kind == nursery.SeedBatch || v.Fact.Protected < b.Day || !v.Fact.LicensedN.Given {
				return
			}
			before := made[v]
			now := before + b.Took + b.Waiting()
			made[v] = now
			if most := v.Fact.LicensedN.N; now > most && before <= most {
				f := p.reportf(b.Entry, firstLine(b.Entry), []string{v.Name, b.Lot.Name}, "with these, %s of %s are made, and the licence %s is for %d; ask its holder before they are sold",
					plants(now), v.Name, v.Fact.Licence.Text, most)
				also(f, v.Made, "licensed here")
			}
		})
	},
}
