package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var placeFull = &Rule{
	Name: "place-full", Severity: finding.Warning,
	Summary: "more plants stand at a place than it holds",
	Why:     "Mostly a move was not written. Asked only of places of which `holds` is known, as of the last day of the journal.",
	Bad:     kestrel + "place shade-9 holds 60\nmove QB25 to shade-9\n",
	Good:    kestrel + "place shade-9 holds 60\nmove 50 of QB25 to shade-9 as QB25w\n",
	check: func(p *pass) {
		type standing struct {
			plants int32
			last   *fact.Entry // about them
		}
		at := map[*nursery.Place]*standing{}
		for _, place := range p.Places {
			if place.Fact != nil && place.Fact.Holds.Given {
				at[place] = &standing{last: place.Used}
			}
		}
		if len(at) == 0 {
			return
		}
		p.lots(func(l *nursery.Lot) {
			s := at[l.Place]
			if s == nil || l.Free(fact.AnyState) == 0 {
				return
			}
			s.plants += l.Free(fact.AnyState)
			if e := l.Entries[len(l.Entries)-1]; e.Date >= s.last.Date {
				s.last = e
			}
		})
		p.end(func() {
			for _, place := range p.Places {
				if s := at[place]; s != nil && s.plants > place.Fact.Holds.N {
					p.reportf(s.last, firstLine(s.last), []string{place.Name}, "%s stand at %s by now, and it holds %d; was a move not written?", plants(s.plants), place.Name, place.Fact.Holds.N)
				}
			}
		})
	},
}
