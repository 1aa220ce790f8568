package rule

import (
	"github.com/budstick/budstick/grammar/nursery"
)

// offspring asks about every lot without a mark of its own that comes, in wood
// or root, from something which is marked sick or off-type to this day; of
// several such, the nearest.
func (p *pass) offspring(ask func(l *nursery.Lot, bad nursery.Source, m nursery.Mark)) {
	p.end(func() {
		bad := map[nursery.Source]nursery.Mark{}
		var roots []nursery.Source
		add := func(s nursery.Source, marks []nursery.Mark) {
			for _, word := range []string{"sick", "off-type"} {
				if m, ok := nursery.Marked(marks, word, p.Last); ok {
					bad[s] = m
					roots = append(roots, s)
					return
				}
			}
		}
		for t := range p.All() {
			add(nursery.Source{Thing: t}, marksOf(t))
		}
		for _, v := range p.Varieties {
			add(nursery.Source{Variety: v}, v.Marks)
		}
		if len(roots) == 0 {
			return
		}
		from := map[nursery.Source]nursery.Source{}
		for _, s := range roots {
			from[s] = s
		}
		for _, e := range p.Descent().Down(0, roots...).Edges { // the nearest come first
			if _, known := from[e.To]; !known {
				from[e.To] = from[e.From]
			}
		}
		for _, l := range p.Lots {
			s := nursery.Source{Thing: l}
			if by, ok := from[s]; ok && by != s {
				ask(l, by, bad[by])
			}
		}
	})
}
