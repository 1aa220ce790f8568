package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/syntax"
)

var lookAlike = &Rule{
	Name: "look-alike", Severity: finding.Warning,
	Summary: "two names look or read so much alike that one may be a slip for the other",
	Why: "M07 and M7, bay2 and \"bay 2\", Nam Doc Mai and Nam Dok Mai: written in two ways, one tree or buyer becomes two, and each has half of the record. " +
		"Names that differ in a digit are no look-alikes, nor are varieties of which one is declared to come from the other. Where both are right, allow it on one of them.",
	Bad:  kestrel + "party \"Harbour Street market\" as customer\nparty \"Harbor Street market\" as customer\n",
	Good: kestrel + "party \"Harbour Street market\" as customer\n",
	check: func(p *pass) {
		things, varieties, species := newNames("", false), newNames("variety ", false), newNames("species ", false)
		labels := map[string]*names{}
		for _, word := range []string{"tag", "item", "task", "store", "hormone", "pot"} {
			labels[word] = newNames(word+" ", true)
		}
		p.lots(func(l *nursery.Lot) { things.add(l.Name, l.Made) })
		p.entries(func(e *fact.Entry) {
			for _, tag := range e.Tags() {
				labels["tag"].add(tag.Text, e)
			}
			switch f := e.Effect.(type) {
			case *fact.Spend:
				labels["item"].add(f.On.Text, e)
			case *fact.Work:
				labels["task"].add(f.Task.Text, e)
			case *fact.Cut:
				labels["store"].add(f.Store.Text, e)
			case *fact.Layer:
				labels["hormone"].add(f.Hormone.Text, e)
			case *fact.Begin:
				labels["hormone"].add(f.Hormone.Text, e)
			case *fact.Pass:
				labels["pot"].add(f.Label.Text, e)
			}
		})
		p.end(func() {
			for _, t := range p.Trees {
				things.add(t.Name, t.Made)
			}
			for _, l := range p.Limbs {
				things.add(l.Name, l.Made)
			}
			for _, b := range p.Bundles {
				things.add(b.Name, b.Made)
			}
			for _, v := range p.Varieties {
				varieties.add(v.Name, v.Made)
				species.add(v.Species, v.Made)
			}
			all := []*names{things, varieties, species}
			for _, list := range p.usedNames() {
				group := newNames(list.word+" ", false)
				for _, u := range list.names {
					if !list.known(u.name) {
						group.add(u.name, u.by)
					}
				}
				all = append(all, group)
			}
			for _, word := range []string{"tag", "item", "task", "store", "hormone", "pot"} {
				all = append(all, labels[word])
			}
			for _, group := range all {
				p.alike(group)
			}
		})
	},
}

// maxCompared bounds the names that are compared, in a journal of very many
// lots: the last are.
const maxCompared = 20_000

// names are names of one kind, with where each is first used.
type names struct {
	kind string
	list []string
	by   []*fact.Entry
	seen map[string]bool // of labels, which are used again and again
}

func newNames(kind string, again bool) *names {
	n := &names{kind: kind}
	if again || kind == "species " {
		n.seen = map[string]bool{}
	}
	return n
}

func (n *names) add(name string, by *fact.Entry) {
	if name == "" || n.seen[name] {
		return
	}
	if n.seen != nil {
		n.seen[name] = true
	}
	n.list = append(n.list, name)
	n.by = append(n.by, by)
}

// alike reports the names of a group that look alike, at the later of each two.
func (p *pass) alike(n *names) {
	if from := len(n.list) - maxCompared; from > 0 {
		n.list, n.by = n.list[from:], n.by[from:]
	}
	for _, pair := range p.memory.pairs(n.kind, n.list) {
		i, j := pair[0], pair[1]
		if n.by[j].Date < n.by[i].Date || n.by[j].Date == n.by[i].Date && n.by[j].Line < n.by[i].Line {
			i, j = j, i
		}
		if p.kin(n.list[i], n.list[j]) {
			continue
		}
		f := p.reportf(n.by[j], spanOf(n.by[j], n.list[j]), []string{n.list[j], n.list[i]}, "%s%s looks like %s; if they are one, write it one way, and if not, allow it on %s",
			n.kind, syntax.Spell(n.list[j]), syntax.Spell(n.list[i]), syntax.Spell(n.list[j]))
		also(f, n.by[i], "the other")
	}
}

// kin reports whether two varieties are declared with one coming from the
// other, which nobody writes by a slip.
func (p *pass) kin(a, b string) bool {
	v, ok := p.Variety(a)
	w, ok2 := p.Variety(b)
	return ok && ok2 && (v.SportOf == w || w.SportOf == v || v.SeedParent == w || w.SeedParent == v || v.Pollen == w || w.Pollen == v)
}
