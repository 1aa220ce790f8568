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
		on := map[*nursery.Place]int32{}
		p.lots(func(l *nursery.Lot) {
			if l.Place != nil && l.Place.Fact != nil && l.Place.Fact.Holds.Given {
				on[l.Place] += l.Free(fact.AnyState)
			}
		})
		p.end(func() {
			for _, place := range p.Places {
				if place.Fact == nil || on[place] <= place.Fact.Holds.N {
					continue
				}
				last := p.lastAt(place)
				p.reportf(last, firstLine(last), []string{place.Name}, "%d plants stand at %s by now, and it holds %d; was a move not written?", on[place], place.Name, place.Fact.Holds.N)
			}
		})
	},
}

// lastAt is the last entry about plants that stand at a place.
func (p *pass) lastAt(place *nursery.Place) *fact.Entry {
	last := place.Used
	for _, l := range p.Lots {
		if l.Place == place && l.Free(fact.AnyState) > 0 {
			if e := l.Entries[len(l.Entries)-1]; e.Date >= last.Date {
				last = e
			}
		}
	}
	return last
}
