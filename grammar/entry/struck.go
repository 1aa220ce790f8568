package entry

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// Struck gives the entries that can't be read and that a later one of the page
// strikes. Which of the others are struck, the replay finds.
func (p *Page) Struck() []Broken {
	if len(p.Broken) == 0 {
		return nil
	}
	var list []Broken
	for i := range p.Entries {
		e := &p.Entries[i]
		f, ok := e.Effect.(*fact.Strike)
		if !ok || f.Line >= e.Line {
			continue
		}
		if b, ok := p.BrokenAt(f.Line); ok && BeginsWith(b.Begins, f.Words) {
			list = append(list, b)
		}
	}
	return list
}

// BrokenAt is the entry that can't be read and begins on a line.
func (p *Page) BrokenAt(line int32) (Broken, bool) {
	i := slices.IndexFunc(p.Broken, func(b Broken) bool { return b.Line == line })
	if i < 0 {
		return Broken{}, false
	}
	return p.Broken[i], true
}

// Standing is what reading finds, without what it finds in entries that are
// struck: they are put right.
func (p *Page) Standing() []finding.Finding { return Outside(p.Struck(), p.Findings) }

// Outside is the findings that are in none of some entries.
func Outside(struck []Broken, list []finding.Finding) []finding.Finding {
	if len(struck) == 0 {
		return list
	}
	return slices.DeleteFunc(slices.Clone(list), func(f finding.Finding) bool {
		return slices.ContainsFunc(struck, func(b Broken) bool { return b.Span.Start <= f.Span.Start && f.Span.Start <= b.Span.End })
	})
}

// firstLine is the first line of an entry, with one blank between words.
func firstLine(f *source.File, s source.Span) string {
	line, _, _ := strings.Cut(f.Text(s), "\n")
	return Spaced(line)
}

// Spaced is text with one blank between words.
func Spaced(s string) string { return strings.Join(strings.Fields(s), " ") }

// BeginsWith reports whether words are the beginning of a line, whole words of
// it: check AM2 is not how a check of AM26 begins. Both may be written in
// different ways: a telephone may have changed capitals, quotes and hyphens, and
// blanks about signs mean nothing.
func BeginsWith(line, words string) bool {
	words = alike(Spaced(words))
	rest, ok := strings.CutPrefix(alike(line), words)
	next, _ := utf8.DecodeRuneInString(rest)
	return ok && (words == "" || !unicode.IsLetter(next) && !unicode.IsDigit(next))
}

func alike(s string) string {
	return closed.Replace(syntax.StraightQuotes(syntax.Hyphens(spelling.Fold(s))))
}

var closed = strings.NewReplacer(" :", ":", " ,", ",")
