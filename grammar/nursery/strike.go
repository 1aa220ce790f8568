package nursery

import (
	"fmt"
	"sort"
	"strings"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	spelling "github.com/budstick/budstick/grammar/name"
)

// strikes finds the entries that later ones strike. The journal is replayed
// without them.
func (n *Nursery) strikes(pages []*entry.Page) map[*fact.Entry]bool {
	struck := map[*fact.Entry]bool{}
	for _, p := range pages {
		for i := range p.Entries {
			e := &p.Entries[i]
			f, ok := e.Effect.(*fact.Strike)
			if !ok {
				continue
			}
			n.now = e
			if target := n.struckBy(p, e, f); target != nil && !n.struckTwice(f, target, struck) {
				struck[target] = true
				n.Struck[target] = e
			}
		}
	}
	n.now = nil
	return struck
}

// struckBy is the entry that a strike means, or nil where it means none that
// could be read.
func (n *Nursery) struckBy(p *entry.Page, e *fact.Entry, f *fact.Strike) *fact.Entry {
	at := f.Span.Span
	i := sort.Search(len(p.Entries), func(i int) bool { return p.Entries[i].Line >= f.Line })
	if f.Line >= e.Line {
		n.refuse(at, "strike-nothing", fmt.Sprintf("line %d is not above this one; only earlier entries can be struck", f.Line))
		return nil
	}
	if i < len(p.Entries) && p.Entries[i].Line == f.Line {
		target := &p.Entries[i]
		switch target.Effect.(type) {
		case *fact.Strike, *fact.Seal, *fact.Farm, *fact.Version:
			n.refuse(at, "strike-never", fmt.Sprintf("a %s can't be struck", target.Verb))
			return nil
		}
		line, _, _ := strings.Cut(target.File.Text(target.Span), "\n")
		if n.means(f, entry.Spaced(line), finding.Related{File: target.File, Span: target.Span}) {
			return target
		}
		return nil
	}
	if b, ok := p.BrokenAt(f.Line); ok {
		n.means(f, b.Begins, finding.Related{File: p.File, Span: b.Span})
		return nil
	}
	n.refuse(at, "strike-nothing", fmt.Sprintf("no entry begins on line %d; give the line of the entry's first word", f.Line))
	return nil
}

// means reports whether the words of a strike are how a line is written, and
// tells where they are not, or where there are none.
func (n *Nursery) means(f *fact.Strike, written string, there finding.Related) bool {
	at := f.Span.Span
	if !entry.BeginsWith(written, f.Words) {
		words := entry.Spaced(f.Words)
		fnd := n.refuse(at, "strike-words", fmt.Sprintf("line %d begins with %q, not with %q; give the line and the words of the entry that is meant",
			f.Line, firstWords(written, len(strings.Fields(words))), words))
		there.Message = "this stands there"
		fnd.Related = []finding.Related{there}
		return false
	}
	if f.Words == "" {
		fnd := n.say(finding.Hint, at, "strike-blind", fmt.Sprintf("say how the line begins, so that a slip in the number is found: strike line %d %s because …", f.Line, firstWords(written, 2)))
		there.Message = "this is struck"
		fnd.Related = []finding.Related{there}
	}
	return true
}

func (n *Nursery) struckTwice(f *fact.Strike, target *fact.Entry, struck map[*fact.Entry]bool) bool {
	if struck[target] {
		n.refuse(f.Span.Span, "strike-twice", fmt.Sprintf("line %d was struck already", f.Line))
	}
	return struck[target]
}

func firstWords(s string, count int) string {
	words := strings.Fields(s)
	return strings.Join(words[:min(count, len(words))], " ")
}

// explainStrikes shows a strike beside each error about something that the
// struck entry made or changed.
func (n *Nursery) explainStrikes() {
	if len(n.Struck) == 0 {
		return
	}
	by := map[string]*fact.Entry{}
	for _, p := range n.Pages {
		for i := range p.Entries {
			target := &p.Entries[i]
			strike := n.Struck[target]
			if strike == nil {
				continue
			}
			for _, name := range namesIn(target) {
				if key := spelling.Fold(name); by[key] == nil {
					by[key] = strike
				}
			}
		}
	}
	for i := range n.Findings {
		f := &n.Findings[i]
		if f.Severity != finding.Error {
			continue
		}
		for _, about := range f.About {
			if s := by[spelling.Fold(about)]; s != nil {
				f.Related = append(f.Related, finding.Related{File: s.File, Span: s.Span, Message: "an entry about it was struck here"})
				break
			}
		}
	}
}

// namesIn is every word of an entry's text that could be a name.
func namesIn(e *fact.Entry) []string {
	return strings.FieldsFunc(e.File.Text(e.Span), func(c rune) bool { return strings.ContainsRune(" \t\r\n,:\"", c) })
}
