package nursery

import (
	"fmt"
	"slices"
	"sort"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/syntax"
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

// struckBy is the entry that a strike means, or nil where it means none.
func (n *Nursery) struckBy(p *entry.Page, e *fact.Entry, f *fact.Strike) *fact.Entry {
	at := f.Span.Span
	i := sort.Search(len(p.Entries), func(i int) bool { return p.Entries[i].Line >= f.Line })
	switch {
	case f.Line >= e.Line:
		n.refuse(at, "strike-nothing", fmt.Sprintf("line %d is not above this one; only earlier entries can be struck", f.Line))
	case i == len(p.Entries) || p.Entries[i].Line != f.Line:
		if !n.brokenAt(p, f.Line) {
			n.refuse(at, "strike-nothing", fmt.Sprintf("no entry begins on line %d; give the line of the entry's first word", f.Line))
		}
	default:
		return n.strikable(&p.Entries[i], f)
	}
	return nil
}

func (n *Nursery) brokenAt(p *entry.Page, line int32) bool {
	return slices.ContainsFunc(p.Broken, func(b entry.Broken) bool { return b.Line == line })
}

func (n *Nursery) strikable(target *fact.Entry, f *fact.Strike) *fact.Entry {
	at := f.Span.Span
	switch target.Effect.(type) {
	case *fact.Strike, *fact.Seal, *fact.Farm, *fact.Version:
		n.refuse(at, "strike-never", fmt.Sprintf("a %s can't be struck", target.Verb))
		return nil
	}
	written := firstLine(target)
	if words := spaced(f.Words); !beginsWith(alike(written), alike(words)) {
		fnd := n.refuse(at, "strike-words", fmt.Sprintf("line %d begins with %q, not with %q; give the line and the words of the entry that is meant",
			f.Line, firstWords(written, len(strings.Fields(words))), words))
		fnd.Related = []finding.Related{{File: target.File, Span: target.Span, Message: "this stands there"}}
		return nil
	}
	if f.Words == "" {
		fnd := n.say(finding.Hint, at, "strike-blind", fmt.Sprintf("say how the line begins, so that a slip in the number is found: strike line %d %s because …", f.Line, firstWords(written, 2)))
		fnd.Related = []finding.Related{{File: target.File, Span: target.Span, Message: "this is struck"}}
	}
	return target
}

// beginsWith reports whether whole words of a line are its beginning: check AM2
// is not how a check of AM26 begins.
func beginsWith(line, words string) bool {
	rest, ok := strings.CutPrefix(line, words)
	next, _ := utf8.DecodeRuneInString(rest)
	return ok && (words == "" || !unicode.IsLetter(next) && !unicode.IsDigit(next))
}

func (n *Nursery) struckTwice(f *fact.Strike, target *fact.Entry, struck map[*fact.Entry]bool) bool {
	if struck[target] {
		n.refuse(f.Span.Span, "strike-twice", fmt.Sprintf("line %d was struck already", f.Line))
	}
	return struck[target]
}

// firstLine is the first line of an entry, with one blank between words.
func firstLine(e *fact.Entry) string {
	line, _, _ := strings.Cut(e.File.Text(e.Span), "\n")
	return spaced(line)
}

func spaced(s string) string { return strings.Join(strings.Fields(s), " ") }

// alike makes the words of an entry comparable: a telephone may have changed
// capitals, quotes and hyphens, and blanks about signs mean nothing.
func alike(s string) string {
	return closed.Replace(syntax.StraightQuotes(syntax.Hyphens(spelling.Fold(s))))
}

var closed = strings.NewReplacer(" :", ":", " ,", ",")

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
