package nursery

import (
	"fmt"
	"unicode/utf8"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	spelling "github.com/budstick/budstick/grammar/name"
)

// Thing finds a lot, tree, limb or bundle by its name.
func (n *Nursery) Thing(name string) (Thing, bool) { return find(n.things, name) }

// Variety finds a variety by its name.
func (n *Nursery) Variety(name string) (*Variety, bool) { return find(n.varieties, name) }

// Worker finds a worker by name.
func (n *Nursery) Worker(name string) (*Worker, bool) { return find(n.workers, name) }

// Party finds a party by name.
func (n *Nursery) Party(name string) (*Party, bool) { return find(n.parties, name) }

// Place finds a place by name.
func (n *Nursery) Place(name string) (*Place, bool) { return find(n.places, name) }

// Method finds a method of grafting by name.
func (n *Nursery) Method(name string) (*Method, bool) { return find(n.methods, name) }

// Cause finds a cause of loss by name.
func (n *Nursery) Cause(name string) (*Cause, bool) { return find(n.causes, name) }

// find looks a name up by its folded form; the plain names of most journals are
// folded on the spot.
func find[V any](m map[string]V, name string) (V, bool) {
	var small [32]byte
	if len(name) > len(small) {
		v, ok := m[spelling.Fold(name)]
		return v, ok
	}
	for i := range len(name) {
		c := name[i]
		switch {
		case c >= utf8.RuneSelf:
			v, ok := m[spelling.Fold(name)]
			return v, ok
		case c >= 'A' && c <= 'Z':
			c += 'a' - 'A'
		}
		small[i] = c
	}
	v, ok := m[string(small[:len(name)])]
	return v, ok
}

// keep files v under a name.
func keep[V any](m map[string]V, name string, v V) { m[spelling.Fold(name)] = v }

// mute keeps quiet about a name that an entry would have made, had it counted.
func (n *Nursery) mute(e fact.Effect) {
	var as fact.Name
	switch f := e.(type) {
	case *fact.Begin:
		as = f.As
	case *fact.Layer:
		as = f.As
	case *fact.Cut:
		as = f.As
	case *fact.Graft:
		as = f.As
	case *fact.Pass:
		as = f.As
	case *fact.Join:
		as = f.As
	case *fact.Plant:
		as = f.As
		n.muteRow(f)
	case *fact.Return:
		as = f.As
	case *fact.Tree:
		as = f.Name
	case *fact.Variety:
		as = f.Name
	case *fact.Limb:
		as = f.Name
	}
	if as.Given() {
		n.muted[spelling.Fold(as.Text)] = true
	}
}

// maxMuted bounds the names of rows that are kept quiet about.
const maxMuted = 100_000

// muteRow keeps quiet about the names that a planting would have given: the row
// as it was written, or as long as the number planted.
func (n *Nursery) muteRow(f *fact.Plant) {
	r := rowFrom(f.As.Text)
	for i := 1; i < min(max(rowOf(f).count, int(f.Count.N)), maxRow) && len(n.muted) < maxMuted; i++ {
		n.muted[spelling.Fold(r.name(i))] = true
	}
	if f.Through.Given() {
		n.muted[spelling.Fold(f.Through.Text)] = true
	}
}

// free reports whether a name can be given to something new.
func (n *Nursery) free(name fact.Name) bool {
	old, taken := n.Thing(name.Text)
	if !taken {
		return true
	}
	since := "from the beginning"
	if day := old.Origin().Date; day > 0 {
		since = "on " + day.Long()
	}
	f := n.refuse(name.Span, "name-taken", fmt.Sprintf("%s is taken: it was %s %s; give this one a name of its own",
		name.Text, kindOf(old), since), old.Label())
	f.Related = []finding.Related{{File: old.Origin().File, Span: old.Origin().Span, Message: "first here"}}
	return false
}

// kindOf says what a thing is.
func kindOf(t Thing) string {
	switch t := t.(type) {
	case *Tree:
		return "a tree"
	case *Limb:
		return "a limb"
	case *Bundle:
		if t.Noun == fact.Seed {
			return "seed"
		}
		return "wood"
	case *Lot:
		if t.Limbs {
			return "a lot of limbs"
		}
	}
	return "a lot"
}

// thing finds what an entry names, or refuses the entry.
func (n *Nursery) thing(name fact.Name) (Thing, bool) {
	if t, ok := n.Thing(name.Text); ok {
		n.touch(t)
		return t, true
	}
	n.unknown(name, "unknown-name", "")
	return nil, false
}

// touch files the entry at hand under the thing it names.
func (n *Nursery) touch(t Thing) {
	switch t := t.(type) {
	case *Lot:
		t.Entries = append(t.Entries, n.now)
	case *Tree:
		t.Entries = append(t.Entries, n.now)
	case *Limb:
		t.Entries = append(t.Entries, n.now)
	case *Bundle:
		t.Entries = append(t.Entries, n.now)
	}
}

// unknown refuses an entry for a name that nothing has, unless an entry that
// does not count would have made it.
func (n *Nursery) unknown(name fact.Name, rule, what string) {
	n.refused = true
	n.Missed[spelling.Fold(name.Text)] = true
	if n.muted[spelling.Fold(name.Text)] {
		return
	}
	meant, ok := "", false
	if rule == "unknown-variety" {
		meant, ok = n.meantVariety(name.Text)
	} else {
		meant, ok = n.meantThing(name.Text)
	}
	hint := "write it above the first use, or mend the name"
	if ok {
		hint = "did you mean " + meant + "?"
	}
	if what != "" {
		what = " as " + what
	}
	day := "here"
	if n.now.Date != 0 {
		day = "on " + n.now.Date.Long()
	}
	f := n.refuse(name.Span, rule, fmt.Sprintf("%s is not known%s %s; %s", name.Text, what, day, hint), name.Text)
	if ok {
		f.Mend = &finding.Mend{Span: name.Span, Text: spell(meant)}
	}
}

// lot finds a lot of plants (or limbs), or refuses the entry.
func (n *Nursery) lot(name fact.Name) (*Lot, bool) {
	t, ok := n.thing(name)
	if !ok {
		return nil, false
	}
	return n.asLot(t, name)
}

// asLot refuses an entry that needs a lot, as it was when the entry happened,
// and names another thing.
func (n *Nursery) asLot(t Thing, name fact.Name) (*Lot, bool) {
	lot, ok := t.(*Lot)
	if !ok {
		n.refuse(name.Span, "wrong-kind", fmt.Sprintf("%s is %s, and this entry needs a lot of plants", name.Text, kindOf(t)), t.Label())
		return nil, false
	}
	return lot, n.begun(lot, name) && n.agree(lot.Name, standsAt(lot))
}

// begun refuses an entry that happened before its plants were there.
func (n *Nursery) begun(l *Lot, name fact.Name) bool {
	if n.now.Day() >= l.Day {
		return true
	}
	f := n.refuse(name.Span, "check-before", fmt.Sprintf("%s was begun on %s, after this day; mend one of the days", l.Name, l.Day.Long()), l.Name)
	f.Related = []finding.Related{{File: l.Made.File, Span: l.Made.Span, Message: "the lot began here"}}
	return false
}

// agree refuses a place on an entry that puts nothing there, where by the book
// the thing stands elsewhere.
func (n *Nursery) agree(name string, stands *Place) bool {
	at := n.now.At()
	if !at.Given() || stands == nil {
		return true
	}
	switch n.now.Effect.(type) {
	case *fact.Check, *fact.Turn, *fact.Leave, *fact.Stocktake, *fact.Tend, *fact.Treat, *fact.Inspect, *fact.Mark, *fact.Remark, *fact.Pick, *fact.Work, *fact.Graft:
		if p, ok := n.Place(at.Text); ok && p != stands {
			n.refuse(at.Span, "place-differs", fmt.Sprintf("%s stands at %s by the book, not at %s; write the move first, or mend the place",
				name, stands.Name, at.Text), name)
			return false
		}
	}
	return true
}

// standsAt is where a thing stands, as far as the book knows.
func standsAt(t Thing) *Place {
	switch t := t.(type) {
	case *Lot:
		if t.Limbs {
			return t.Mother.Place
		}
		return t.Place
	case *Tree:
		return t.Place
	case *Limb:
		return t.Tree.Place
	}
	return nil
}

// tree finds a tree, or refuses the entry.
func (n *Nursery) tree(name fact.Name) (*Tree, bool) {
	t, ok := n.thing(name)
	if !ok {
		return nil, false
	}
	tree, ok := t.(*Tree)
	if !ok {
		n.refuse(name.Span, "wrong-kind", fmt.Sprintf("%s is %s, and this entry needs a tree", name.Text, kindOf(t)), t.Label())
		return nil, false
	}
	return tree, true
}

// variety finds a declared variety, or refuses the entry.
func (n *Nursery) variety(name fact.Name) (*Variety, bool) {
	v, ok := n.Variety(name.Text)
	if !ok {
		n.unknown(name, "unknown-variety", "a variety")
		return nil, false
	}
	v.Entries = append(v.Entries, n.now)
	return v, true
}

// know refuses an entry that is about something unknown, or elsewhere.
func (n *Nursery) know(names []fact.Name) {
	for _, name := range names {
		if _, ok := n.Variety(name.Text); ok {
			if _, thing := n.Thing(name.Text); !thing {
				continue
			}
		}
		if t, ok := n.thing(name); ok {
			n.agree(t.Label(), standsAt(t))
		}
	}
}

// firstUse finds what has a name, and makes it where nothing has: a place, a
// worker, a party, a method or a cause begins to be with its first use. No name
// is none.
func firstUse[V any](of map[string]*V, list *[]*V, name fact.Name, make func(string) *V) *V {
	if !name.Given() {
		return nil
	}
	v, ok := find(of, name.Text)
	if !ok {
		v = make(name.Text)
		keep(of, name.Text, v)
		*list = append(*list, v)
	}
	return v
}

func (n *Nursery) place(name fact.Name) *Place {
	return firstUse(n.places, &n.Places, name, func(s string) *Place { return &Place{Name: s, Used: n.now} })
}

func (n *Nursery) worker(name fact.Name) *Worker {
	return firstUse(n.workers, &n.Workers, name, func(s string) *Worker { return &Worker{Name: s, Used: n.now} })
}

func (n *Nursery) party(name fact.Name) *Party {
	return firstUse(n.parties, &n.Parties, name, func(s string) *Party { return &Party{Name: s, Used: n.now} })
}

func (n *Nursery) method(name fact.Name) *Method {
	return firstUse(n.methods, &n.Methods, name, func(s string) *Method { return &Method{Name: s, Used: n.now} })
}

func (n *Nursery) cause(name fact.Name) *Cause {
	return firstUse(n.causes, &n.Causes, name, func(s string) *Cause { return &Cause{Name: s, Used: n.now} })
}

// clauses brings in what the clauses of an entry name.
func (n *Nursery) clauses(e *fact.Entry) {
	if e.Extra == nil {
		return
	}
	n.place(e.Extra.At)
	for _, w := range e.Extra.Workers {
		n.worker(w.Worker)
	}
}
