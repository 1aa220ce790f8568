package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var recallRule = &Rule{
	Name: "recall", Severity: finding.Error,
	Summary: "plants are on hand that come from one marked sick or off-type",
	Why: "A mother that turns out sick or untrue, often years later at the first fruit, has passed it on to all that was made from her. " +
		"Mark the lot too, so that nobody sells it, cull it, or clear the mother's mark. What a sick plant has may be in all that it ever met, by wood or root; " +
		"that one is untrue concerns what is still part of a plant, and not a stock on which her top failed, nor a lot that was seen to be true since and is marked verified.",
	Bad:  bench + "2026-07-20\nmark M7 off-type because \"fruit round\"\n",
	Good: bench + "2026-07-20\nmark M7 off-type because \"fruit round\"\nmark AM26 off-type because \"from M7\"\n",
	check: func(p *pass) {
		p.offspring(func(l *nursery.Lot, bad nursery.Source, m nursery.Mark) {
			if on := l.On[fact.Living] + l.On[fact.Attached] + l.On[fact.Waiting]; on > 0 {
				mend := "mark " + l.Name + " too, or cull it"
				if m.Word == "off-type" {
					mend = "mark " + l.Name + " too, or verified if it was seen to be true, or cull it"
				}
				f := p.reportf(l.Made, firstLine(l.Made), []string{l.Name, bad.Label()}, "%d of %s %s from %s, which is marked %s since %s; %s",
					on, l.Name, finding.Either(on, "is on hand that comes", "are on hand that come"), bad.Label(), m.Word, m.Day.Long(), mend)
				also(f, m.Entry, "marked here")
			}
		})
	},
}
