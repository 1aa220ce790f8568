package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// The rules about where plants and wood come from.
var (
	noSupplier = &Rule{
		Name: "no-supplier", Severity: finding.Warning,
		Summary: "something was bought, and nothing says from whom",
		Why:     "The line of every plant made from it ends there. When something turns up in it, nobody can be asked.",
		Bad:     kestrel + "buy 50 liners of \"Quince BA\" as QC25 for 90.00\n",
		Good:    kestrel + "buy 50 liners of \"Quince BA\" as QC25 from \"Valley Liners\" for 90.00\n",
		check: func(p *pass) {
			each(p, func(e *fact.Entry, f *fact.Begin) {
				if f.How == fact.Bought && len(f.From) == 0 {
					p.reportf(e, firstLine(e), []string{f.As.Text}, "nothing says from whom %s was bought, so the line of its plants ends here; add: from …", f.As.Text)
				}
			})
		},
	}
	noMother = &Rule{
		Name: "no-mother", Severity: finding.Hint,
		Summary: "cuttings are of a variety, and no mother tree is named",
		Why:     "If a tree turns out sick or untrue, plants of unknown mothers can't be called back. Name the tree, limb or bundle that they were taken from.",
		Bad:     kestrel + "stick 50 cuttings of Amberlight as AC26 worker Ines\n",
		Good:    kestrel + "stick 50 cuttings of M7 as AC26 worker Ines\n",
		check: func(p *pass) {
			p.batches(func(b *nursery.Batch) {
				if b.Kind == nursery.CuttingBatch && len(b.Wood) == 0 {
					f := b.Entry.Effect.(*fact.Begin)
					p.reportf(b.Entry, f.Of.Span, []string{b.Lot.Name}, "%s is a variety; name the tree or bundle that the cuttings were taken from, if it is known", f.Of.Text)
				}
			})
		},
	}
	joinOrigins = &Rule{
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
	oldSeed = &Rule{
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
						p.reportf(b.Entry, spanOf(b.Entry, seed.Name), []string{b.Lot.Name, seed.Name}, "%s was kept for %d days, and seed of %s lives about %s (%s)", seed.Name, b.Day-seed.Day, b.Top.Species(), l, l.Mark)
					}
				}
			})
		},
	}
	cutAfterPrune = &Rule{
		Name: "cut-after-prune", Severity: finding.Hint, Limits: []string{"cut-after-prune"},
		Summary: "wood is cut from a mother soon after she was pruned",
		Why:     "Wood is cut just before the mother is pruned, while the best shoots are on her (common practice, no source).",
		Bad:     kestrel + "\n2026-02-20\ntend M7 pruned\n2026-02-28\ncut 40 scions from M7 as W7 store cool\n",
		Good:    kestrel + "\n2026-02-20\ncut 40 scions from M7 as W7 store cool\ntend M7 pruned\n",
		check: func(p *pass) {
			soon := p.gauge("cut-after-prune")
			pruned := map[nursery.Thing]*fact.Entry{}
			each(p, func(e *fact.Entry, f *fact.Tend) {
				if f.Job.Text != "pruned" {
					return
				}
				for _, name := range f.Lots {
					pruned[p.thing(name)] = e
				}
			})
			p.takings(func(t taking) {
				e := pruned[t.thing]
				if e == nil || t.tree == nil || t.scions == 0 {
					return
				}
				after := t.entry.Day() - e.Day()
				if l, ok := soon.of(t.entry.Date, t.tree.Variety, nil); ok && after > 0 && after <= l.Days() {
					f := p.reportf(t.entry, t.name.Span, []string{t.thing.Label()}, "%s was pruned %d days before this wood was cut; cut first, then prune", t.thing.Label(), after)
					also(f, e, "pruned here")
				}
			})
		},
	}
)

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
		} else if t := treeOf(s.Thing); t != nil {
			add(t)
		}
	}
	return list
}
