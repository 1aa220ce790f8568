package entry

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"

	"github.com/budstick/budstick/grammar/finding"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/syntax"
)

// byVerb finds a kind by its verb in small letters.
var byVerb = func() map[string]*Kind {
	m := map[string]*Kind{}
	for _, k := range All {
		m[k.Verb] = k
	}
	return m
}()

// Named finds the kind that begins with a verb.
func Named(verb string) (*Kind, bool) {
	k, ok := byVerb[strings.ToLower(verb)]
	return k, ok
}

// continuing are the words that go on with an entry and never begin one.
var continuing = sync.OnceValue(func() map[string]bool {
	m := map[string]bool{}
	for _, k := range All {
		for _, w := range k.Grammar.Words() {
			m[w] = byVerb[w] == nil
		}
	}
	return m
})

// otherVerbs are words that growers use for a verb of the language.
var otherVerbs = map[string]string{
	"sold": "sell", "gave": "give", "lost": "lose", "died": "lose", "dead": "lose", "bought": "buy", "sown": "sow",
	"bud": "graft", "budded": "graft", "airlayer": "layer", "detach": "sever", "repot": "pot", "harvest": "pick",
	"harvested": "pick", "pay": "spend", "discard": "cull", "discarded": "cull",
}

// kind finds the kind of an entry by its first word, or says what is wrong
// with that.
func (r *reader) kind(c syntax.Chunk) (*Kind, bool) {
	first := r.toks[0]
	text := strings.ToLower(r.file.Text(first.Span))
	kind, known := byVerb[text]
	switch {
	case c.Stray && known:
		r.errorf(first.Span, "indent", "%s begins an entry and stands in the first column; take out the blanks before it", text)
	case c.Stray:
		r.errorf(first.Span, "indent", "this line is indented, but no entry stands above it to go on with; begin the entry in the first column")
	case first.Kind == syntax.Bad:
		r.badToken(first)
	case known && (first.Kind == syntax.Word || first.Kind == syntax.Reserved):
		return kind, true
	default:
		r.unknownVerb(first, text)
	}
	return nil, false
}

func (r *reader) unknownVerb(first syntax.Token, text string) {
	if _, month := monthNamed(text); month && r.otherDate(0) {
		return
	}
	meant, ok := otherVerbs[text]
	if !ok && first.Kind == syntax.Word {
		if continuing()[text] {
			r.goesOn(first, text)
			return
		}
		meant, ok = spelling.Suggest(text, slices.Sorted(maps.Keys(byVerb)))
	}
	switch {
	case ok:
		r.report(finding.Finding{
			Span: first.Span, Severity: finding.Error, Rule: "verb",
			Message: fmt.Sprintf("%q begins no entry; did you mean %s?", text, meant),
			Mend:    &finding.Mend{Span: first.Span, Text: meant},
		})
	case first.Kind == syntax.Reserved:
		r.goesOn(first, text)
	default:
		r.errorf(first.Span, "verb", "%s begins no entry; an entry begins with what was done, such as sow, graft, check, lose or sell", quoteWord(r.file.Text(first.Span)))
	}
}

// goesOn reports a clause in the first column.
func (r *reader) goesOn(first syntax.Token, text string) {
	r.report(finding.Finding{
		Span: first.Span, Severity: finding.Error, Rule: "indent",
		Message: fmt.Sprintf("%q goes on with an entry and begins none; put two blanks before it", text),
		Mend:    &finding.Mend{Span: empty(first.Span.Start), Text: "  "},
	})
}
