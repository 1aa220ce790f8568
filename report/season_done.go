package report

import (
	"cmp"
	"maps"
	"slices"
	"strconv"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

// done is the chapter of what was done: the work by what it was, and the hours
// by who worked.
func (b *book) done() ([]table.Doc, error) {
	doc := table.Doc{Name: "done", Title: "What was done", AsAt: b.o.AsAt.String(), Period: b.period.Table(), Basis: table.Calendar}
	acts := table.Table{Name: "acts", Title: "The work", Columns: []table.Column{
		{Name: "act", Kind: table.KindText, Group: true},
		{Name: "entries", Kind: table.KindCount},
		{Name: "hours", Kind: table.KindNumber, Decimals: 1},
	}}
	hands := table.Table{Name: "hands", Title: "The hands", Columns: []table.Column{
		{Name: "worker", Kind: table.KindText, Group: true},
		{Name: "entries", Kind: table.KindCount},
		{Name: "hours", Kind: table.KindNumber, Decimals: 1},
		{Name: "untimed", Heading: "without a time", Kind: table.KindCount},
	}, Notes: []string{"Where several worked on an entry, it counts for each of them, and so do the hours written for each."}}
	act, hand := map[string]*effort{}, map[string]*effort{}
	for _, e := range b.n.Entries {
		if !b.period.Contains(e.Date) || !isWork(e) {
			continue
		}
		a := effortOf(act, actOf(e))
		a.entries++
		for _, w := range e.Workers() {
			name := w.Worker.Text
			if known, ok := b.n.Worker(name); ok {
				name = known.Name
			}
			h := effortOf(hand, name)
			h.entries++
			if !w.Timed {
				h.untimed++
				continue
			}
			a.minutes, h.minutes = a.minutes.Plus(w.Minutes), h.minutes.Plus(w.Minutes)
		}
	}
	for _, name := range byEffort(act) {
		acts.Add(table.Text(name), table.Count(act[name].entries), act[name].hours())
	}
	for _, name := range byEffort(hand) {
		hands.Add(table.Text(name), table.Count(hand[name].entries), hand[name].hours(), table.Count(hand[name].untimed))
	}
	doc.Body = []table.Block{acts}
	if len(hands.Rows) > 0 {
		doc.Body = append(doc.Body, hands)
	}
	return []table.Doc{doc}, nil
}

// isWork reports whether an entry tells of something done, and not of how the
// journal is meant.
func isWork(e *fact.Entry) bool {
	switch e.Effect.(type) {
	case *fact.Allow, *fact.Strike, *fact.Seal:
		return false
	}
	return !fact.Declares(e.Effect)
}

// effort is how often something was done and how long it took.
type effort struct {
	entries, untimed int
	minutes          fact.Decimal
}

func (e *effort) hours() table.Cell {
	if e.minutes.Zero() {
		return table.Unknown()
	}
	return table.Number(e.minutes.Float() / 60)
}

func effortOf(m map[string]*effort, name string) *effort {
	if m[name] == nil {
		m[name] = &effort{}
	}
	return m[name]
}

// byEffort are the names, those that took longest first.
func byEffort(m map[string]*effort) []string {
	return slices.SortedFunc(maps.Keys(m), func(a, b string) int {
		return cmp.Or(cmp.Compare(m[b].minutes.Float(), m[a].minutes.Float()), cmp.Compare(m[b].entries, m[a].entries), cmp.Compare(a, b))
	})
}

// actOf is what an entry is called among the work: its verb, or the task.
func actOf(e *fact.Entry) string {
	switch f := e.Effect.(type) {
	case *fact.Work:
		return f.Task.Text
	case *fact.Tend:
		return e.Verb + ": " + f.Job.Text
	}
	return e.Verb
}

// origins is the chapter of where that came from which was sold.
func (b *book) origins() ([]table.Doc, error) {
	doc := table.Doc{Name: "origins", Title: "Origins of what was sold", AsAt: b.o.AsAt.String(), Period: b.period.Table(), Basis: table.Calendar}
	type origin struct{ variety, stock, mother, method string }
	type sale struct {
		plants int
		buyers map[string]bool
	}
	sold := map[origin]*sale{}
	lots := map[*nursery.Lot]origin{}
	for i := range b.n.Moves {
		m := &b.n.Moves[i]
		if m.How != fact.Sold || !b.period.Contains(m.Entry.Date) {
			continue
		}
		from, ok := lots[m.From]
		if !ok {
			from = origin{variety: m.From.Top.String(), mother: sharedBy(b.n, m.From, motherOf), method: sharedBy(b.n, m.From, methodOf)}
			if m.From.Grafted() {
				from.stock = m.From.Stock().String()
			}
			lots[m.From] = from
		}
		if m.FromState == fact.Failed && m.From.Grafted() { // whatever was set on it is gone
			from = origin{variety: calledInState(m.From, fact.Failed)}
		}
		s := sold[from]
		if s == nil {
			s = &sale{buyers: map[string]bool{}}
			sold[from] = s
		}
		s.plants += int(m.N)
		if f, ok := m.Entry.Effect.(*fact.Leave); ok {
			s.buyers[f.To.Text] = true
		}
	}
	t := table.Table{Name: "rows", Columns: []table.Column{
		{Name: "variety", Kind: table.KindText, Group: true},
		{Name: "stock", Heading: "on", Kind: table.KindText, Group: true},
		{Name: "mother", Kind: table.KindText, Group: true},
		{Name: "method", Kind: table.KindText, Group: true},
		{Name: "plants", Heading: "sold", Kind: table.KindCount},
		{Name: "buyers", Kind: table.KindCount},
	}}
	order := slices.SortedFunc(maps.Keys(sold), func(x, y origin) int {
		return cmp.Or(naturally(x.variety, y.variety), naturally(x.stock, y.stock), naturally(x.mother, y.mother), cmp.Compare(x.method, y.method))
	})
	total := 0
	for _, k := range order {
		t.Add(table.Text(k.variety), textOrUnknown(k.stock), textOrUnknown(k.mother), textOrUnknown(k.method), table.Count(sold[k].plants), table.Count(len(sold[k].buyers)))
		total += sold[k].plants
	}
	if len(order) > 1 {
		t.Total = []table.Cell{table.Text("all"), {}, {}, {}, table.Count(total), {}}
	}
	doc.Body = []table.Block{t}
	doc.Notes = []string{"budstick lineage NAME goes back from a lot or tree to its mothers, budstick trace NAME from a mother to every buyer."}
	if len(order) == 0 {
		doc.Notes = []string{"Nothing was sold."}
	}
	return []table.Doc{doc}, nil
}

// sharedBy is what all attempts that a lot is part of have in common, or how
// many different ones there are.
func sharedBy(n *nursery.Nursery, l *nursery.Lot, of func(*nursery.Nursery, *nursery.Batch) string) string {
	var values []string
	for _, b := range attemptsOf(l) {
		values = append(values, of(n, b))
	}
	slices.Sort(values)
	if values = slices.Compact(values); len(values) > 3 {
		return "one of " + strconv.Itoa(len(values))
	}
	return joined(values)
}
