package entry

import (
	"fmt"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// needs reports a clause that an entry can't do without, at its verb.
func (r *reader) needs(n fact.Name, say string) { r.needsAny(n.Given(), say) }

func (r *reader) needsAny(have bool, say string) {
	if !have && !r.failed {
		r.errorf(r.toks[0].Span, "clause-missing", "%s", say)
	}
}

// forbids reports a clause that makes no sense on an entry.
func (r *reader) forbids(n fact.Name, say string) {
	if n.Given() {
		r.errorf(n.Span, "clause-misplaced", "%s", say)
	}
}

// state reads a state word.
func (r *reader) state(s *state) fact.State {
	if s == nil {
		return fact.AnyState
	}
	return fact.ParseState(r.word(s.Word))
}

// clauseWords begin a clause, never an entry.
var clauseWords = []string{"as", "at", "by", "with", "over", "from", "to", "for", "because", "worker", "cost",
	"caliper", "scions", "beside", "into", "store", "hormone", "wound", "happened", "on", "of", "per", "species", "variety"}

func (r *reader) unknownVerb(first syntax.Token, text string) {
	if slices.Contains(clauseWords, text) {
		r.errorf(first.Span, "indent", "%s goes on with an entry and can't begin one; put two blanks before it", text)
		return
	}
	verbs := make([]string, 0, len(All))
	for _, k := range All {
		verbs = append(verbs, k.Verb)
	}
	if near, ok := spelling.Suggest(text, verbs); ok {
		r.report(finding.Finding{
			Span: first.Span, Severity: finding.Error, Rule: "verb",
			Message: fmt.Sprintf("%s begins no entry; did you mean %s?", text, near),
			Mend:    &finding.Mend{Span: first.Span, Text: near},
		})
		return
	}
	r.errorf(first.Span, "verb", "%s begins no entry; an entry begins with what was done: %s", r.file.Text(first.Span), strings.Join(verbs, " "))
}

// badToken explains a token that is no word, number or sign of the language.
func (r *reader) badToken(t syntax.Token) {
	text := r.file.Text(t.Span)
	mend := func(rule, message, put string) {
		f := finding.Finding{Span: t.Span, Severity: finding.Error, Rule: rule, Message: message}
		if put != "" {
			f.Mend = &finding.Mend{Span: t.Span, Text: put}
		}
		r.report(f)
	}
	switch t.Why {
	case syntax.OpenQuote:
		mend("quote", "this text has no closing quote; a quoted text ends on its own line", "")
	case syntax.DecimalComma:
		r.decimalComma(t, text, mend)
	case syntax.OddNumber:
		if meant, ok := dateMeant(hyphens(text)); ok {
			mend("date", fmt.Sprintf("a date is written year first: %s", meant), meant)
			return
		}
		mend("number", fmt.Sprintf("%s is neither a number nor a date; a number is written 12 or 12.50, a date 2026-03-02, and a name has a letter in it", text), "")
	case syntax.NegativeNumber:
		mend("number", fmt.Sprintf("%s is below zero or signed; counts and amounts are written without a sign", text), strings.TrimLeft(hyphens(text), "-"))
	case syntax.DotEnd:
		mend("sign", fmt.Sprintf("nothing ends in %s here: a name ends in a letter or digit, and an entry needs no full stop", text), " ")
	case syntax.SingleQuote:
		mend("quote", `names and texts stand in double quotes: "Amberlight"`, "")
	case syntax.ControlSign:
		mend("sign", "there is a control character here that can't be seen; take it out", " ")
	default:
		mend("sign", fmt.Sprintf("%s means nothing here; put names and texts with such signs in double quotes", text), "")
	}
}

// decimalComma shows the number meant: 25,2 is 25.2 and 1,200 is 1200.
func (r *reader) decimalComma(t syntax.Token, text string, mend func(rule, message, put string)) {
	whole, frac, _ := strings.Cut(text, ",")
	switch {
	case len(frac) == 3 && len(whole) <= 3 && whole != "0" && !strings.ContainsAny(frac, ",."):
		mend("decimal-comma", fmt.Sprintf("is %s one number? write %s%s for thousands, %s.%s for a fraction, or put a blank after the comma", text, whole, frac, whole, frac), "")
	case strings.Contains(frac, ","):
		mend("decimal-comma", fmt.Sprintf("write %s without commas, or put a blank after each", strings.ReplaceAll(text, ",", "")), strings.ReplaceAll(text, ",", ""))
	default:
		mend("decimal-comma", fmt.Sprintf("a decimal point is meant by this comma? write %s.%s, or put a blank after the comma", whole, frac), whole+"."+frac)
	}
}

// mismatch explains where a sentence stopped making sense.
func (r *reader) mismatch(k *Kind, m *syntax.Mismatch) {
	span := r.endSpan()
	if m.At < len(r.toks) {
		span = r.toks[m.At].Span
	}
	if r.wrongPlace(m) {
		return
	}
	before := "at the beginning"
	if m.At > 0 {
		before = "after \"" + r.shown(max(0, m.At-3), m.At) + "\""
	}
	found := "the entry ends"
	if m.At < len(r.toks) {
		found = "there stands \"" + r.shown(m.At, m.At+1) + "\""
	}
	message := fmt.Sprintf("%s %s, where %s should stand; write it like this: %s", before, found, wanted(m.Want), k.Pattern)
	f := finding.Finding{Span: span, Severity: finding.Error, Rule: "sentence", Message: message}
	if near, ok := r.meantWord(m); ok {
		f.Message = fmt.Sprintf("%s %s; did you mean %s? write it like this: %s", before, found, near, k.Pattern)
		f.Mend = &finding.Mend{Span: span, Text: near}
	}
	r.report(f)
}

// endSpan is the empty place behind the last token.
func (r *reader) endSpan() source.Span {
	end := r.toks[len(r.toks)-1].Span.End
	return source.Span{Start: end, End: end}
}

// shown is the text of some tokens, for a message.
func (r *reader) shown(from, to int) string {
	parts := make([]string, 0, to-from)
	for _, t := range r.toks[from:to] {
		parts = append(parts, r.file.Text(t.Span))
	}
	return strings.Join(parts, " ")
}

// wrongPlace recognises the slips that are of place and not of words: an entry
// begun on an indented line, a reserved word used as a name, and a clause word
// that was eaten as one because its own clause was forgotten.
func (r *reader) wrongPlace(m *syntax.Mismatch) bool {
	if m.At < len(r.toks) {
		t := r.toks[m.At]
		word := strings.ToLower(r.file.Text(t.Span))
		if _, verb := byVerb[word]; verb && t.Kind == syntax.Word && r.beginsLine(t.Span) {
			r.errorf(t.Span, "indent", "%s begins an entry and must stand in the first column; take out the blanks before it", word)
			return true
		}
		if t.Kind == syntax.Reserved && wants(m.Want, syntax.Word) && (m.At+1 == len(r.toks) || !wants(m.Want, syntax.EOF)) && word != "of" {
			r.errorf(t.Span, "name", "%q is a word of the language; a name goes before it, or in quotes if it is the name: %q", word, word)
			return true
		}
	}
	if m.At > 0 && m.At < len(r.toks) {
		t := r.toks[m.At-1]
		word := strings.ToLower(r.file.Text(t.Span))
		if t.Kind == syntax.Word && slices.Contains(clauseWords, word) && r.toks[m.At].Kind != syntax.Reserved {
			r.errorf(t.Span, "name", "%q was read as a name here, since the name that belongs before it is missing; write the name first, or put %q in quotes if that is the name", word, word)
			return true
		}
	}
	return false
}

func (r *reader) beginsLine(s source.Span) bool {
	line := r.file.LineSpan(r.file.Line(s.Start))
	return strings.TrimSpace(r.file.Text(source.Span{Start: line.Start, End: s.Start})) == ""
}

func wants(list []syntax.Terminal, k syntax.Kind) bool {
	return slices.Contains(list, syntax.Terminal{Kind: k})
}

// meantWord finds the word that was meant where one was misspelled.
func (r *reader) meantWord(m *syntax.Mismatch) (string, bool) {
	if m.At >= len(r.toks) || r.toks[m.At].Kind != syntax.Word {
		return "", false
	}
	var words []string
	for _, t := range m.Want {
		if len(t.Literal) > 2 {
			words = append(words, t.Literal)
		}
	}
	return spelling.Suggest(strings.ToLower(r.file.Text(r.toks[m.At].Span)), words)
}

// kindWords says a kind of token in a grower's words.
var kindWords = map[syntax.Kind]string{
	syntax.Word: "a name", syntax.Quoted: "a text in quotes", syntax.Int: "a number", syntax.Decimal: "an amount",
	syntax.Date: "a date", syntax.Month: "a month", syntax.Unit: "a unit", syntax.Currency: "a currency code",
	syntax.Cross: "×", syntax.EOF: "nothing more",
}

// wanted lists what could stand, in at most eight items: a name stands for its
// quoted form too, and an amount for a whole number.
func wanted(list []syntax.Terminal) string {
	var out []string
	for _, t := range list {
		switch {
		case t.Kind == syntax.Quoted && wants(list, syntax.Word), t.Kind == syntax.Int && wants(list, syntax.Decimal),
			t.Kind == syntax.Cross && len(list) > 1:
		case t.Literal != "":
			out = append(out, "\""+t.Literal+"\"")
		default:
			out = append(out, kindWords[t.Kind])
		}
	}
	if len(out) > 8 {
		out = append(out[:7], "another of its clauses")
	}
	return orList(out)
}

// notText is the one finding of a file that is no text.
func notText(file *source.File, off int) finding.Finding {
	what := "this is no UTF-8 text"
	if file.Bytes[off] == 0 {
		what = "there is a NUL byte, so this is no text"
	}
	return finding.Finding{
		File: file, Span: source.Span{Start: int32(off), End: int32(off)}, Severity: finding.Error, Rule: "text",
		Message: fmt.Sprintf("%s (byte %d of the file); save the journal as UTF-8 text", what, off),
	}
}
