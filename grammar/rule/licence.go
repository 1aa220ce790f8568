package rule

import (
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// The two rules about varieties under a plant breeder's right.
var (
	noLicence = &Rule{
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
	licenceExceeded = &Rule{
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
					f := p.reportf(b.Entry, firstLine(b.Entry), []string{v.Name, b.Lot.Name}, "with these, %d plants of %s are made, and the licence %s is for %d; ask its holder before they are sold",
						now, v.Name, v.Fact.Licence.Text, most)
					also(f, v.Made, "licensed here")
				}
			})
		},
	}
)

const (
	protected = "variety Latelight species \"Eriobotrya japonica\" protected until 2041-12-31 by \"plant variety right 2021/0417\"\n" + latelightWood
	licensed  = "variety Latelight species \"Eriobotrya japonica\" protected until 2041-12-31 by \"plant variety right 2021/0417\" licence \"KH-3\" for 50\n" + latelightWood

	latelightWood = "buy 60 scions of Latelight as WE26 from Bob for 40.00\n"
)
