package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// The rules about which plant can be grown on which. What is known of a pair
// stands in unions.csv, with its source; of plants that no table has, nothing
// is said.
var (
	differentFamilies = &Rule{
		Name: "different-families", Severity: finding.Error,
		Summary: "a scion is set on a stock of another botanical family",
		Why:     "Such a graft does not unite. Mostly a variety is declared under the wrong species, or the wrong lot is named.",
		Bad:     kestrel + mango + "\n2026-03-02\ngraft 40 of MG25 with M7 by cleft as AM26 worker Ines\n",
		Good:    kestrel + mango + "\n2026-03-02\ngraft 40 of QB25 with M7 by cleft as AM26 worker Ines\n",
		check: func(p *pass) {
			p.newUnions(func(b *nursery.Batch, f *fact.Graft, u *union) {
				if u.outcome == unionFamilies {
					p.reportf(b.Entry, f.Of.Span, u.about(b), "%s (%s, %s) does not unite with %s (%s, %s): different families; mend the lot, the wood or a variety's species",
						u.scion.Name, u.scion.Species, u.families[1], u.stock.Name, u.stock.Species, u.families[0])
				}
			})
			each(p, func(e *fact.Entry, f *fact.Tree) {
				top, ok := p.Variety(f.Variety.Text)
				stock, ok2 := p.Variety(f.On.Text)
				if !ok || !ok2 || !f.On.Given() {
					return
				}
				if u := p.union(stock, top); u.outcome == unionFamilies {
					p.reportf(e, f.On.Span, []string{f.Name.Text}, "%s (%s) does not unite with %s (%s): different families; mend the tree's rootstock or a variety's species",
						top.Name, u.families[1], stock.Name, u.families[0])
				}
			})
		},
	}
	noKnownUnion = &Rule{
		Name: "no-known-union", Severity: finding.Error,
		Summary: "a scion is set on a stock of another genus, and no success of that pair is known",
		Why: "Within a family some genera unite and most do not. Where you try it, say so with `tag trial`; where you know it to work, allow it for the variety " +
			"with your reason.",
		Bad:  kestrel + plum + "\n2026-03-02\ngraft 40 of PL25 with M7 by cleft as AM26 worker Ines\n",
		Good: kestrel + plum + "\n2026-03-02\ngraft 4 of PL25 with M7 by cleft as AM26 tag trial worker Ines\n",
		check: func(p *pass) {
			p.newUnions(func(b *nursery.Batch, f *fact.Graft, u *union) {
				if u.outcome == unionNone && !isTrial(b.Entry) {
					p.reportf(b.Entry, f.Of.Span, u.about(b), "no success is known of %s (%s) on %s (%s); if you are trying it, write: tag trial",
						u.scion.Name, u.scion.Species, u.stock.Name, u.stock.Species)
				}
			})
		},
	}
	partialUnion = &Rule{
		Name: "partial-union", Severity: finding.Warning,
		Summary: "a scion is set on a stock with which only some varieties, or only for a time, grow on",
		Why:     "Sell such trees with your eyes open, or put a third plant between. Said once for each pair of varieties.",
		Bad:     kestrel + pear + "\n2026-03-02\ngraft 10 of QB25 with P1 by cleft as PE26 worker Ines\n",
		Good:    kestrel + pear + "\n2026-03-02\ngraft 10 of PS25 with P1 by cleft as PE26 worker Ines\n",
		check:   onePair(unionPartial, false, "%s on %s: %s (%s)"),
	}
	delayedFailure = &Rule{
		Name: "delayed-failure", Severity: finding.Warning,
		Summary: "a scion is set on a stock from which it is known to part after years",
		Why:     "It takes and sells as well as any, and the buyer's tree breaks or declines at the union when it should bear. Said once for each pair of varieties.",
		Bad:     kestrel + pear + "variety Redfall species \"Malus domestica\"\n\n2026-03-02\nbuy 10 scions of Redfall as WR26 from Bob\ngraft 10 of PS25 with WR26 by cleft as RF26 worker Ines\n",
		Good:    kestrel + pear + "\n2026-03-02\ngraft 10 of PS25 with P1 by cleft as RF26 worker Ines\n",
		check:   onePair(unionDelayed, false, "%s on %s: %s (%s)"),
	}
	unionReversed = &Rule{
		Name: "union-reversed", Severity: finding.Warning,
		Summary: "a pair is grafted the wrong way round",
		Why:     "Some unions hold in one direction only: pear grows on quince, and quince on pear fails. Said once for each pair of varieties.",
		Bad:     kestrel + pear + "\n2026-03-02\nbuy 10 scions of \"Quince BA\" as WQ26 from Bob\ngraft 10 of PS25 with WQ26 by cleft as QP26 worker Ines\n",
		Good:    kestrel + pear + "\n2026-03-02\ngraft 10 of PS25 with P1 by cleft as RF26 worker Ines\n",
		check:   onePair(unionReverse, false, "%s on %s is the wrong way round: %s (%s)"),
	}
	interstockMissing = &Rule{
		Name: "interstock-missing", Severity: finding.Warning,
		Summary: "a pair is grafted directly that needs a third plant between",
		Why:     "The two do not hold together, but both hold with a third: with `over` it is set in the same step. Said once for each pair of varieties.",
		Bad:     kestrel + pear + "variety Bosc species \"Pyrus communis\"\n\n2026-03-02\nbuy 10 scions of Bosc as WB26 from Bob\ngraft 10 of QB25 with WB26 by cleft as BO26 worker Ines\n",
		Good: kestrel + pear + "variety Bosc species \"Pyrus communis\"\nvariety \"Old Home\" species \"Pyrus communis\"\n\n2026-03-02\nbuy 10 scions of Bosc as WB26 from Bob\n" +
			"buy 10 scions of \"Old Home\" as WO26 from Bob\ngraft 10 of QB25 with WB26 over WO26 by cleft as BO26 worker Ines\n",
		check: onePair(unionInterstock, true, "%s does not hold on %s by itself: %s (%s); graft … over its wood"),
	}
	interstockSame = &Rule{
		Name: "interstock-same", Severity: finding.Warning,
		Summary: "an interstock is of the same variety as the top",
		Why:     "A piece of the top's own variety between stock and top changes nothing. Mostly the wrong bundle is named.",
		Bad:     kestrel + secondTree + "\n2026-03-02\ngraft 10 of QB25 with M7 over M8 by cleft as AM26 worker Ines\n",
		Good:    kestrel + twoTops + "\n2026-03-02\nbuy 10 scions of Emberlight as WE26 from Bob\ngraft 10 of QB25 with WE26 over M7/low by cleft as EM26 worker Ines\n" + lowLimb,
		check: func(p *pass) {
			p.grafts(func(b *nursery.Batch, f *fact.Graft) {
				if len(b.Lot.Inter) > 0 && b.Lot.Below[0] == b.Top {
					p.reportf(b.Entry, f.Over.Span, []string{b.Lot.Name}, "the interstock %s and the top are both %s; name the wood of the variety that goes between", f.Over.Text, b.Top)
				}
			})
		},
	}
	sameOnSame = &Rule{
		Name: "same-on-same", Severity: finding.Warning,
		Summary: "a variety is grafted on plants of the same variety",
		Why:     "The plants were that variety before. Mostly the wrong lot is named, or grafts that took are meant to be stocks.",
		Bad:     bench + "graft 5 of AM26 with M7 by cleft as AM26c worker Ines\n",
		Good:    bench + "graft 5 failed of AM26 with M7 by cleft as AM26c worker Ines\n",
		check: func(p *pass) {
			p.grafts(func(b *nursery.Batch, f *fact.Graft) {
				if b.Top.Variety != nil && b.Top == b.Stock {
					p.reportf(b.Entry, f.Of.Span, []string{b.Lot.Name}, "what is grafted here is %s already, and gets %s; name the lot of stocks, or say failed if those are meant", b.Stock, b.Top)
				}
			})
		},
	}
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

const (
	mango = `variety Harbourgold species "Mangifera indica"
buy 40 liners of Harbourgold as MG25 from "Valley Liners" for 80.00
`
	plum = `variety Stonefall species "Prunus domestica" use rootstock
buy 40 liners of Stonefall as PL25 from "Valley Liners" for 80.00
`
	pear = `variety Longneck species "Pyrus communis"
variety "Pear seedling" species "Pyrus communis" use rootstock
tree P1 variety Longneck at terrace-3 planted 2013
mark P1 verified because "leaf and fruit seen"
buy 40 liners of "Pear seedling" as PS25 from "Valley Liners" for 80.00
`
	lowLimb = `limb M7/low of M7 variety Amberlight
mark M7/low verified because "leaf and fruit seen"
`
)
