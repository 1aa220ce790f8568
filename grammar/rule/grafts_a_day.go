package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var graftsADay = &Rule{
	Name: "grafts-a-day", Severity: finding.Warning, Limits: []string{"grafts-a-day"},
	Summary: "someone makes more grafts in a day than anyone can",
	Why: "A practised hand makes 120 to 220 veneers or clefts in eight hours and 400 to 1200 chip or shield buds (rule of thumb). " +
		"More is a slip of the pen, or the work of several people, who should all be named.",
	Bad:  manyStocks + "\n2025-11-05\ngraft 900 of QC25 with WB26 by cleft as AM26 worker Ines\n",
	Good: manyStocks + "\n2025-11-05\ngraft 200 of QC25 with WB26 by cleft as AM26 worker Ines\n",
	check: func(p *pass) {
		most := p.gauge("grafts-a-day")
		days := newDayBook(p)
		p.grafts(func(b *nursery.Batch, f *fact.Graft) {
			crew := b.Entry.Workers()
			l, ok := most.of(b.Entry.Date, b.Top.Variety, b.Method)
			if !ok || l.Value <= 0 || b.Limbs {
				return
			}
			for _, by := range crew {
				before, now := days.add(b.Entry.Day(), by.Worker.Text, float64(b.Made)/float64(len(crew))/l.Value)
				if before <= 1 && now > 1 {
					p.reportf(b.Entry, f.Count.Span, []string{b.Lot.Name, by.Worker.Text}, "with these %s has made more grafts on %s than one person can; about %s is a day's work by this method (%s)",
						by.Worker.Text, b.Entry.Day().Long(), l, l.Mark)
				}
			}
		})
	},
}
