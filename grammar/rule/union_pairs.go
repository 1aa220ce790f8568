package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// onePair asks about unions of one outcome, each pair of varieties once.
func onePair(out outcome, bare bool, says string) func(*pass) {
	return func(p *pass) {
		said := map[*union]bool{}
		p.newUnions(func(b *nursery.Batch, f *fact.Graft, u *union) {
			if u.outcome != out || said[u] || bare && len(b.Lot.Inter) > 0 {
				return
			}
			said[u] = true
			p.reportf(b.Entry, f.Of.Span, u.about(b), says, u.scion.Name, u.stock.Name, u.says, u.mark)
		})
	}
}
