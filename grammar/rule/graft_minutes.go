package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var graftMinutes = &Rule{
	Name: "graft-minutes", Severity: finding.Warning, Limits: []string{"graft-minutes-least", "graft-minutes-most"},
	Summary: "the time for a lot of grafts makes no sense for each of them",
	Why: "From half a minute for a bud to ten for an approach graft, with cutting and labelling (rule of thumb). Outside of that hours stand for minutes, " +
		"or the time is of something else. Limbs of standing trees are not asked about.",
	Bad:  kestrel + "\n2026-03-02\ngraft 60 of QB25 with M7 by cleft as AM26 worker Ines 3 min\n",
	Good: kestrel + "\n2026-03-02\ngraft 60 of QB25 with M7 by cleft as AM26 worker Ines 3 h\n",
	check: func(p *pass) {
		least, most := p.gauge("graft-minutes-least"), p.gauge("graft-minutes-most")
		p.grafts(func(b *nursery.Batch, f *fact.Graft) {
			total, timed := 0.0, true
			for _, by := range b.Entry.Workers() {
				total, timed = total+by.Minutes.Float(), timed && by.Timed
			}
			if !timed || total == 0 || b.Limbs {
				return
			}
			each := total / float64(b.Made)
			low, _ := least.of(b.Entry.Date, b.Top.Variety, b.Method)
			high, ok := most.of(b.Entry.Date, b.Top.Variety, b.Method)
			if ok && (each < inMinutes(low) || each > inMinutes(high)) {
				p.reportf(b.Entry, b.Entry.Workers()[0].Worker.Span, []string{b.Lot.Name}, "%d grafts in %.4g minutes are %.2g minutes each; from %s to %s is usual (%s)",
					b.Made, total, each, low, high, high.Mark)
			}
		})
	},
}
