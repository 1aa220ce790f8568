package lsp

import (
	"github.com/budstick/budstick/grammar/fact"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// A class is what a name may be the name of: one bit or several.
type class uint32

const (
	lots class = 1 << iota // of plants
	tops                   // lots of limbs
	bundles
	trees
	limbs
	varieties
	places
	workers
	parties
	methods
	causes
	items
	tasks
	tags
	stores
	hormones
	containers
	papers
	products
	certificates
	species
	rules
	limits

	things = lots | tops | bundles | trees | limbs // they share their names
	named  = things | varieties | places | workers | parties | methods | causes
	// labels need no declaration and live from their first use.
	labels = items | tasks | tags | stores | hormones | containers | papers | products | certificates | species
)

// A mention is a name where it stands in an entry.
type mention struct {
	span  source.Span // within the block, quotes and all
	key   string      // the name, folded
	of    class
	made  bool // the entry makes or declares what has the name
	fixed bool // it is part of a run of names and can't be another
}

// findNames lists the names in a block, in the order of its entries.
func (b *block) findNames() []mention {
	var list []mention
	for i := range b.page.Entries {
		list = append(list, mentionsIn(&b.page.Entries[i])...)
	}
	return list
}

// mentionsIn lists the names in an entry.
func mentionsIn(e *fact.Entry) []mention {
	var g gatherer
	g.effect(e)
	g.add(places, e.At())
	for _, w := range e.Workers() {
		g.add(workers, w.Worker)
	}
	g.add(tags, e.Tags()...)
	return g
}

// A gatherer gathers mentions.
type gatherer []mention

func (g *gatherer) add(of class, names ...fact.Name) {
	for _, n := range names {
		if n.Given() {
			*g = append(*g, mention{span: n.Span, key: spelling.Fold(n.Text), of: of})
		}
	}
}

func (g *gatherer) make(of class, n fact.Name) {
	if n.Given() {
		g.add(of, n)
		(*g)[len(*g)-1].made = true
	}
}

// effect adds the names of what an entry does: of what happens here, of what is
// declared in declared.
func (g *gatherer) effect(e *fact.Entry) {
	switch f := e.Effect.(type) {
	case *fact.Begin:
		g.begin(f)
	case *fact.Layer:
		if f.Again {
			g.add(lots, f.On)
		} else {
			g.add(trees|limbs|tops, f.On)
		}
		g.make(lots, f.As)
		g.rooting(f.Rooting)
	case *fact.Cut:
		g.add(trees|limbs|tops, f.From...)
		g.make(bundles, f.As)
		g.add(stores, f.Store)
	case *fact.Graft:
		g.graft(f)
	case *fact.Check:
		g.add(lots|tops|trees, f.Lot)
		for _, o := range f.Outcomes {
			g.add(causes, o.Cause)
		}
	case *fact.Turn:
		g.add(lots|tops, f.Lot)
		g.add(causes, f.To)
	case *fact.Pass:
		g.add(lots, f.Lot)
		g.make(lots, f.As)
		g.add(containers, f.Label)
		g.add(places, f.To)
	case *fact.Join:
		g.add(lots, f.Lots...)
		g.make(lots, f.As)
	case *fact.Leave:
		g.leave(f)
	case *fact.Plant:
		g.plant(f)
	case *fact.Return:
		g.add(lots, f.Of)
		g.add(parties, f.From)
		g.make(lots, f.As)
	case *fact.Pick:
		g.add(trees|limbs|tops, f.From...)
	case *fact.Stocktake:
		g.add(lots, f.Lots...)
	default:
		g.booked(e)
	}
}

func (g *gatherer) begin(f *fact.Begin) {
	made, of, from := lots, varieties, parties
	switch {
	case f.How == fact.Stuck:
		of = trees | limbs | tops | bundles | varieties
	case f.How == fact.Sown:
		from = parties | things
	case f.Noun == fact.Scions || f.Noun == fact.Sticks || f.Noun == fact.Seed || f.Noun == fact.Cuttings:
		made = bundles
	}
	g.add(of, f.Of)
	g.make(made, f.As)
	g.add(from, f.From...)
	g.rooting(f.Rooting)
}

func (g *gatherer) rooting(f fact.Rooting) {
	g.add(methods, f.By)
	g.add(hormones, f.Hormone)
}

func (g *gatherer) graft(f *fact.Graft) {
	if f.Noun == fact.Limbs {
		g.add(trees|limbs|tops, f.Of)
	} else {
		g.add(lots, f.Of)
	}
	g.add(bundles|trees|limbs|tops, f.With...)
	g.add(bundles|trees|limbs|tops, f.Over)
	g.add(trees, f.Into)
	g.add(methods, f.By)
	g.make(lots, f.As)
}

func (g *gatherer) leave(f *fact.Leave) {
	switch f.Noun {
	case fact.Fruit:
		g.add(trees|limbs|tops, f.Of)
	case fact.Scions, fact.Sticks:
		g.add(bundles|trees|limbs|tops, f.Of)
	default:
		g.add(things, f.Of)
	}
	if f.How == fact.Lost {
		g.add(causes, f.To)
	} else {
		g.add(parties, f.To)
	}
	g.add(papers, f.Paper)
}

func (g *gatherer) plant(f *fact.Plant) {
	g.add(lots, f.Of)
	from := len(*g)
	g.make(trees, f.As)
	g.make(trees, f.Through)
	for i := from; i < len(*g) && f.Through.Given(); i++ {
		(*g)[i].fixed = true
	}
	g.add(varieties, f.Variety)
}

// booked adds the names of entries that move no plants.
func (g *gatherer) booked(e *fact.Entry) {
	switch f := e.Effect.(type) {
	case *fact.Spend:
		g.add(items, f.On)
		g.add(things|varieties, f.For...)
		g.add(parties, f.From)
	case *fact.Work:
		g.add(tasks, f.Task)
		g.add(things|varieties, f.For...)
	case *fact.Paid:
		g.add(parties, f.From)
		g.add(papers, f.Paper)
	case *fact.Tend:
		g.add(lots|tops|trees|limbs, f.Lots...)
	case *fact.Treat:
		g.add(lots|tops|trees|limbs|places, f.Of...)
		g.add(products, f.With)
		g.add(papers, f.Number)
	case *fact.Inspect:
		g.add(lots|tops|trees|limbs|places, f.Of...)
		g.add(parties, f.By)
		g.add(certificates, f.Certificate)
	case *fact.Mark:
		g.add(lots|tops|trees|limbs|varieties, f.Of)
	case *fact.Remark:
		g.add(things|varieties, f.Of...)
	case *fact.Allow:
		g.add(rules, f.Rule)
		g.add(named|labels, f.On)
	case *fact.Strike:
		g.struck(e.File, f)
	default:
		g.declared(f)
	}
}

// struck adds the words of the line that an entry strikes.
func (g *gatherer) struck(file *source.File, f *fact.Strike) {
	for _, t := range syntax.Lex(file.Bytes, f.Span.Span, nil) {
		switch text := file.Text(t.Span); t.Kind {
		case syntax.Word:
			g.add(named, fact.Name{Text: syntax.Hyphens(text), Span: t.Span})
		case syntax.Quoted:
			g.add(named, fact.Name{Text: syntax.Unquote(text), Span: t.Span})
		}
	}
}

// declared adds the names of standing facts.
func (g *gatherer) declared(e fact.Effect) {
	switch f := e.(type) {
	case *fact.Variety:
		g.make(varieties, f.Name)
		g.add(species, f.Species)
		for _, parent := range []fact.Name{f.SeedParent, f.Pollen, f.SportOf} {
			if parent.Text != "unknown" {
				g.add(varieties, parent)
			}
		}
	case *fact.Tree:
		g.make(trees, f.Name)
		g.add(varieties, f.Variety, f.On)
		g.add(parties|things, f.From)
	case *fact.Limb:
		g.make(limbs, f.Name)
		g.add(trees, f.Of)
		g.add(varieties, f.Variety)
	case *fact.Place:
		g.make(places, f.Name)
	case *fact.Worker:
		g.make(workers, f.Name)
	case *fact.Party:
		g.make(parties, f.Name)
	case *fact.Method:
		g.make(methods, f.Name)
	case *fact.Cause:
		g.make(causes, f.Name)
	case *fact.Limit:
		g.add(limits, f.Rule)
		g.add(varieties|methods|places|species, f.For)
	case *fact.Quote:
		g.add(varieties, f.Of)
		g.add(parties, f.To)
	case *fact.Share:
		g.add(items|tasks, f.Labels...)
	}
}
