package rule

import (
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var noLicence = &Rule{
	Name: "no-licence", Severity: finding.Error,
	Summary: "a protected variety is propagated, and no licence is on record",
	Why: "A plant variety right or patent lets nobody else make plants of the variety without a licence until it ends (UPOV 1991, article 14; in the United States " +
		"35 USC 163). Whether an exception holds for you, your own use for instance, the holder of the right or a lawyer can say; then allow it with that reason. Said once for each variety.",
	Bad:  kestrel + protected + "graft 20 of QB25 with WE26 by cleft as EM26 worker Ines\n",
	Good: kestrel + licensed + "graft 20 of QB25 with WE26 by cleft as EM26 worker Ines\n",
	check: func(p *pass) {
		said := map[*nursery.Variety]bool{}
		p.batches(func(b *nursery.Batch) {
			v := b.Top.Variety
			if v == nil || b.Kind == nursery.SeedBatch || v.Fact.Protected < b.Day || v.Fact.Licence.Given() || said[v] {
				return
			}
			said[v] = true
			f := p.reportf(b.Entry, firstLine(b.Entry), []string{v.Name, b.Lot.Name}, "%s is protected until %s, and no licence to propagate it is on record; add it to the variety: licence \"…\"", v.Name, v.Fact.Protected.Long())
			also(f, v.Made, "protected here")
		})
	},
}
