package nursery

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"pgregory.net/rapid"

	"github.com/budstick/budstick/grammar/fact"
)

// header declares what generated journals are about.
const header = `limit first-check 21 days
limit layer-first-check 28 days
limit cutting-first-check 28 days
limit loss 50 %
variety Amber species "Eriobotrya japonica" seed monoembryonic
variety Tern species "Eriobotrya japonica"
variety Green species "Mangifera indica" seed polyembryonic
variety Quince species "Cydonia oblonga"
variety Fig species "Ficus carica"
`

var headerTops = map[string]string{"T1": "Amber", "T2": "Amber", "T3": "Tern", "T4": "Tern", "T5": "Quince", "T6": "Fig"}

// A writer writes a journal at random, entry by entry. It keeps the naive book
// and knows for each entry whether it contradicts it.
type writer struct {
	*rapid.T
	plainBook
	seq  int
	last sentence // written last
}

// A sentence is an entry of the journal.
type sentence struct {
	text  string
	valid bool
}

func newWriter(t *rapid.T) *writer {
	w := &writer{T: t}
	w.day = 739_000
	for _, name := range []string{"T1", "T2", "T3", "T4", "T5", "T6"} {
		w.trees = append(w.trees, &plainTree{name: name, top: headerTops[name], state: "living"})
	}
	return w
}

// kinds are what may be written next.
func (w *writer) kinds() map[string]func() {
	return map[string]func(){
		"day": w.nextDay, "buy": w.buy, "sow": w.sow, "stick": w.stick, "layer": w.layer, "layer again": w.layerAgain, "cut": w.cutWood,
		"graft 1": w.graft, "graft 2": w.graft, "graft 3": w.graft, "limbs": w.limbs, "inarch": w.inarch,
		"check 1": w.check, "check 2": w.check, "check 3": w.check, "check tree": w.checkTree, "sample": w.sample,
		"fail": w.fail, "revive": w.revive, "release": w.release, "sever": w.sever, "split": w.split, "shift": w.shift, "shift all": w.shiftAll, "join": w.join,
		"leave 1": w.leavePart, "leave 2": w.leavePart, "leave all": w.leaveAll, "leave tree": w.leaveTree, "leave wood": w.leaveWood,
		"plant": w.plantOut, "return": w.takeBack, "count 1": w.count, "count 2": w.count, "other": w.other, "slip": w.slip,
	}
}

// actions are the kinds as rapid takes them.
func (w *writer) actions() map[string]func(*rapid.T) {
	actions := map[string]func(*rapid.T){}
	for name, act := range w.kinds() {
		actions[name] = func(t *rapid.T) {
			w.T = t
			defer func() {
				if r := recover(); r == (noEntry{}) {
					t.Skip("nothing to write about")
				} else if r != nil {
					panic(r)
				}
			}()
			act()
		}
	}
	return actions
}

// write writes so many entries, less those for which there was nothing to write
// about.
func (w *writer) write(t *rapid.T, entries int, hold func(*rapid.T)) {
	w.T = t
	kinds := w.kinds()
	names := append([]string{"nothing"}, slices.Sorted(maps.Keys(kinds))...) // the first is what a failing journal shrinks to
	for range entries {
		if act := kinds[rapid.SampledFrom(names).Draw(t, "action")]; act != nil {
			func() {
				defer func() {
					if r := recover(); r != nil && r != (noEntry{}) {
						panic(r)
					}
				}()
				act()
			}()
		}
		hold(t)
	}
}

// noEntry is panicked with where there is nothing to write about.
type noEntry struct{}

// put writes an entry; do is done to the book if the entry is valid.
func (w *writer) put(valid bool, do func(), format string, args ...any) {
	w.last = sentence{text: fmt.Sprintf(format, args...), valid: valid}
	if valid && do != nil {
		do()
	}
}

func (w *writer) num(from, to int, what string) int { return rapid.IntRange(from, to).Draw(w.T, what) }
func (w *writer) coin(what string) bool             { return rapid.Bool().Draw(w.T, what) }
func (w *writer) rarely(what string) bool           { return w.num(0, 11, what) == 11 }

func (w *writer) name(prefix string) string {
	w.seq++
	return fmt.Sprintf("%s%d", prefix, w.seq)
}

// oneOf takes one of a list, or gives the action up.
func oneOf[V any](w *writer, list []V, what string) V {
	if len(list) == 0 {
		panic(noEntry{}) // none
	}
	return rapid.SampledFrom(list).Draw(w.T, what)
}

// someLot is a lot of which something is true.
func (w *writer) someLot(what string, is func(*plainLot) bool) *plainLot {
	var list []*plainLot
	for _, l := range w.lots {
		if is(l) {
			list = append(list, l)
		}
	}
	return oneOf(w, list, what)
}

// state is a state in which a lot has plants; rarely any.
func (w *writer) state(l *plainLot, among ...string) string {
	if !w.rarely("any state") {
		among = slices.DeleteFunc(slices.Clone(among), func(s string) bool { return l.has(s) == 0 })
	}
	return oneOf(w, among, "state")
}

// portion is a number of plants that a lot has in a state; rarely too many.
func (w *writer) portion(has int) int {
	if w.rarely("too many") {
		return has + w.num(1, 5, "more")
	}
	if w.coin("all") {
		return max(has, 1)
	}
	return w.num(1, max(has, 1), "part")
}

func (w *writer) nextDay() {
	w.day += w.num(1, 30, "days")
	w.put(true, nil, "")
}

func (w *writer) buy() {
	as := w.name("B")
	n := w.num(1, 40, "bought")
	switch top := oneOf(w, []string{"Quince", "Amber", "Tern"}, "variety"); w.num(0, 3, "noun") {
	case 0, 1:
		w.put(true, func() { w.begin(&plainLot{name: as, stack: []string{top}}, n, "living", 0) }, "buy %d liners of %s as %s", n, top, as)
	case 2:
		w.put(true, func() { w.wood = append(w.wood, &plainWood{name: as, top: top, count: n}) }, "buy %d scions of %s as %s", n, top, as)
	default:
		w.put(true, func() { w.wood = append(w.wood, &plainWood{name: as, top: top, seed: true, count: n}) }, "buy %d seed of %s as %s", n, top, as)
	}
}

func (w *writer) sow() {
	as, n := w.name("S"), w.num(1, 40, "sown")
	top := oneOf(w, []string{"Green", "Amber", "Quince"}, "variety")
	var seed []*plainWood
	for _, b := range w.wood {
		if b.seed && b.top == top {
			seed = append(seed, b)
		}
	}
	l := &plainLot{name: as, stack: []string{"seedling of " + top}, kind: "seed"}
	if len(seed) > 0 && w.coin("from bought seed") {
		from := oneOf(w, seed, "seed")
		w.put(n <= from.left(), func() { from.used += n; w.begin(l, n, "waiting", 0) }, "sow %d seed of %s as %s from %s", n, top, as, from.name)
		return
	}
	w.put(true, func() { w.begin(l, n, "waiting", 0) }, "sow %d seed of %s as %s from Merchant", n, top, as)
}

// givesWood reports whether wood can be taken from a tree by its own name.
func (t *plainTree) givesWood() bool { return !t.gone && t.state == "living" && t.oneTop() }

func (t *plainTree) oneTop() bool {
	return !(t.beside && t.below != t.top) && !slices.ContainsFunc(t.tops, func(l *plainLot) bool { return l.top() != t.top && l.has("living", "waiting") > 0 })
}

func (w *writer) stick() {
	as, n := w.name("C"), w.num(1, 20, "stuck")
	t := oneOf(w, w.trees, "tree")
	w.put(t.givesWood(), func() { w.begin(&plainLot{name: as, stack: []string{t.top}, kind: "cutting"}, n, "waiting", 28) }, "stick %d cuttings of %s as %s", n, t.name, as)
}

func (w *writer) layer() {
	as, n := w.name("L"), w.num(1, 12, "layered")
	t := oneOf(w, w.trees, "tree")
	w.put(t.givesWood(), func() {
		l := w.begin(&plainLot{name: as, stack: []string{t.top}, kind: "layer", mother: t}, n, "waiting", 28)
		t.hanging = append(t.hanging, l)
	}, "layer %d on %s as %s", n, t.name, as)
}

func (w *writer) layerAgain() {
	from := w.someLot("lot", func(l *plainLot) bool { return l.kind == "layer" && l.has("failed") > 0 })
	as, n := w.name("L"), w.portion(from.has("failed"))
	w.put(from.mother != nil && n <= from.has("failed"), func() {
		l := w.begin(&plainLot{name: as, stack: from.stack, kind: "layer", mother: from.mother}, 0, "", 28)
		l.mother.hanging = append(l.mother.hanging, l)
		for _, p := range from.pass("failed", n, l, "waiting", "gone") {
			*p = plainPlant{state: "waiting", try: &plainTry{}}
			l.trial.tries = append(l.trial.tries, p.try)
		}
	}, "layer %d failed of %s as %s", n, from.name, as)
}

func (w *writer) cutWood() {
	as, n := w.name("W"), w.num(1, 60, "cut")
	t := oneOf(w, w.trees, "tree")
	b := &plainWood{name: as, top: t.top, count: n}
	what := fmt.Sprintf("%d scions", n)
	switch w.num(0, 3, "sticks") {
	case 0:
		buds := w.num(1, 6, "buds")
		b.count *= buds
		what = fmt.Sprintf("%d sticks of %d buds", n, buds)
	case 1:
		b.count = -1
		what = fmt.Sprintf("%d sticks", n)
	}
	w.put(t.givesWood(), func() { w.wood = append(w.wood, b) }, "cut %s from %s as %s", what, t.name, as)
}

// scions chooses the wood of a graft: its name, what it is, whether it can be
// used, the tree it still hangs on, and how to use it.
func (w *writer) scions() (name, top string, ok bool, tree *plainTree, use func(int)) {
	var bundles []*plainWood
	for _, b := range w.wood {
		if !b.seed {
			bundles = append(bundles, b)
		}
	}
	if len(bundles) == 0 || w.coin("from a tree") {
		t := oneOf(w, w.trees, "tree")
		return t.name, t.top, t.givesWood(), t, func(int) {}
	}
	first := oneOf(w, bundles, "wood")
	second := oneOf(w, bundles, "more wood")
	if second == first || second.top != first.top && !w.rarely("mixed wood") {
		return first.name, first.top, true, nil, func(n int) { first.used += n }
	}
	return first.name + ", " + second.name, first.top, first.top == second.top, nil, func(n int) {
		for range n {
			if first.count < 0 || first.left() > 0 {
				first.used++
			} else {
				second.used++
			}
		}
	}
}

func (w *writer) graft() {
	from := w.someLot("stocks", func(l *plainLot) bool { return l.has(onHand...) > 0 })
	state := w.state(from, "living", "failed", "waiting", "attached")
	n := w.portion(from.has(state))
	wood, top, ok, tree, use := w.scions()
	as := w.name("G")
	ok = ok && n <= from.has(state) && (from.limbs && state != "attached" || n <= from.free(state))
	text := fmt.Sprintf("graft %d %s of %s with %s", n, state, from.name, wood)
	each := 1
	if w.rarely("several scions") {
		each = w.num(2, 3, "scions")
		text += fmt.Sprintf(" scions %d", each)
	}
	l := &plainLot{name: as, kind: "graft", limbs: from.limbs, stack: from.stack}
	if state != "living" {
		l.stack = from.bare()
	}
	if !from.limbs && w.rarely("beside") {
		l.beside = true
		text += " beside"
	}
	if !l.beside && w.rarely("over") {
		t := oneOf(w, w.trees, "interstock")
		ok = ok && t.givesWood()
		l.inter = true
		l.stack = append([]string{t.top}, l.stack...)
		text += " over " + t.name
	}
	l.stack = append([]string{top}, l.stack...)
	if from.limbs {
		l.mother = from.mother
	} else if tree != nil && w.rarely("approach") {
		l.mother = tree
		text += " by approach"
	} else {
		text += " by cleft"
	}
	w.put(ok, func() { w.setScions(from, state, n, l, each, use) }, "%s as %s", text, as)
}

// setScions grafts n plants of a lot.
func (w *writer) setScions(from *plainLot, state string, n int, l *plainLot, each int, use func(int)) {
	use(n * each)
	w.begin(l, 0, "", 21)
	l.trial.each = each
	if l.limbs {
		l.mother.tops = append(l.mother.tops, l)
	} else if l.mother != nil {
		l.mother.hanging = append(l.mother.hanging, l)
	}
	for _, p := range from.pass(state, n, l, "waiting", "used") {
		if state == "waiting" {
			p.try.out = "left"
			p.failed = p.last
		}
		if p.bare || state == "living" && from.beside {
			p.failed = 0
		}
		*p = plainPlant{state: "waiting", try: &plainTry{}, failed: p.failed, last: p.failed + 1}
		l.trial.tries = append(l.trial.tries, p.try)
		if l.trial.ordinal != 0 && l.trial.ordinal != p.last {
			l.trial.unequal = true
		}
		l.trial.ordinal = max(l.trial.ordinal, p.last)
	}
}

// limbs works limbs of a tree.
func (w *writer) limbs() {
	t := oneOf(w, w.trees, "tree")
	if slices.ContainsFunc(w.trees[:4], func(o *plainTree) bool { return o == t }) && !w.rarely("a mother") {
		panic(noEntry{}) // the mothers keep their tops
	}
	n := w.num(1, 6, "limbs")
	wood, top, ok, _, use := w.scions()
	as := w.name("K")
	l := &plainLot{name: as, stack: []string{top, t.top}, kind: "graft", limbs: true, mother: t}
	w.put(ok && !t.gone, func() {
		use(n)
		w.begin(l, n, "waiting", 21)
		t.tops = append(t.tops, l)
		l.trial.ordinal = 1
		for _, p := range l.plants {
			p.last = 1
		}
	}, "graft %d limbs of %s with %s by bark as %s", n, t.name, wood, as)
}

func (w *writer) inarch() {
	from := w.someLot("seedlings", func(l *plainLot) bool { return l.free("living") > 0 })
	t := oneOf(w, w.trees, "tree")
	n := w.portion(from.free("living"))
	w.put(!t.gone && n <= from.free("living"), func() { from.leave("living", "used", n) }, "graft %d of %s into %s by inarch", n, from.name, t.name)
}

var goodWords = map[string]string{"graft": "took", "layer": "rooted", "cutting": "rooted", "seed": "up"}

func (w *writer) check() {
	l := w.someLot("lot", func(l *plainLot) bool { return l.has("waiting") > 0 })
	waiting := l.has("waiting")
	good := w.num(0, waiting, "good")
	failed := w.num(0, waiting-good, "failed")
	dead := w.num(0, waiting-good-failed, "dead")
	unsure := w.num(0, waiting-good-failed-dead, "unsure")
	if w.rarely("too many") {
		good += waiting + 1
	}
	day := w.day
	if w.rarely("happened") {
		day = max(l.day, w.day-w.num(0, 20, "days ago"))
	}
	upper := 0
	if l.inter {
		upper = w.num(0, failed, "upper")
	}
	if l.kind == "seed" {
		failed = 0
	}
	valid := good+failed+dead+unsure <= waiting
	plants := good
	with := ""
	switch {
	case l.kind == "seed" && l.top() == "seedling of Green" && good > waiting && dead+unsure < waiting:
		valid = true // plants were counted
		plants, good = good, waiting-dead-unsure
	case l.kind == "seed" && good > 0 && w.rarely("several a seed"):
		plants += w.num(0, 4, "more plants")
		valid = valid && (plants == good || l.top() != "seedling of Amber")
		with = fmt.Sprintf(" with %d plants", plants)
	case l.kind == "graft" && w.rarely("scions"):
		alive := w.num(0, good*(l.trial.each+1)+1, "alive")
		valid = valid && alive >= good && alive <= good*l.trial.each
		with = fmt.Sprintf(" with %d scions", alive)
	}
	shown := good
	if with == "" {
		shown = plants
	}
	text := fmt.Sprintf("check %s: %d %s%s", l.name, shown, goodWords[l.kind], with)
	if failed-upper > 0 {
		text += fmt.Sprintf(", %d failed", failed-upper)
	}
	if upper > 0 {
		text += fmt.Sprintf(", %d upper", upper)
	}
	text += fmt.Sprintf(", %d dead to rot, %d unsure", dead, unsure)
	if day != w.day {
		text += " happened " + date(day)
	}
	w.put(valid, func() { l.verdicts(good, failed, upper, dead, plants) }, "%s", text)
}

// verdicts gives waiting plants theirs.
func (l *plainLot) verdicts(good, failed, upper, dead, plants int) {
	list := l.standing("waiting")
	for i, p := range list[:good+failed+dead] {
		switch {
		case i < good:
			p.try.out = "took"
			p.state, p.failed = "living", 0
			if l.mother != nil && !l.limbs {
				p.state = "attached"
			}
		case i < good+failed:
			p.try.out = "failed"
			p.state, p.upper, p.failed, p.before = "failed", i < good+upper, p.last, 0
			if l.beside {
				p.state, p.bare, p.upper, p.failed = "living", true, false, 0
			}
		default:
			p.try.out, p.state = "dead", "lost"
		}
	}
	for range plants - good {
		l.plants = append(l.plants, &plainPlant{state: "living"})
	}
}

func (w *writer) checkTree() {
	t := oneOf(w, w.trees, "tree")
	if t.state != "waiting" && !w.rarely("no verdict") {
		panic(noEntry{}) // no tree that waits
	}
	word := oneOf(w, []string{goodWords[t.kind], "failed", "dead", "unsure"}, "verdict")
	if word == "" {
		word = "took"
	}
	w.put(!t.gone && t.state == "waiting", func() {
		switch word {
		case "failed":
			t.state = "failed"
			if t.beside {
				t.state, t.top, t.beside = "living", t.below, false
			}
		case "dead":
			w.goes(t)
		case "unsure":
		default:
			t.state = "living"
		}
	}, "check %s: %s", t.name, word)
}

func (w *writer) sample() {
	l := w.someLot("lot", func(l *plainLot) bool { return l.trial != nil })
	n := w.num(1, 12, "looked at")
	entered := len(l.plants) - l.foundOver()
	w.put(n <= entered, nil, "sample %d of %s: %d %s, 0 dead", n, l.name, n, goodWords[l.kind])
}

func (w *writer) fail() {
	state := oneOf(w, []string{"living", "living", "attached"}, "state")
	l := w.someLot("lot", func(l *plainLot) bool { return l.has(state) > 0 && l.kind != "" && l.top() != unknown })
	has := l.has(state)
	if l.beside && state == "living" {
		has = 0
		for _, p := range l.standing(state) {
			if !p.bare {
				has++
			}
		}
	}
	n := w.portion(has)
	can := l.grafted() || l.kind == "graft" || l.kind == "cutting" || l.kind == "layer" && state == "attached"
	w.put(can && n <= has, func() { w.fails(l, state, n, w.day) }, "fail %d %s of %s", n, state, l.name)
}

func (w *writer) revive() {
	l := w.someLot("lot", func(l *plainLot) bool { return l.has("failed") > 0 || l.beside })
	has := l.has("failed")
	if l.beside {
		has = 0
		for _, p := range l.standing("living") {
			if p.bare {
				has++
			}
		}
	}
	n := w.portion(has)
	w.put(n <= has, func() { w.revives(l, n) }, "revive %d of %s", n, l.name)
}

func (w *writer) release() {
	l := w.someLot("lot", func(l *plainLot) bool { return l.has("failed") > 0 && l.kind != "layer" && l.top() != unknown })
	n, as := w.portion(l.has("failed")), w.name("R")
	w.put(l.grafted() && !l.limbs && n <= l.has("failed"), func() {
		d := w.derive(as, l, false)
		d.kind, d.trial, d.beside, d.inter, d.stack = "", nil, false, false, l.bare()
		for _, p := range l.pass("failed", n, d, "living", "gone") {
			p.try, p.late, p.upper = nil, false, false
		}
	}, "release %d failed of %s as %s", n, l.name, as)
}

func (w *writer) sever() {
	l := w.someLot("lot", func(l *plainLot) bool { return l.has("attached") > 0 })
	n := w.portion(l.has("attached"))
	if w.coin("as") {
		as := w.name("V")
		w.put(n <= l.has("attached"), func() { l.pass("attached", n, w.derive(as, l, false), "living", "gone") }, "sever %d of %s as %s", n, l.name, as)
		return
	}
	w.put(n <= l.has("attached"), func() {
		for _, p := range l.standing("attached")[:n] {
			p.state = "living"
		}
	}, "sever %d of %s", n, l.name)
}

func (w *writer) split() {
	l := w.someLot("lot", func(l *plainLot) bool { return l.has(onHand...) > 0 })
	state := w.state(l, onHand...)
	n, as := w.portion(l.has(state)), w.name("D")
	w.put(n <= l.has(state), func() {
		hang := l.limbs || l.mother != nil && (state == "waiting" || state == "attached" || state == "failed" && l.kind == "layer")
		l.pass(state, n, w.derive(as, l, hang), state, "gone")
	}, "split %d %s of %s as %s", n, state, l.name, as)
}

func (w *writer) shift() {
	l := w.someLot("lot", func(l *plainLot) bool { return l.has(onHand...) > 0 })
	state := w.state(l, "waiting", "living", "failed")
	n, as := w.portion(l.has(state)), w.name("D")
	verb := oneOf(w, []string{"pot %d %s of %s to 3 L as %s", "move %d %s of %s to yard as %s"}, "verb")
	w.put(n <= l.free(state), func() { l.pass(state, n, w.derive(as, l, false), state, "gone") }, verb, n, state, l.name, as)
}

func (w *writer) shiftAll() {
	l := w.someLot("lot", func(l *plainLot) bool { return true })
	if w.coin("as") {
		as := w.name("D")
		w.put(l.free(onHand...) > 0, func() {
			d := w.derive(as, l, false)
			for _, s := range onHand {
				l.pass(s, l.free(s), d, s, "gone")
			}
		}, "move %s to yard as %s", l.name, as)
		return
	}
	w.put(l.free(onHand...) > 0, nil, "pot %s to 5 L", l.name)
}

func (w *writer) join() {
	joinable := func(l *plainLot) bool {
		return !l.limbs && l.has(onHand...) > 0 && l.has("waiting", "attached") == 0 && (l.has("failed") == 0 || l.mother == nil || l.kind != "layer")
	}
	a := w.someLot("first", func(l *plainLot) bool { return joinable(l) && l.top() != unknown })
	any := w.rarely("whatever it is")
	b := w.someLot("second", func(l *plainLot) bool { return l.top() == a.top() && joinable(l) || any && l.top() != unknown })
	as := w.name("J")
	w.put(a != b && joinable(b) && a.top() == b.top(), func() {
		d := w.derive(as, a, false)
		d.day = max(a.day, b.day)
		d.beside = a.beside || b.beside
		d.dull = a.dull || b.dull || a.trial != nil && a.trial.dulled || b.trial != nil && b.trial.dulled
		if d.beside && a.trial != nil {
			a.trial.dulled = true
		}
		if d.beside && b.trial != nil {
			b.trial.dulled = true
		}
		if a.trial == nil || a.trial != b.trial {
			d.trial = nil
		}
		for _, l := range []*plainLot{a, b} {
			for _, s := range []string{"living", "failed"} {
				for _, p := range l.pass(s, l.has(s), d, s, "gone") {
					if d.trial == nil {
						p.try = nil
					}
				}
			}
		}
		if d.kind == "" {
			d.kind = b.kind
		}
		if !a.grafted() {
			d.stack, d.inter = b.stack, b.inter
		}
	}, "join %s, %s as %s", a.name, b.name, as)
}

func (w *writer) leavePart() {
	l := w.someLot("lot", func(l *plainLot) bool { return l.has(onHand...) > 0 })
	state := w.state(l, "living", "failed", "waiting", "attached")
	n := w.portion(l.has(state))
	word := state + " "
	if state == "living" && w.coin("unsaid") {
		word = ""
	}
	switch w.num(0, 3, "verb") {
	case 0:
		w.put(!l.limbs && state != "attached" && n <= l.has(state), func() { l.leave(state, "sold", n) }, "sell %d %sof %s to Bob", n, word, l.name)
	case 1:
		w.put(!l.limbs && state != "attached" && n <= l.has(state), func() { l.leave(state, "given", n) }, "give %d %sof %s to Bob", n, word, l.name)
	case 2:
		w.put(n <= l.has(state), func() { l.leave(state, "lost", n) }, "lose %d %sof %s to frost", n, word, l.name)
	default:
		w.put(n <= l.has(state), func() { l.leave(state, "culled", n) }, "cull %d %sof %s", n, word, l.name)
	}
}

func (w *writer) leaveAll() {
	l := w.someLot("lot", func(l *plainLot) bool { return w.seq%4 == 0 || l.has(onHand...) < 6 })
	if w.coin("sell") {
		w.put(!l.limbs && l.free(onHand...) > 0, func() {
			for _, s := range onHand {
				l.leave(s, "sold", l.free(s))
			}
		}, "sell %s to Bob", l.name)
		return
	}
	w.put(l.has(onHand...) > 0, func() {
		for _, s := range onHand {
			l.leave(s, "lost", l.has(s))
		}
	}, "lose %s to frost", l.name)
}

func (w *writer) leaveTree() {
	t := oneOf(w, w.trees[min(4, len(w.trees)-1):], "tree")
	verb := oneOf(w, []string{"sell %s to Bob", "lose %s to storm", "cull %s"}, "verb")
	w.put(!t.gone, func() { w.goes(t) }, verb, t.name)
}

func (w *writer) leaveWood() {
	b := oneOf(w, w.wood, "wood")
	n := w.num(1, 20, "parts")
	switch w.num(0, 2, "verb") {
	case 0:
		w.put(true, func() { b.sold += n }, "sell %d of %s to Bob", n, b.name)
	case 1:
		w.put(true, func() { b.lost += n }, "lose %d of %s to mould", n, b.name)
	default:
		w.put(b.count < 0 || b.left() > 0, func() { b.lost += max(0, b.left()) }, "cull %s", b.name)
	}
}

func (w *writer) plantOut() {
	l := w.someLot("lot", func(l *plainLot) bool { return l.has(onHand...) > 0 })
	state := w.state(l, "living", "failed", "waiting")
	n := min(w.portion(l.has(state)), 4)
	valid := n <= l.free(state)
	if l.top() == unknown || w.coin("unnamed") {
		w.put(valid, func() { l.leave(state, "planted", n) }, "plant %d %s of %s", n, state, l.name)
		return
	}
	stem := w.name("P")
	text := fmt.Sprintf("plant %d %s of %s as %s/1", n, state, l.name, stem)
	if n > 1 {
		text += fmt.Sprintf(" to %s/%d", stem, n)
	}
	w.put(valid, func() {
		for i, p := range l.leave(state, "planted", n) {
			t := &plainTree{name: fmt.Sprintf("%s/%d", stem, i+1), top: l.top(), state: state, inter: l.inter, beside: l.beside && state != "failed", kind: l.kind}
			if l.grafted() {
				t.below = l.stack[1]
			}
			if p.bare {
				t.top, t.beside = t.below, false
			}
			w.trees = append(w.trees, t)
		}
	}, "%s", text)
}

func (w *writer) takeBack() {
	l := w.someLot("lot", func(l *plainLot) bool { return l.has("sold") > 0 })
	n := w.num(1, l.has("sold")+1-min(l.returned, l.has("sold")), "back")
	valid := l.returned+n <= l.has("sold")
	if w.rarely("dead") {
		w.put(valid, func() { l.returned += n }, "return %d dead of %s from Bob", n, l.name)
		return
	}
	state, as := oneOf(w, []string{"living", "failed", "waiting"}, "state"), w.name("Z")
	w.put(valid && state != "waiting", func() {
		l.returned += n
		var worked, tries int
		for _, p := range l.plants {
			worked, tries = max(worked, p.last), max(tries, p.failed)
		}
		d := w.derive(as, l, false)
		d.trial = nil
		if !l.grafted() {
			d.kind = ""
		}
		for range n {
			p := &plainPlant{state: state, last: worked}
			switch {
			case state == "failed" && d.beside:
				p.state, p.bare = "living", true
			case l.kind == "" || !l.grafted():
				p.failed, p.before = tries, tries
			}
			if state == "failed" {
				p.failed = max(worked, tries)
			}
			d.plants = append(d.plants, p)
		}
	}, "return %d %s of %s from Bob as %s", n, state, l.name, as)
}

func (w *writer) count() {
	l := w.someLot("lot", func(l *plainLot) bool { return l.has(onHand...) > 0 })
	book := l.free(onHand...)
	switch w.num(0, 4, "count") {
	case 0:
		off := w.num(-1, 1, "off")
		w.put(off == 0 && !l.limbs, nil, "count %s %d", l.name, max(book+off, 0))
		if book+off < 0 {
			w.last.valid = !l.limbs
		}
	case 1:
		state := oneOf(w, []string{"waiting", "living", "failed"}, "state")
		w.put(!l.limbs, nil, "count %s %d %s", l.name, l.free(state), state)
	case 2:
		state := oneOf(w, []string{"waiting", "living", "failed"}, "state")
		n := w.num(1, 3, "missing")
		if n > book {
			panic(noEntry{}) // too few
		}
		w.put(n <= l.free(state) && !l.limbs, func() { l.leave(state, "missing", n) }, "count %s %d, %d missing %s", l.name, book-n, n, state)
	case 3:
		n := w.num(1, 3, "over")
		w.put(!l.limbs, func() { l.over("living", n) }, "count %s %d, %d over", l.name, book+n, n)
	default:
		state := oneOf(w, []string{"waiting", "failed"}, "state")
		n := w.num(1, 3, "over")
		if l.top() == unknown {
			panic(noEntry{}) // is it a graft?
		}
		hangs := l.mother != nil && (state == "waiting" || l.kind == "layer")
		can := !l.limbs && !hangs && (l.grafted() || l.kind != "" && l.kind != "seed") && (state == "failed" || l.trial != nil)
		w.put(can, func() { l.over(state, n) }, "count %s %d, %d over %s", l.name, book+n, n, state)
	}
}

// over brings in plants that a stocktake found. They have been worked as often
// as the others.
func (l *plainLot) over(state string, n int) {
	var last, failed int
	for _, p := range l.plants {
		last = max(last, p.last)
		if p.state == "living" || l.kind == "" { // of released stocks all that were are alike
			failed = max(failed, p.failed)
		}
	}
	before := failed
	if state == "failed" {
		failed = max(last, failed)
	}
	for range n {
		p := &plainPlant{state: state, found: true, last: last, failed: failed, before: before}
		if l.trial != nil {
			l.trial.dulled = true
		}
		if state == "waiting" {
			p.try = &plainTry{}
			l.trial.tries = append(l.trial.tries, p.try)
		}
		l.plants = append(l.plants, p)
	}
}

// other is entries that move nothing.
func (w *writer) other() {
	l := w.someLot("lot", func(*plainLot) bool { return true })
	t := oneOf(w, w.trees, "tree")
	switch w.num(0, 5, "entry") {
	case 0:
		w.put(true, nil, "note %s \"second flush\"", l.name)
	case 1:
		w.put(true, nil, "tend %s ties worker Ru 20 min", l.name)
	case 2:
		w.put(true, nil, "spend 12.40 on pots for %s", l.name)
	case 3:
		w.put(true, nil, "work weeding worker Ines 2 h for %s", l.name)
	case 4:
		w.put(true, nil, "mark %s sick because \"canker\"", l.name)
	default:
		w.put(!t.gone && t.oneTop(), nil, "pick 3 kg from %s", t.name)
	}
}

// slip is an entry that can't count, whatever the book says.
func (w *writer) slip() {
	text := oneOf(w, []string{
		"sell 2 of Nowhere to Bob", "check Nowhere: 2 took", "graft 2 of Nowhere with T1 by cleft as X1", "cut 4 scions from Nowhere as X2",
		"split 0 of T1 as X3", "check T1: 1 took", "sow 4 seed of Nowhere as X4", "buy 4 liners of Quince as T1", "layer 2 on T1 as T2",
		"graft 2 of T1 with T2 by cleft as X5", "sell 4,5 of T1 to Bob", "sell \"T1 to Bob", "what a day", "count T1 1", "sever 1 of T1",
		"lose 2 of T1 to frost", "clear T1 verified", "plant 1 of T1", "return 1 living of T1 from Bob as X6", "join T1, T2 as X7", "strike line 100000 because \"no\"",
	}, "slip")
	w.put(false, nil, "%s", text)
}

func date(day int) string { return fact.Date(day).String() }

// shown is a journal that failed, for reading.
func shown(text string) string { return "\n" + strings.TrimRight(text, "\n") }
