package rule

import (
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var certificateExpired = &Rule{
	Name: "certificate-expired", Severity: finding.Warning,
	Summary: "plants leave the nursery on a certificate that has run out",
	Why: "A certificate of inspection says how long it holds, and plants that move on an older one may be stopped or sent back. Certificates of the lot, of a lot " +
		"that it was part of, of the place it stands in and of the farm count. Whether these plants need one at all, the plant health authority says. Said once for each certificate.",
	Bad:  bench + "2026-04-20\ninspect AM26 certificate \"2026-0417\" until 2026-10-31\n2026-11-20\nsell 5 of AM26 to Bob at 19.00 each\n",
	Good: bench + "2026-04-20\ninspect AM26 certificate \"2026-0417\" until 2026-12-31\n2026-11-20\nsell 5 of AM26 to Bob at 19.00 each\n",
	check: func(p *pass) {
		c := certificates{p.Nursery, nil, map[nursery.Thing]*nursery.Visit{}}
		for i := range p.Visits {
			if f, ok := p.Visits[i].Entry.Effect.(*fact.Inspect); ok && f.Until != 0 {
				c.list = append(c.list, &p.Visits[i])
			}
		}
		if len(c.list) == 0 {
			return
		}
		said := map[*nursery.Visit]bool{}
		ask := func(e *fact.Entry, t nursery.Thing) {
			v := c.of(t, e)
			if v == nil || validUntil(v) >= e.Day() || said[v] {
				return
			}
			said[v] = true
			f := p.reportf(e, spanOf(e, t.Label()), []string{t.Label(), certificate(v)}, "%s leaves on %s, and the certificate %s was valid until %s; have it looked at again, or allow it",
				t.Label(), e.Day().Long(), certificate(v), validUntil(v).Long())
			also(f, v.Entry, "inspected here")
		}
		for _, how := range []fact.How{fact.Sold, fact.Given} {
			p.moves(how, func(m *nursery.Move) { ask(m.Entry, m.From) })
		}
		each(p, func(e *fact.Entry, f *fact.Leave) {
			if t, ok := p.thing(f.Of).(*nursery.Tree); ok && t.GoneBy == e && (f.How == fact.Sold || f.How == fact.Given) {
				ask(e, t)
			}
		})
	},
}

// certificates finds the one that holds longest for a thing.
type certificates struct {
	nursery *nursery.Nursery
	list    []*nursery.Visit
	origins map[nursery.Thing]*nursery.Visit // of what a thing was part of, when it began
}

// of is the certificate that a thing has at an entry, or nil.
func (c certificates) of(t nursery.Thing, at *fact.Entry) *nursery.Visit {
	best := c.origin(t)
	for _, v := range c.list {
		if inOrder(v.Entry, at) > 0 || best != nil && validUntil(best) >= validUntil(v) {
			continue
		}
		if slices.Contains(v.Things, t) || v.Standing(t, at.Date) {
			best = v
		}
	}
	return best
}

// origin is the certificate that the plants of a thing brought from the lots
// that they came from; of several, the one that ends first.
func (c certificates) origin(t nursery.Thing) *nursery.Visit {
	first, known := c.origins[t]
	if known {
		return first
	}
	c.origins[t] = nil
	for _, l := range c.nursery.Parents(nursery.Source{Thing: t}) {
		if l.Step == nursery.Kept && l.From.Thing != nil && l.Entry != nil && !l.Topless {
			if v := c.of(l.From.Thing, l.Entry); v != nil && (first == nil || validUntil(v) < validUntil(first)) {
				first = v
			}
		}
	}
	c.origins[t] = first
	return first
}

func validUntil(v *nursery.Visit) fact.Date { return v.Entry.Effect.(*fact.Inspect).Until }

func certificate(v *nursery.Visit) string { return v.Entry.Effect.(*fact.Inspect).Certificate.Text }
