package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

var trace = &Report{
	Name:    "trace",
	Summary: "what came of a tree, lot or bundle, where it stands and who bought it: the list for a recall",
	Long: `Goes down from a mother tree, lot, limb, bundle, variety or supplier to everything that came of it by any step, as
scion, stock, interstock or seed, also where a top failed and its stock was worked again: what is on hand and where, and
what was sold or given, to whom and when. As CSV it is the list of buyers; --part on_hand is what stands.

With --since only what was taken from it on that day or later counts, and what came of that. With --clones only what has
the same genotype at its top: for a plant that is not what its name says, where a sick one concerns all that met it.`,
	Example: "M7 --since 2025-01-01",
	Subject: OneThing,
	Takes:   Deep | Since | Genotype,
	Build:   buildTrace,
}

func buildTrace(n *nursery.Nursery, o Options) (*table.Doc, error) {
	s, err := subjectNamed(n, o.Name)
	if err != nil {
		return nil, err
	}
	descent, title := n.Descent(), "What came of "+s.Label()
	if o.Clones {
		descent, title = n.Genotypes(), "What is of the genotype of "+s.Label()
	}
	d := descentDrawing{n: n, reach: descent.Down(o.Period().First, s.Source), options: o}
	reached := map[nursery.Thing]bool{}
	for _, source := range d.reach.Sources {
		if source.Thing != nil {
			reached[source.Thing] = true
		}
	}
	r := recall{n, o.Period(), func(t nursery.Thing) bool { return reached[t] }}
	doc := calendar(n, o, "trace", title)
	doc.Cautions = append(doc.Cautions, standingMarks(s)...)
	doc.Cautions = append(doc.Cautions, "Where plants went is no decision on what must be done: a disease or pest that has to be reported is a matter for the plant health authority.")
	buyers, hand := r.buyers(), r.onHand()
	doc.Body = append([]table.Block{subjectFacts(n, s), buyers, hand}, d.blocks(s, title)...)
	doc.Notes = append(d.notes, traceSums(hand, buyers, s))
	return doc, nil
}

// standingMarks say what is held against a subject.
func standingMarks(s subject) []string {
	var marks []nursery.Mark
	switch t := s.Thing.(type) {
	case *nursery.Tree:
		marks = t.Marks
	case *nursery.Lot:
		marks = t.Marks
	case *nursery.Limb:
		marks = t.Marks
	}
	if s.Variety != nil {
		marks = s.Variety.Marks
	}
	var out []string
	for _, m := range marks {
		if f, ok := m.Entry.Effect.(*fact.Mark); ok && m.Cleared == nil && m.Word != "verified" {
			why := ""
			if f.Why.Given() {
				why = ": " + f.Why.Text
			}
			out = append(out, fmt.Sprintf("%s is marked %s since %s%s.", s.Label(), m.Word, m.Day.Long(), why))
		}
	}
	return out
}

// A recall lists what became of the things concerned.
type recall struct {
	n         *nursery.Nursery
	period    Period // of what left
	concerned func(nursery.Thing) bool
}

// onHand lists what stands of the things concerned, and what was planted
// without a name.
func (r recall) onHand() table.Table {
	t := table.Table{Name: "on_hand", Title: "On hand", Columns: []table.Column{
		{Name: "what", Kind: table.KindText, Group: true},
		{Name: "variety", Kind: table.KindText},
		{Name: "state", Kind: table.KindText, Spare: 1},
		{Name: "place", Kind: table.KindText},
		{Name: "count", Kind: table.KindCount},
	}}
	add := func(s subject, called, state string, place *nursery.Place, count int32) {
		t.Add(table.Text(s.Label()), textOrUnknown(called), table.Text(state), textOrUnknown(placeName(place)), table.Count(count))
	}
	for _, l := range r.n.Lots {
		if !r.concerned(l) {
			continue
		}
		for s := fact.Waiting; s < fact.States; s++ {
			switch {
			case l.On[s] == 0:
			case l.Limbs:
				add(of(l), calledInState(l, s), s.String()+" limbs of "+l.Mother.Name, l.Mother.Place, l.On[s])
			default:
				add(of(l), calledInState(l, s), s.String(), l.Place, l.On[s])
			}
		}
	}
	for i := range r.n.Moves {
		m := &r.n.Moves[i]
		if f, ok := m.Entry.Effect.(*fact.Plant); ok && !f.As.Given() && r.concerned(m.From) {
			place, _ := r.n.Place(m.Entry.At().Text)
			add(of(m.From), m.From.Top.String(), "planted "+m.Entry.Day().String()+", not followed", place, m.N)
		}
	}
	for _, tree := range r.n.Trees {
		if r.concerned(tree) && tree.Standing() {
			add(of(tree), tree.Identity().String(), "tree", tree.Place, 1)
		}
	}
	for _, b := range r.n.Bundles {
		if left, known := b.Left(); r.concerned(b) && known && left > 0 {
			add(of(b), of(b).called(), b.Noun.String(), nil, left)
		}
	}
	return t
}

// A handing is something that left the nursery, or came back.
type handing struct {
	day               fact.Date
	party, how, paper string
	what              nursery.Thing
	species, called   string
	on                table.Cell // what it stands on
	state             string
	count             int32 // 0 where it is not known
}

// buyers lists what was sold or given of the things concerned, and what came
// back, by who has it.
func (r recall) buyers() table.Table {
	t := table.Table{Name: "buyers", Title: "Sold and given", Columns: []table.Column{
		{Name: "party", Kind: table.KindText, Group: true},
		{Name: "date", Kind: table.KindDate},
		{Name: "how", Kind: table.KindText},
		{Name: "what", Kind: table.KindText},
		{Name: "variety", Kind: table.KindText, Spare: 2},
		{Name: "state", Kind: table.KindText, Spare: 4},
		{Name: "count", Kind: table.KindCount},
		{Name: "paper", Kind: table.KindText, Spare: 3},
		{Name: "party_note", Kind: table.KindText, Spare: 1},
	}}
	list := r.handings()
	slices.SortStableFunc(list, func(a, b handing) int { return cmp.Or(strings.Compare(a.party, b.party), cmp.Compare(a.day, b.day)) })
	notes := partyNotes(r.n)
	if !slices.ContainsFunc(list, func(h handing) bool { return notes[h.party] != "" }) {
		t.Columns[len(t.Columns)-1].For = table.Machines // nothing to read there
	}
	for _, h := range list {
		count := table.Unknown()
		if h.count > 0 {
			count = table.Count(h.count)
		}
		t.Add(textOrUnknown(h.party), table.Date(h.day.String()), table.Text(h.how), table.Text(h.what.Label()), textOrUnknown(h.called),
			table.Text(h.state), count, textOrUnknown(h.paper), textOrUnknown(notes[h.party]))
	}
	return t
}

// handings go through what was done since the day, in order: plants by the
// moves of their lots, wood and seed by what was taken out of bundles, and trees
// and fresh wood by the entries themselves.
func (r recall) handings() []handing {
	var list []handing
	add := func(e *fact.Entry, t nursery.Thing, called, state string, count int32) {
		f, ok := e.Effect.(*fact.Leave)
		if ok && (f.How == fact.Sold || f.How == fact.Given) && r.concerned(t) && r.period.Contains(e.Day()) {
			h := handing{e.Day(), r.partyName(f.To), f.How.String(), f.Paper.Text, t, of(t).identity().Species(), called, standsOn(t), state, count}
			if l, lot := t.(*nursery.Lot); lot && state == fact.Failed.String() && l.Grafted() {
				h.species, h.on = l.Stock().Species(), table.Unknown() // plain stocks
			}
			list = append(list, h)
		}
	}
	for i := range r.n.Moves {
		if m := &r.n.Moves[i]; m.From != nil && (m.How == fact.Sold || m.How == fact.Given) {
			add(m.Entry, m.From, calledInState(m.From, m.FromState), m.FromState.String(), m.N)
		}
	}
	for i := range r.n.Uses {
		u := &r.n.Uses[i]
		add(u.Entry, u.From, of(u.From).called(), u.From.Noun.String(), u.N)
	}
	for _, e := range r.n.Entries {
		if r.n.Refused[e] {
			continue
		}
		switch f := e.Effect.(type) {
		case *fact.Leave:
			thing, ok := r.n.Thing(f.Of.Text)
			if !ok || f.Noun == fact.Fruit {
				continue
			}
			switch t := thing.(type) {
			case *nursery.Tree:
				if f.Noun == fact.Scions {
					add(e, t, of(t).called(), "scions", f.Count.N)
				} else if t.GoneBy == e {
					add(e, t, of(t).called(), "tree", 1)
				}
			case *nursery.Limb:
				add(e, t, of(t).called(), "scions", f.Count.N)
			case *nursery.Lot:
				if f.Noun == fact.Scions {
					add(e, t, t.Top.String(), "scions", f.Count.N)
				}
			}
		case *fact.Return:
			if l, ok := r.lot(f.Of); ok && r.concerned(l) && r.period.Contains(e.Day()) {
				state := f.State.String()
				if f.Dead {
					state = "dead"
				}
				list = append(list, handing{e.Day(), r.partyName(f.From), "returned", "", l, l.Top.Species(), l.Top.String(), standsOn(l), state, f.Count.N})
			}
		}
	}
	return list
}

func (r recall) lot(name fact.Name) (*nursery.Lot, bool) {
	t, _ := r.n.Thing(name.Text)
	l, ok := t.(*nursery.Lot)
	return l, ok
}

// partyName is a party's name as it was first written, so that one party is one
// however it was written since.
func (r recall) partyName(name fact.Name) string {
	if p, ok := r.n.Party(name.Text); ok {
		return p.Name
	}
	return name.Text
}

// partyNotes are the notes on the declarations of parties, such as a telephone
// number.
func partyNotes(n *nursery.Nursery) map[string]string {
	notes := map[string]string{}
	for _, e := range n.Entries {
		if f, ok := e.Effect.(*fact.Party); ok && e.Extra != nil {
			var texts []string
			for _, note := range e.Extra.Notes {
				texts = append(texts, note.Text)
			}
			if p, ok := n.Party(f.Name.Text); ok {
				notes[p.Name] = strings.Join(texts, "; ")
			}
		}
	}
	return notes
}

func traceSums(hand, buyers table.Table, s subject) string {
	if len(hand.Rows) == 0 && len(buyers.Rows) == 0 {
		return "Nothing on hand and nothing sold comes from " + s.Label() + "."
	}
	parties := map[string]bool{}
	for _, row := range buyers.Rows {
		parties[row[0].Plain()] = true
	}
	return fmt.Sprintf("%s on hand; %s to %s.", counted(len(hand.Rows), "line", "lines"),
		counted(len(buyers.Rows), "line", "lines"), counted(len(parties), "party", "parties"))
}
