package nursery

import (
	"flag"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
)

// TestGeneratedJournals writes journals at random, entry by entry, and holds
// after every entry that the sums of the book hold and that the entry counts
// exactly if it contradicts nothing; now and then, that the nursery agrees with
// the naive book; and of the whole journal, what must not matter.
func TestGeneratedJournals(t *testing.T) {
	set(t, "rapid.steps", 200)
	set(t, "rapid.checks", 40)
	rapid.Check(t, func(t *rapid.T) {
		run := newRun(t)
		actions := run.writer.actions()
		actions[""] = run.hold
		t.Repeat(actions)
		run.holdAll(t)
	})
}

// TestLongJournals is the same on journals that are thousands of entries long.
func TestLongJournals(t *testing.T) {
	if testing.Short() {
		t.Skip("takes a while")
	}
	set(t, "rapid.checks", 2)
	rapid.Check(t, func(t *rapid.T) {
		run := newRun(t)
		run.writer.write(t, 4000, run.hold)
		run.holdAll(t)
	})
}

// set sets a flag for one test, unless the command line did.
func set(t *testing.T, name string, value int) {
	f := flag.Lookup(name)
	before := f.Value.String()
	if before == f.DefValue {
		f.Value.Set(strconv.Itoa(value))
		t.Cleanup(func() { f.Value.Set(before) })
	}
}

// A run is one journal while it is being written.
type run struct {
	writer *writer
	n      *Nursery
	lines  []day // the journal
	count  int   // entries written
	next   int   // when it is compared with the naive book again
}

// A day is the entries written under one date.
type day struct {
	date    int
	entries []sentence
}

func newRun(t *rapid.T) *run {
	r := &run{writer: newWriter(t)}
	text := header
	for _, tree := range r.writer.trees {
		text += fmt.Sprintf("tree %s variety %s\n", tree.name, tree.top)
	}
	r.n = Replay([]*entry.Page{read("header.bud", text)}, 0)
	r.lines = []day{{0, []sentence{{text: text, valid: true}}}}
	return r
}

func read(name, text string) *entry.Page { return entry.Read(source.New(name, []byte(text))) }

// hold replays the entry that was written last and holds what must be true
// after it.
func (r *run) hold(t *rapid.T) {
	e := r.writer.last
	r.writer.last = sentence{}
	if e.text != "" {
		if last := &r.lines[len(r.lines)-1]; last.date == r.writer.day {
			last.entries = append(last.entries, e)
		} else {
			r.lines = append(r.lines, day{r.writer.day, []sentence{e}})
		}
		before := len(r.n.Findings)
		page := read("step.bud", date(r.writer.day)+"\n"+e.text+"\n")
		for i := range page.Entries {
			r.n.Entries = append(r.n.Entries, &page.Entries[i])
			r.n.step(&page.Entries[i])
		}
		found := append(slices.Clone(page.Findings), r.n.Findings[before:]...)
		if valid := finding.Worst(found) < finding.Error; valid != e.valid && !strings.HasPrefix(e.text, "strike") {
			t.Fatalf("%s\nvalid: %v, findings: %s%s", e.text, e.valid, messages(found), shown(r.text()))
		}
	}
	if err := r.n.Audit(); err != nil {
		t.Fatalf("after %q: %v%s", e.text, err, shown(r.text()))
	}
	if r.count++; r.count >= r.next {
		r.agree(t)
		r.next += 20 + r.count/10
	}
}

func messages(list []finding.Finding) string {
	var b strings.Builder
	for _, f := range list {
		fmt.Fprintf(&b, "\n\t%s %s: %s", f.Severity, f.Rule, f.Message)
	}
	return b.String()
}

// agree holds the nursery against the naive book.
func (r *run) agree(t *rapid.T) {
	for _, l := range r.writer.lots {
		if err := l.same(r.n); err != nil {
			t.Fatalf("%v%s", err, shown(r.text()))
		}
	}
	for _, w := range r.writer.wood {
		thing, _ := r.n.Thing(w.name)
		b, ok := thing.(*Bundle)
		if !ok || int(b.Count) != w.count || int(b.Used) != w.used || int(b.Sold) != w.sold || int(b.Lost) != w.lost {
			t.Fatalf("wood %s: want %+v, have %+v%s", w.name, *w, b, shown(r.text()))
		}
	}
	for _, p := range r.writer.trees {
		thing, _ := r.n.Thing(p.name)
		tree, ok := thing.(*Tree)
		if !ok || (tree.Gone != 0) != p.gone || !p.gone && tree.State.String() != p.state {
			t.Fatalf("tree %s: want %+v, have %+v%s", p.name, *p, tree, shown(r.text()))
		}
	}
	if want, have := len(r.writer.lots), len(r.n.Lots); want != have {
		t.Fatalf("%d lots, not %d", have, want)
	}
}

// text is the journal as one file.
func (r *run) text() string { return textOf(r.lines, func(int, sentence) bool { return true }) }

// textOf writes days with those entries that are kept.
func textOf(days []day, keep func(date int, e sentence) bool) string {
	var b strings.Builder
	for _, d := range days {
		if d.date != 0 {
			b.WriteString(date(d.date) + "\n")
		}
		for _, e := range d.entries {
			if keep(d.date, e) {
				b.WriteString(strings.TrimSuffix(e.text, "\n") + "\n")
			}
		}
	}
	return b.String()
}

// holdAll holds what is true of the whole journal.
func (r *run) holdAll(t *rapid.T) {
	r.agree(t)
	text := r.text()
	whole := Replay([]*entry.Page{read("a.bud", text)}, 0)
	state := stateOf(whole)
	same := func(what, other string, want string) {
		if other != want {
			t.Fatalf("%s\n%s%s", what, cmp.Diff(strings.Split(want, "\n"), strings.Split(other, "\n")), shown(text))
		}
	}
	same("read at once, not entry by entry", state, stateOf(r.n))
	recount(t, whole)
	without := textOf(r.lines, func(_ int, e sentence) bool { return e.valid })
	same("without the entries that do not count", stateOf(Replay([]*entry.Page{read("a.bud", without)}, 0)), state)
	same("in several files", stateOf(Replay(r.parted(t), 0)), state)
	if len(r.lines) > 1 {
		until := rapid.SampledFrom(r.lines[1:]).Draw(t, "until").date
		prefix := textOf(r.lines, func(date int, _ sentence) bool { return date <= until })
		same("up to "+date(until), stateOf(Replay([]*entry.Page{read("a.bud", text)}, fact.Date(until))), stateOf(Replay([]*entry.Page{read("a.bud", prefix)}, 0)))
	}
	r.strike(t, text, same)
}

// parted writes the journal into three files: the entries of a day go to the
// first, then the second, then the third, so that their order stays.
func (r *run) parted(t *rapid.T) []*entry.Page {
	var files [3][]day
	for i, d := range r.lines {
		a, b := len(d.entries), len(d.entries)
		if i > 0 {
			b = rapid.IntRange(0, len(d.entries)).Draw(t, "third file from")
			a = rapid.IntRange(0, b).Draw(t, "second file from")
		}
		for k, part := range [][]sentence{d.entries[:a], d.entries[a:b], d.entries[b:]} {
			if len(part) > 0 {
				files[k] = append(files[k], day{d.date, part})
			}
		}
	}
	var pages []*entry.Page
	for _, k := range []int{1, 2, 0} {
		pages = append(pages, read(fmt.Sprintf("%c.bud", 'a'+k), textOf(files[k], func(int, sentence) bool { return true })))
	}
	return pages
}

// strike strikes an entry: the journal must then be the one without it.
func (r *run) strike(t *rapid.T, text string, same func(what, other, want string)) {
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	first := strings.Count(r.lines[0].entries[0].text, "\n")
	if len(lines) == first {
		return
	}
	at := rapid.IntRange(first, len(lines)-1).Draw(t, "line struck")
	if c := lines[at][0]; c >= '0' && c <= '9' || strings.HasPrefix(lines[at], "strike") {
		return
	}
	struck := text + fmt.Sprintf("strike line %d because \"no\"\n", at+1)
	lines[at] = ""
	same("struck: line "+fmt.Sprint(at+1), stateOf(Replay([]*entry.Page{read("a.bud", struck)}, 0)),
		stateOf(Replay([]*entry.Page{read("a.bud", strings.Join(lines, "\n"))}, 0)))
}

// recount adds all moves up from nothing, with none of the replay's code, and
// holds every count of every lot against it.
func recount(t interface{ Fatalf(string, ...any) }, n *Nursery) {
	type key struct {
		lot  *Lot
		what string
	}
	sum := map[key]int32{}
	for _, m := range n.Moves {
		switch {
		case m.From == nil:
			sum[key{m.To, "entered"}] += m.N
			sum[key{m.To, m.ToState.String()}] += m.N
		case m.How == fact.Counted:
			sum[key{m.From, m.FromState.String()}] -= m.N
			sum[key{m.From, "unexplained"}] += m.N
		case m.To == nil:
			exit := m.How.String()
			if m.How == fact.Checked {
				exit = "lost"
			}
			sum[key{m.From, m.FromState.String()}] -= m.N
			sum[key{m.From, exit}] += m.N
		case m.From == m.To:
			sum[key{m.From, m.FromState.String()}] -= m.N
			sum[key{m.To, m.ToState.String()}] += m.N
		default:
			exit := "gone"
			if m.How == fact.Grafted {
				exit = "used as stock"
			}
			sum[key{m.From, m.FromState.String()}] -= m.N
			sum[key{m.From, exit}] += m.N
			sum[key{m.To, "entered"}] += m.N
			sum[key{m.To, m.ToState.String()}] += m.N
		}
	}
	for _, l := range n.Lots {
		want := map[string]int32{"entered": l.Entered, "gone": l.Gone, "unexplained": l.Unexplained}
		for s := fact.Waiting; s < fact.States; s++ {
			want[s.String()] = l.On[s]
		}
		for how := range l.Out {
			if how := fact.How(how); how == fact.Sold || how == fact.Given || how == fact.Lost || how == fact.Culled || how == fact.PlantedOut || how == fact.Worked {
				want[how.String()] = l.Out[how]
			} else if l.Out[how] != 0 {
				t.Fatalf("lot %s: %d are out by being %s", l.Name, l.Out[how], how)
			}
		}
		for what, count := range want {
			if got := sum[key{l, what}]; got != count {
				t.Fatalf("lot %s: the moves make %d %s, the lot says %d", l.Name, got, what, count)
			}
		}
	}
}
