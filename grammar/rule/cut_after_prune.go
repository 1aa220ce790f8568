package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var cutAfterPrune = &Rule{
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
				f := p.reportf(t.entry, t.name.Span, []string{t.thing.Label()}, "%s was pruned %s before this wood was cut; cut first, then prune", t.thing.Label(), days(after))
				also(f, e, "pruned here")
			}
		})
	},
}
