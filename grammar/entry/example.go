package entry

import (
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
