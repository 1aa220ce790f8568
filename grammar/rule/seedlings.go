package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// seedlingsPlanted asks about seedlings that are planted under the name of a
// variety.
func (p *pass) seedlingsPlanted(ask func(*fact.Entry, *fact.Plant, *nursery.Lot, *nursery.Variety)) {
	each(p, func(e *fact.Entry, f *fact.Plant) {
		l := p.lot(f.Of)
		v, known := p.Variety(f.Variety.Text)
		if l != nil && f.Variety.Given() && known && l.Top.Seedling && l.Top.Variety != nil {
			ask(e, f, l, v)
		}
	})
}
