package entry

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"

	"github.com/budstick/budstick/grammar/finding"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/source"
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
	"bud": "graft", "budded": "graft", "airlayer": "layer", "airlayered": "layer", "airlayering": "layer",
	"layering": "layer", "grafting": "graft", "topwork": "graft", "topworked": "graft", "potted": "pot", "repotted": "pot",
	"spray": "treat", "spraying": "treat", "detach": "sever", "repot": "pot", "harvest": "pick",
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
	case first.Kind == syntax.Bad && bullets[r.file.Text(first.Span)] && len(r.toks) > 1:
		r.report(finding.Finding{
			Span: first.Span, Severity: finding.Error, Rule: "sign",
			Message: "an entry begins with its verb; leave out the " + r.file.Text(first.Span),
			Mend:    &finding.Mend{Span: source.Span{Start: first.Span.Start, End: r.toks[1].Span.Start}},
		})
	case first.Kind == syntax.Bad:
		r.badToken(first)
	case known && (first.Kind == syntax.Word || first.Kind == syntax.Reserved):
		return kind, true
	default:
		r.unknownVerb(first, text)
	}
	return nil, false
}

// bullets are signs that lists begin with elsewhere.
var bullets = map[string]bool{"-": true, "–": true, "—": true, "*": true, "•": true, "·": true, "+": true}

// howManyOf reports whether a number and what it counts follow the first word,
// as they follow a verb: planted 3 of AM26.
func (r *reader) howManyOf() bool {
	return len(r.toks) > 2 && r.toks[1].Kind == syntax.Int &&
		(r.toks[2].Kind == syntax.Word || strings.EqualFold(r.tok(2), "of"))
}

// jobs are the words for what is done, by what people begin with.
var jobs = map[string]string{
	"prune": "pruned", "pruned": "pruned", "girdle": "girdled", "girdled": "girdled", "rub": "rubbed", "rubbed": "rubbed",
	"head": "headed", "headed": "headed", "rewrap": "rewrapped", "rewrapped": "rewrapped", "untie": "ties", "untied": "ties",
}

// jobFirst: prune L1 for tend L1 pruned.
func (r *reader) jobFirst(text string) bool {
	job, ok := jobs[text]
	if !ok || len(r.toks) < 2 || r.toks[1].Kind != syntax.Word && r.toks[1].Kind != syntax.Quoted {
		return false
	}
	span := source.Span{Start: r.toks[0].Span.Start, End: r.toks[1].Span.End}
	put := fmt.Sprintf("tend %s %s", r.tok(1), job)
	f := finding.Finding{
		Span: r.toks[0].Span, Severity: finding.Error, Rule: "verb",
		Message: fmt.Sprintf("%q begins no entry; a job is written behind what it is done on: %s", text, put),
	}
	if len(r.toks) == 2 || r.tok(2) != "," {
		f.Mend = &finding.Mend{Span: span, Text: put}
	}
	r.report(f)
	return true
}

// tasks are the words for hours of work, by what people begin with.
var tasks = map[string]string{
	"water": "watering", "watered": "watering", "irrigate": "watering", "irrigated": "watering", "weed": "weeding",
	"weeded": "weeding", "fertilize": "feeding", "fertilized": "feeding", "fertilise": "feeding", "fertilised": "feeding",
	"feed": "feeding", "mow": "mowing", "mowed": "mowing", "mulch": "mulching", "mulched": "mulching",
}

// taskFirst: weeded 2 hours for work weeding worker Ines 2 h.
func (r *reader) taskFirst(text string) bool {
	task, ok := tasks[text]
	if ok {
		r.errorf(r.toks[0].Span, "verb", "%q begins no entry; hours of work are written: work %s worker Ines 2 h for AM26", text, task)
	}
	return ok
}

func (r *reader) unknownVerb(first syntax.Token, text string) {
	if _, month := monthNamed(text); month && r.otherDate(0) {
		return
	}
	meant, ok := otherVerbs[strings.ReplaceAll(text, "-", "")]
	if !ok && (r.jobFirst(text) || r.taskFirst(text)) {
		return
	}
	if !ok && first.Kind == syntax.Word {
		if continuing()[text] && !r.howManyOf() {
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
