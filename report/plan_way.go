package report

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
)

// A way is how a nursery makes trees of a variety: by what, on what, and how it
// comes by the stocks.
type way struct {
	n       *nursery.Nursery
	variety *nursery.Variety
	kind    nursery.BatchKind
	stock   *nursery.Variety // of grafts
	// raised is how the stocks came to be; bought ones have none.
	raised nursery.BatchKind
	bought bool
}

// wayOf is the way that was gone most often with a variety, else with its
// species.
func wayOf(n *nursery.Nursery, v *nursery.Variety) (*way, error) {
	same := func(id nursery.Identity) bool { return id.Variety == v }
	related := func(id nursery.Identity) bool {
		return v.Species != "" && id.Species() == v.Species && !id.Variety.Fact.Rootstock
	}
	for _, among := range []func(nursery.Identity) bool{same, related} {
		count := map[nursery.BatchKind]int32{}
		for _, b := range n.Batches {
			if among(b.Top) && !b.Limbs {
				count[b.Kind] += b.Made
			}
		}
		if kind, ok := commonest(count); ok {
			w := &way{n: n, variety: v, kind: kind}
			if kind == nursery.GraftBatch {
				w.findStock(among)
			}
			return w, nil
		}
	}
	return nil, fmt.Errorf("no graft, layer, cutting or seed of %s is in the journal, nor of its species, so there is nothing to reckon from", v.Name)
}

// findStock finds what most of the grafts stand on, and how that was come by.
func (w *way) findStock(among func(nursery.Identity) bool) {
	stocks := map[*nursery.Variety]int32{}
	for _, b := range w.n.Batches {
		if w.worked(b, among) {
			stocks[b.Stock.Variety] += b.Made
		}
	}
	order := slices.SortedFunc(maps.Keys(stocks), func(a, b *nursery.Variety) int {
		return cmp.Or(cmp.Compare(stocks[b], stocks[a]), cmp.Compare(a.Name, b.Name))
	})
	if len(order) == 0 {
		return
	}
	w.stock = order[0]
	raised := map[nursery.BatchKind]int32{}
	bought := int32(0)
	for _, b := range w.n.Batches {
		if !w.worked(b, among) || b.Stock.Variety != w.stock {
			continue
		}
		if from := lastBatch(b.From); from != nil {
			raised[from.Kind] += b.Made
		} else {
			bought += b.Made
		}
	}
	kind, ok := commonest(raised)
	w.raised, w.bought = kind, !ok || bought >= raised[kind]
}

// worked reports whether attempts are first grafts on plants of a known kind.
func (w *way) worked(b *nursery.Batch, among func(nursery.Identity) bool) bool {
	return b.Kind == nursery.GraftBatch && b.Ordinal == 1 && b.From != nil && b.Stock.Variety != nil && among(b.Top)
}

// commonest is the kind of which there is most; ok is false where there is none.
func commonest(count map[nursery.BatchKind]int32) (most nursery.BatchKind, ok bool) {
	for kind := nursery.GraftBatch; kind <= nursery.SeedBatch; kind++ {
		if count[kind] > count[most] {
			most = kind
		}
	}
	return most, count[most] > 0
}

// A gate is what each plant has to pass: one link, or a second one for those
// that failed at the first.
type gate struct {
	links  []link
	chance stat.Chance
}

func through(l link) gate { return gate{[]link{l}, l.chance} }

// gates are the gates of a way, in order.
func (w *way) gates(r *records) []gate {
	var gates []gate
	if w.kind == nursery.GraftBatch && w.stock != nil {
		if !w.bought {
			gates = append(gates, through(w.start(r, w.raised, w.stock)))
		}
		l := link{name: stockLink, what: "stocks that were fit to work"}
		gates = append(gates, through(r.grown(l, w.stock, "stock-age", w.ofKind(w.raised, !w.bought), w.bought)))
	}
	first := through(w.start(r, w.kind, w.variety))
	if w.kind == nursery.GraftBatch && !first.links[0].unknown {
		if again := r.again(w.variety); !again.unknown && (again.assumed || again.pool().X > 0) {
			first = gate{[]link{first.links[0], again}, first.chance.OrThen(again.chance)}
		}
	}
	l := link{name: saleLink, what: "young trees that came to sale"}
	last := through(r.grown(l, w.variety, "saleable-age", w.ofKind(w.kind, true), false))
	return append(gates, first, last)
}

// ofKind is whether attempts are of a kind, if they count at all.
func (w *way) ofKind(kind nursery.BatchKind, counts bool) func(*nursery.Batch) bool {
	return func(b *nursery.Batch) bool { return counts && b.Kind == kind && !b.Limbs }
}

// start is the link with which attempts of a kind begin.
func (w *way) start(r *records, kind nursery.BatchKind, v *nursery.Variety) link {
	switch kind {
	case nursery.GraftBatch:
		return r.attempts(takeLink, "grafts that took", kind, v)
	case nursery.SeedBatch:
		return r.attempts(seedLink, "seeds that came up", kind, v)
	}
	return r.attempts(rootLink, wordings[kind].many+" that rooted", kind, v)
}

// workedAgain is the share of the failed stocks of a species that were worked
// again.
func (w *way) workedAgain() float64 {
	ends := endsOfStocks(w.n)
	var again, failed int32
	for _, b := range w.n.Batches {
		if b.Kind == nursery.GraftBatch && b.Ordinal == 1 && !b.Limbs && b.Top.Species() == w.variety.Species {
			again += ends[b].again
			failed += b.Failed
		}
	}
	if failed == 0 {
		return 0
	}
	return min(1, float64(again)/float64(failed))
}
