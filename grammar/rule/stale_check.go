package rule

import (
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// The four rules about attempts that nobody looked at in time: one question,
// with a limit of its own for each kind.
var (
	staleCheck = &Rule{
		Name: "stale-check", Severity: finding.Warning, Limits: []string{"stale-check"},
		Summary: "grafts have had no check for so long that a look no longer tells when they failed",
		Why: "A graft that is first looked at after months is dead or alive, and nobody can say any more whether the union failed, the tie girdled it " +
			"or the plant dried out. The days differ by species and can be set for a method of your own.",
		Bad:   stale,
		Good:  stale + "check AM26: 30 took, 10 failed happened 2026-04-10\n",
		check: unchecked(nursery.GraftBatch, "stale-check"),
	}
	staleLayers = &Rule{
		Name: "layer-stale", Severity: finding.Warning, Limits: []string{"layer-stale"},
		Summary: "layers have hung on the mother for months, and nobody has looked",
		Why:     "By then a layer has bridged its wound, dried out or broken off; or its roots fill the wrap and die.",
		Bad:     kestrel + "layer 8 on M7 as AL26 worker Ines\n2026-07-20\nnote QB25 \"in leaf\"\n",
		Good:    kestrel + "layer 8 on M7 as AL26 worker Ines\n2026-01-20\ncheck AL26: 5 rooted, 3 failed\n2026-07-20\nnote QB25 \"in leaf\"\n",
		check:   unchecked(nursery.LayerBatch, "layer-stale"),
	}
	staleCuttings = &Rule{
		Name: "cutting-stale", Severity: finding.Warning, Limits: []string{"cutting-stale"},
		Summary: "cuttings have stood for months, and nobody has looked",
		Why:     "A cutting that has not rooted in that time lives on what it brought with it. Check what rooted, and throw out the rest.",
		Bad:     kestrel + "stick 50 cuttings of M7 as AC26 worker Ines\n2026-04-20\nnote QB25 \"in leaf\"\n",
		Good:    kestrel + "stick 50 cuttings of M7 as AC26 worker Ines\n2026-01-20\ncheck AC26: 35 rooted, 15 dead\n2026-04-20\nnote QB25 \"in leaf\"\n",
		check:   unchecked(nursery.CuttingBatch, "cutting-stale"),
	}
	staleSeed = &Rule{
		Name: "seed-stale", Severity: finding.Warning, Limits: []string{"seed-stale"},
		Summary: "seed was sown long ago, and nothing says whether it came up",
		Why:     "What has not come up in that time will not; until it is checked it stands in the book as seed.",
		Bad:     kestrel + "sow 30 seed of Amberlight as AS25 from M7\n2026-04-20\nnote QB25 \"in leaf\"\n",
		Good:    kestrel + "sow 30 seed of Amberlight as AS25 from M7\n2026-01-20\ncheck AS25: 24 up, 6 dead\n2026-04-20\nnote QB25 \"in leaf\"\n",
		check:   unchecked(nursery.SeedBatch, "seed-stale"),
	}
)

// stale is kestrel with grafts that nobody looked at.
const stale = kestrel + `
2026-03-02
graft 40 of QB25 with M7 by cleft as AM26 worker Ines
2026-06-01
note QB25 "in leaf"
`

// unchecked asks whether attempts of a kind have had no check by their stale
// day, as of the last day of the journal.
func unchecked(kind nursery.BatchKind, limit string) func(*pass) {
	return func(p *pass) {
		after := p.gauge(limit)
		p.batches(func(b *nursery.Batch) {
			if b.Kind != kind || len(b.Checks) > 0 || b.Waiting() == 0 || p.Last <= b.Stale {
				return
			}
			l, ok := after.of(b.Entry.Date, b.Top.Variety, b.Method)
			if !ok {
				return
			}
			p.reportf(b.Entry, firstLine(b.Entry), []string{b.Lot.Name}, "%d of %s have waited for a check for %d days, and %s is the time for it (%s)",
				b.Waiting(), b.Lot.Name, p.Last-b.Day, l, l.Mark)
		})
	}
}
