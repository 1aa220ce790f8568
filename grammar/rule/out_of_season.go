package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var outOfSeason = &Rule{
	Name: "out-of-season", Severity: finding.Hint,
	Summary: "a method that needs the bark to slip is used in the dead of winter",
	Why: "Shield, patch and flute buds and bark grafts go in where the bark lifts from the wood. Of trees that drop their leaves it does not in " +
		"December, January and February (south of the equator in June, July and August: say `hemisphere south` on the farm). Common practice, no source.",
	Bad:  kestrel + pear + "\n2026-01-15\ngraft 10 of PS25 with P1 by patch as PE26 worker Ines\n",
	Good: kestrel + pear + "\n2026-01-15\ngraft 10 of PS25 with P1 by whip-and-tongue as PE26 worker Ines\n",
	check: func(p *pass) {
		if p.Farm == nil {
			return
		}
		p.grafts(func(b *nursery.Batch, f *fact.Graft) {
			kind := b.Method.Trade().Kind
			if kind != "bark" && kind != "bark bud" || !deciduous[genusOf(b.Stock.Species())] || !midwinter(b.Day, p.Farm.South) {
				return
			}
			p.reportf(b.Entry, f.By.Span, []string{b.Lot.Name}, "%s needs bark that slips, and in the middle of winter that of %s does not", f.By.Text, b.Stock.Species())
		})
	},
}

// deciduous are the genera, folded, that stand bare in winter.
var deciduous = map[string]bool{
	"malus": true, "pyrus": true, "cydonia": true, "prunus": true, "juglans": true, "carya": true, "vitis": true, "diospyros": true,
	"ficus": true, "morus": true, "punica": true, "castanea": true, "crataegus": true, "mespilus": true,
}

// midwinter reports whether a day lies in the three coldest months.
func midwinter(day fact.Date, south bool) bool {
	_, month, _ := day.Civil()
	if south {
		return 6 <= month && month <= 8
	}
	return month == 12 || month <= 2
}
