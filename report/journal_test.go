package report

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/report/table"
)

// replayed reads and replays a journal.
func replayed(text string) *nursery.Nursery {
	return nursery.Replay([]*entry.Page{entry.Read(source.New("test.bud", []byte(text)))}, 0)
}

// sound is replayed, for a journal that must have no errors.
func sound(t testing.TB, text string) *nursery.Nursery {
	t.Helper()
	n := replayed(text)
	for _, f := range n.Findings {
		if f.Severity == finding.Error {
			t.Fatalf("line %d: %s", f.File.Line(f.Span.Start), f.Message)
		}
	}
	return n
}

const tangledFacts = `farm "Kestrel Hollow" currency EUR season from October
variety Amberlight species "Eriobotrya japonica"
variety Oldgate species "Eriobotrya japonica" seed polyembryonic
variety Redwing parents Oldgate x Amberlight
variety Emberlight sport of Amberlight
variety "Hedge Loquat" species "Eriobotrya japonica" use rootstock
tree M1 variety Amberlight on "Hedge Loquat" planted 2013
tree M2 variety Oldgate planted 1998
tree M3 variety Redwing planted 2016 from "Green Lane Trees"
limb M1/east of M1 variety Emberlight
limb M1/rest of M1
2020-01-01
buy 60 liners of "Hedge Loquat" as QB from "Valley Liners"
cut 90 scions from M1/rest as WA
graft 12 of QB with WA as GA
graft 12 of QB with M2 by approach as GB
2020-03-01
check GA: 6 took, 6 failed
check GB: 6 took, 6 failed
`

// tangled draws a journal in which the lines of descent cross in every way that
// the language has: regrafts, interstocks, joins, splits, releases, returns,
// layers and cuttings, seed, wood of several trees, limbs worked over and over,
// approach grafts, and trees that give wood and get new roots. Each entry has a
// day of its own.
func tangled(t *rapid.T) string {
	w := tangle{t: t, text: tangledFacts, n: replayed(tangledFacts), day: 738000}
	for range rapid.IntRange(20, 100).Draw(t, "entries") {
		w.entry()
	}
	return w.text
}

type tangle struct {
	t    *rapid.T
	text string
	n    *nursery.Nursery
	day  fact.Date
	made int
}

// entry adds one entry that the book allows, or nothing.
func (w *tangle) entry() {
	w.day++
	w.made++
	sentence := rapid.SampledFrom([]func() string{
		w.sow, w.buy, w.stick, w.layer, w.cut, w.graft, w.graft, w.graft, w.check, w.check, w.check,
		w.part, w.part, w.part, w.part, w.again, w.again, w.join, w.join, w.join, w.plant, w.plant, w.topwork, w.topwork, w.inarch, w.sell,
	}).Draw(w.t, "verb")()
	if sentence == "" {
		return
	}
	next := w.text + w.day.String() + "\n" + sentence + "\n"
	n := replayed(next)
	for _, f := range n.Findings {
		if f.Severity == finding.Error {
			return
		}
	}
	w.text, w.n = next, n
}

func (w *tangle) name() string { return fmt.Sprintf("N%d", w.made) }

func (w *tangle) of(names []string) string {
	if len(names) == 0 {
		return "nothing"
	}
	// Half of the time one of the last few, so that things are made of things.
	if rapid.Bool().Draw(w.t, "late") {
		names = names[max(0, len(names)-4):]
	}
	return rapid.SampledFrom(names).Draw(w.t, "of")
}

// inState is a state with its blank, and a lot that has plants in it.
func (w *tangle) inState(states ...fact.State) (word, lot string) {
	state := rapid.SampledFrom(states).Draw(w.t, "state")
	if state != fact.Living {
		word = state.String() + " "
	}
	return word, w.of(w.lots(state))
}

// lots are those with something in one of the states.
func (w *tangle) lots(states ...fact.State) (names []string) {
	for _, l := range w.n.Lots {
		for _, s := range states {
			if l.On[s] > 0 {
				names = append(names, l.Name)
				break
			}
		}
	}
	return names
}

func (w *tangle) trees() (names []string) {
	for _, t := range w.n.Trees {
		names = append(names, t.Name)
	}
	for _, l := range w.n.Limbs {
		names = append(names, l.Name)
	}
	return names
}

// wood is anything that scions may come from.
func (w *tangle) wood() string {
	names := w.trees()
	for _, b := range w.n.Bundles {
		names = append(names, b.Name)
	}
	return w.of(append(names, w.lots(fact.Living)...))
}

func (w *tangle) sow() string {
	from := w.of([]string{"M1", "M2", "M3", `"Seed merchant"`})
	v := map[string]string{"M1": "Amberlight", "M2": "Oldgate", "M3": "Redwing"}[from]
	if v == "" {
		v = `"Hedge Loquat"`
	}
	return fmt.Sprintf("sow 20 seed of %s as %s from %s", v, w.name(), from)
}

func (w *tangle) buy() string {
	return fmt.Sprintf(`buy 20 %s of Oldgate as %s from "Valley Liners"`, w.of([]string{"liners", "scions", "seed"}), w.name())
}

func (w *tangle) stick() string {
	return fmt.Sprintf("stick 8 cuttings of %s as %s", w.wood(), w.name())
}

func (w *tangle) layer() string {
	if failed := w.lots(fact.Failed); rapid.Bool().Draw(w.t, "again") && len(failed) > 0 {
		return fmt.Sprintf("layer 1 failed of %s as %s", w.of(failed), w.name())
	}
	return fmt.Sprintf("layer 6 on %s as %s", w.of(w.trees()), w.name())
}

func (w *tangle) cut() string {
	from := w.of(append(w.trees(), w.lots(fact.Living)...))
	if rapid.Bool().Draw(w.t, "two") {
		from += ", " + w.of(append(w.trees(), w.lots(fact.Living)...))
	}
	return fmt.Sprintf("cut 30 scions from %s as %s", from, w.name())
}

func (w *tangle) graft() string {
	state, of := w.inState(fact.Living, fact.Living, fact.Failed, fact.Waiting)
	sentence := fmt.Sprintf("graft %d %sof %s with %s as %s", w.number(), state, of, w.wood(), w.name())
	switch w.of([]string{"plain", "plain", "over", "beside", "approach"}) {
	case "over":
		sentence += " over " + w.wood()
	case "beside":
		sentence += " beside"
	case "approach":
		sentence += " by approach"
	}
	return sentence
}

func (w *tangle) number() int { return rapid.IntRange(1, 4).Draw(w.t, "number") }

func (w *tangle) check() string {
	name := w.of(w.lots(fact.Waiting))
	l, ok := w.n.Thing(name)
	if !ok {
		return ""
	}
	lot := l.(*nursery.Lot)
	word := map[nursery.BatchKind]string{nursery.GraftBatch: "took", nursery.LayerBatch: "rooted", nursery.CuttingBatch: "rooted", nursery.SeedBatch: "up"}[lot.Batch.Kind]
	waiting := lot.On[fact.Waiting]
	if lot.Batch.Kind == nursery.SeedBatch || waiting == 1 {
		return fmt.Sprintf("check %s: %d %s", name, waiting, word)
	}
	return fmt.Sprintf("check %s: %d %s, %d failed", name, waiting-waiting/2, word, waiting/2)
}

// part takes plants on into a lot of their own.
func (w *tangle) part() string {
	as := " as " + w.name()
	switch w.of([]string{"split", "release", "sever", "move", "return"}) {
	case "split":
		state, of := w.inState(fact.Living, fact.Failed, fact.Waiting)
		return fmt.Sprintf("split %d %sof %s%s", w.number(), state, of, as)
	case "release":
		return fmt.Sprintf("release 1 failed of %s%s", w.of(w.lots(fact.Failed)), as)
	case "sever":
		return fmt.Sprintf("sever 1 of %s%s", w.of(w.lots(fact.Attached)), as)
	case "move":
		return fmt.Sprintf("move 1 of %s to shade-2%s", w.of(w.lots(fact.Living)), as)
	}
	var sold []string
	for _, l := range w.n.Lots {
		if l.Out[fact.Sold] > l.Returned {
			sold = append(sold, l.Name)
		}
	}
	return fmt.Sprintf("return 1 %s of %s from Bob%s", w.of([]string{"living", "failed"}), w.of(sold), as)
}

// again goes on with plants that have been passed on already: those that were
// joined, split off, moved, released or came back.
func (w *tangle) again() string {
	var failed, living []string
	for _, l := range w.n.Lots {
		switch l.How {
		case fact.Joined, fact.SplitOff, fact.Moved, fact.Released, fact.Returned:
			if l.On[fact.Failed] > 0 {
				failed = append(failed, l.Name)
			}
			if l.On[fact.Living] > 0 {
				living = append(living, l.Name)
			}
		}
	}
	switch w.of([]string{"release", "graft", "split"}) {
	case "release":
		return fmt.Sprintf("release 1 failed of %s as %s", w.of(failed), w.name())
	case "graft":
		return fmt.Sprintf("graft 1 of %s with %s as %s", w.of(living), w.wood(), w.name())
	}
	return fmt.Sprintf("split 1 of %s as %s", w.of(living), w.name())
}

// join takes lots of one variety of which nothing waits or hangs on a tree.
func (w *tangle) join() string {
	like := map[string][]string{}
	var kinds []string
	for _, l := range w.n.Lots {
		if l.Limbs || l.On[fact.Waiting]+l.On[fact.Attached] > 0 || l.On[fact.Living]+l.On[fact.Failed] == 0 {
			continue
		}
		kind := l.Top.String()
		if len(like[kind]) == 1 {
			kinds = append(kinds, kind)
		}
		like[kind] = append(like[kind], l.Name)
	}
	lots := like[w.of(kinds)]
	return fmt.Sprintf("join %s, %s as %s", w.of(lots), w.of(lots), w.name())
}

func (w *tangle) plant() string {
	return fmt.Sprintf("plant 1 of %s as %s", w.of(w.lots(fact.Living)), w.name())
}

func (w *tangle) topwork() string {
	if rapid.Bool().Draw(w.t, "again") {
		var limbs []string
		for _, l := range w.n.Lots {
			if l.Limbs && l.On[fact.Failed]+l.On[fact.Living] > 0 {
				limbs = append(limbs, l.Name)
			}
		}
		return fmt.Sprintf("graft 1 %sof %s with %s as %s", w.of([]string{"", "failed "}), w.of(limbs), w.wood(), w.name())
	}
	return fmt.Sprintf("graft 4 limbs of %s with %s as %s", w.of(w.trees()), w.wood(), w.name())
}

func (w *tangle) inarch() string {
	return fmt.Sprintf("graft 1 of %s into %s by inarch", w.of(w.lots(fact.Living)), w.of(w.trees()))
}

func (w *tangle) sell() string {
	return fmt.Sprintf("sell 1 of %s to Bob", w.of(w.lots(fact.Living)))
}

// The journals must be as tangled as the tests that draw them need: every step of
// descent, and what is hardest to follow, must come about again and again.
func TestTangledJournalsHoldEverything(t *testing.T) {
	seen := map[string]int{}
	for i := range 100 { // as many as a property is tried with
		n := replayed(rapid.Custom(tangled).Example(i))
		for thing := range n.All() {
			for _, link := range n.Parents(nursery.Source{Thing: thing}) {
				seen["step: "+link.Step.String()]++
				for _, what := range knotsOf(thing, link) {
					seen[what]++
				}
			}
			seen["made by "+strings.ToLower(thing.Origin().Verb)]++
		}
	}
	for s := nursery.Scion; s <= nursery.OfVariety; s++ {
		if seen["step: "+s.String()] == 0 {
			t.Errorf("no step %q", s)
		}
	}
	for _, verb := range []string{"join", "split", "release", "sever", "return", "plant", "move", "layer", "stick", "sow", "cut", "graft", "buy"} {
		if seen["made by "+verb] < 5 {
			t.Errorf("%d things made by %s", seen["made by "+verb], verb)
		}
	}
	for _, what := range []string{
		"on a failed top", "one of several", "graft on a graft", "with an interstock", "beside the old top", "limbs of a tree", "limbs worked again",
		"scions of a joined lot", "stocks of a joined lot", "released from a joined lot", "part of a part", "joined of joined", "released stocks worked again",
		"released from a part", "wood of a planted tree", "wood of worked limbs", "set out from a joined lot",
	} {
		if seen[what] < 3 {
			t.Errorf("%s: %d times", what, seen[what])
		}
	}
}

// knotsOf names what is hard to follow in a step to a thing.
func knotsOf(thing nursery.Thing, link nursery.Link) (knots []string) {
	is := func(yes bool, what string) {
		if yes {
			knots = append(knots, what)
		}
	}
	is(link.Topless, "on a failed top")
	is(link.OneOf, "one of several")
	made, source := nursery.Thing(thing), link.From.Thing
	from, fromLot := source.(*nursery.Lot)
	how := func(h fact.How) bool { return fromLot && from.How == h }
	if tree, ok := source.(*nursery.Tree); ok {
		_, planted := tree.From.Thing.(*nursery.Lot)
		is(planted && (link.Step == nursery.WoodOf || link.Step == nursery.Scion), "wood of a planted tree")
	}
	is(fromLot && from.Limbs && (link.Step == nursery.WoodOf || link.Step == nursery.Scion), "wood of worked limbs")
	if tree, ok := made.(*nursery.Tree); ok {
		is(how(fact.Joined) && tree.From.Thing == source, "set out from a joined lot")
	}
	l, ok := made.(*nursery.Lot)
	if !ok {
		return knots
	}
	part := l.How == fact.SplitOff || l.How == fact.Moved
	is(l.How == fact.Grafted && link.Step == nursery.StockOf && how(fact.Grafted), "graft on a graft")
	is(l.How == fact.Grafted && link.Step == nursery.StockOf && how(fact.Joined), "stocks of a joined lot")
	is(l.How == fact.Grafted && link.Step == nursery.StockOf && how(fact.Released), "released stocks worked again")
	is(l.How == fact.Grafted && link.Step == nursery.Scion && how(fact.Joined), "scions of a joined lot")
	is(l.How == fact.Grafted && link.Step == nursery.Interstock, "with an interstock")
	is(l.Beside, "beside the old top")
	is(l.Limbs && link.Step == nursery.LimbOf, "limbs of a tree")
	is(l.Limbs && fromLot && from.Limbs && link.Step == nursery.StockOf, "limbs worked again")
	is(l.How == fact.Released && how(fact.Joined), "released from a joined lot")
	is(l.How == fact.Released && (how(fact.SplitOff) || how(fact.Moved)), "released from a part")
	is(l.How == fact.Joined && how(fact.Joined), "joined of joined")
	is(part && (how(fact.SplitOff) || how(fact.Moved)), "part of a part")
	return knots
}

func jsonOf(t testing.TB, d table.Doc) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := table.WriteJSON(&b, d); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}
