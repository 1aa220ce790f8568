package entry

import (
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// findExamples finds, for each slot of a kind's grammar, what stands there in
// its own sentences, so that a message can show a whole phrase where one word
// is missing.
func (k *Kind) findExamples() map[int]string {
	shown := map[int]string{}
	for _, s := range k.Sentences() {
		file := source.New("", []byte(s))
		toks := syntax.Lex(file.Bytes, source.Span{End: int32(len(s))}, nil)
		for i, slot := range k.Grammar.Path(file, toks) {
			if _, ok := shown[slot.Spot]; !ok {
				shown[slot.Spot] = file.Text(toks[i].Span)
			}
		}
	}
	return shown
}

// Sentences are the pattern and the samples of a kind.
func (k *Kind) Sentences() []string { return append([]string{k.Pattern}, k.Samples...) }

// nearest is the sentence of a kind that is written most like some tokens, as far
// as they make sense: the one that has most of what they have, and of those one
// that goes on where they end with more of the same clause.
func (k *Kind) nearest(file *source.File, toks []syntax.Token) string {
	written := k.Grammar.Path(file, toks)
	best, most := k.Pattern, 0
	for _, s := range k.Sentences() {
		model := source.New("", []byte(s))
		path := k.Grammar.Path(model, syntax.Lex(model.Bytes, source.Span{End: int32(len(s))}, nil))
		alike := 0
		for i, slot := range written {
			at := slices.IndexFunc(path, func(p syntax.Slot) bool { return p.Spot == slot.Spot })
			if at < 0 {
				continue
			}
			alike += 2
			if goesOn := at+1 < len(path) && !slices.Contains(k.leads(), path[at+1].Literal); goesOn && i == len(written)-1 {
				alike++
			}
		}
		if alike > most {
			best, most = s, alike
		}
	}
	return best
}

// findLeads lists the words by which clauses of a kind begin.
func (k *Kind) findLeads() []string {
	form := k.Grammar.Form()
	var list []string
	for _, c := range slices.Concat(form.Clauses, form.Shared) {
		word, _, _ := strings.Cut(c, " ")
		list = append(list, word)
	}
	return list
}

// fill is what a message writes in a slot.
func (k *Kind) fill(s syntax.Slot) string {
	if s.Literal != "" {
		return s.Literal
	}
	if text, ok := k.examples()[s.Spot]; ok {
		return text
	}
	return fillers[s.Kind]
}

// fillers are examples where a kind's own sentences have none.
var fillers = map[syntax.Kind]string{
	syntax.Word: "AM26", syntax.Quoted: `"…"`, syntax.Int: "12", syntax.Decimal: "12.50", syntax.Date: "2026-03-02",
	syntax.Month: "2026-03", syntax.Unit: "h", syntax.Currency: "EUR", syntax.Cross: "×",
}

// an is a slot in a grower's words.
func an(t syntax.Terminal) string {
	switch {
	case t.Literal == ",":
		return "a comma"
	case t.Literal == ":":
		return "a colon"
	case t.Literal != "":
		return `"` + t.Literal + `"`
	}
	return kindWords[t.Kind]
}

// kindWords says a kind of token in a grower's words.
var kindWords = map[syntax.Kind]string{
	syntax.Word: "a name", syntax.Quoted: "a text in quotes", syntax.Int: "a number", syntax.Decimal: "an amount",
	syntax.Date: "a date", syntax.Month: "a month", syntax.Unit: "a unit", syntax.Currency: "a currency code",
	syntax.Cross: "×", syntax.EOF: "the end of the entry",
}
