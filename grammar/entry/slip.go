package entry

import (
	"fmt"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// slips are the ways of going wrong that are better told by what was meant
// than by what could stand there. The first that knows the place explains it.
var slips = []func(*stop) (finding.Finding, bool){
	nextEntry, dose, numberInLetters, otherWord, wageOrHours, gluedUnit, clock, currencyFirst, stateBehindOf,
	hyphened, smallWord, idleWord, priceOfOne, priceForOne, priceAtPlace, bareText, fraction,
	thousands, wordFirst, verdict, reservedName, misspelled, twoWords,
}

// nextEntry: a verb where the sentence is over, on its own line or not.
func nextEntry(s *stop) (f finding.Finding, ok bool) {
	word := strings.ToLower(s.tok(s.at))
	if s.at == len(s.toks) || byVerb[word] == nil || s.toks[s.at].Kind != syntax.Word {
		return f, false
	}
	if meant, ok := s.near(); ok && strings.HasPrefix(meant, word) {
		return f, false // pick for picks
	}
	span := s.spanAt(s.at)
	line := s.file.LineSpan(s.file.Line(span.Start))
	before := source.Span{Start: line.Start, End: span.Start}
	f.Rule = "indent"
	if strings.TrimSpace(s.file.Text(before)) == "" {
		f.Message = fmt.Sprintf("%s begins an entry and stands in the first column; take out the blanks before it", word)
		f.Mend = &finding.Mend{Span: before}
		return f, true
	}
	f.Message = fmt.Sprintf("%s begins an entry of its own; put it on a new line", word)
	f.Mend = &finding.Mend{Span: source.Span{Start: s.spanAt(s.at - 1).End, End: span.Start}, Text: "\n"}
	return f, s.wants(syntax.EOF)
}

// otherWords are words that growers use for a word or unit of the language.
var otherWords = map[string]string{
	"taken": "took", "alive": "took", "take": "took", "germinated": "up", "sprouted": "up", "emerged": "up",
	"died": "dead", "undecided": "unsure", "buds": "scions", "branches": "limbs", "of": "on",
	"using": "with", "untied": "ties", "suckered": "rubbed", "girdle": "girdled",
	"root": "rooted", "roots": "rooted", "fail": "failed", "ea": "each", "apiece": "each",
	"ill": "sick", "diseased": "sick", "license": "licence", "fruits": "fruit",
	"hours": "h", "hour": "h", "hrs": "h", "hr": "h", "minutes": "min", "minute": "min", "mins": "min",
	"litres": "L", "litre": "L", "liters": "L", "liter": "L", "gallon": "gal", "gallons": "gal",
	"kilo": "kg", "kilos": "kg", "kilograms": "kg", "grams": "g", "pounds": "lb", "pound": "lb", "ounces": "oz",
	"millimetres": "mm", "millimeters": "mm", "centimetres": "cm", "centimeters": "cm", "percent": "%",
	"hectares": "ha", "sqm": "m2", "yr": "years", "yrs": "years",
}

// otherWord: another word for one that could stand here.
func otherWord(s *stop) (finding.Finding, bool) {
	meant, ok := otherWords[strings.ToLower(s.tok(s.at))]
	if !ok {
		return finding.Finding{}, false
	}
	if _, unit := syntax.UnitNamed(meant); unit && s.wants(syntax.Unit) || s.wantsWord(meant) {
		return s.instead(meant, fmt.Sprintf("write %q for %q:", meant, s.tok(s.at))), true
	}
	return finding.Finding{}, false
}

// wageOrHours: a clause about hours in the first column.
func wageOrHours(s *stop) (finding.Finding, bool) {
	hours := s.kind == workerKind && s.at < len(s.toks) && s.toks[s.at].Kind == syntax.Unit
	return finding.Finding{
		Span: s.spanAt(0), Rule: "indent",
		Message: "in the first column \"worker\" declares a wage; hours go on with the entry above: put two blanks before it",
		Mend:    &finding.Mend{Span: empty(s.spanAt(0).Start), Text: "  "},
	}, hours
}

// priceOfOne: at 19.00, without each.
func priceOfOne(s *stop) (finding.Finding, bool) {
	price := s.tok(s.at - 1)
	if !s.kind.Grammar.Knows("for") {
		return finding.Finding{
			Span:    s.spanAt(s.at - 1),
			Message: fmt.Sprintf("the price of what? write: at %s each, or, of fruit by weight: at %s per kg", price, price),
		}, s.wantsWord("each")
	}
	return finding.Finding{
		Span: s.spanAt(s.at - 1),
		Message: fmt.Sprintf("is that the price of one, or of all? write: at %s each (fruit by weight: at %s per kg), or: for %s",
			price, price, price),
	}, s.wantsWord("each")
}

// priceForOne: for 19.00 each.
func priceForOne(s *stop) (f finding.Finding, ok bool) {
	word := strings.ToLower(s.tok(s.at))
	before := s.at - 2
	if before >= 0 && s.toks[s.at-1].Kind == syntax.Currency {
		before--
	}
	if word != "each" && word != "per" || !strings.EqualFold(s.tok(before), "for") {
		return f, false
	}
	f.Span = s.spanAt(before)
	if !s.kind.Grammar.Knows("each") {
		f.Message = fmt.Sprintf(`"for" is the price of all of it: for %s; leave out %q`, s.tok(before+1), word)
		return f, true
	}
	f.Message = fmt.Sprintf(`"for" is the price of all; the price of one is written: at %s %s`, s.tok(before+1), word)
	f.Mend = &finding.Mend{Span: f.Span, Text: "at"}
	return f, true
}

// priceAtPlace: at 1.75 where only a place can stand.
func priceAtPlace(s *stop) (finding.Finding, bool) {
	if s.at == len(s.toks) || !strings.EqualFold(s.tok(s.at-1), "at") || s.toks[s.at].Kind != syntax.Int && s.toks[s.at].Kind != syntax.Decimal {
		return finding.Finding{}, false
	}
	say := "cost 12.50"
	if slices.Contains(s.wantsAfter(s.at-1, "for"), syntax.Terminal{Kind: syntax.Int}) {
		say = "for 87.50"
	}
	return finding.Finding{Message: fmt.Sprintf(`"at" names a place here; what all of it cost is written: %s`, say)}, true
}

// wantsAfter is what could stand behind the tokens before i and a word.
func (s *stop) wantsAfter(i int, word string) []syntax.Terminal {
	text := s.file.Text(source.Span{Start: s.spanAt(0).Start, End: s.spanAt(i).Start}) + word
	file := source.New("", []byte(text))
	_, want := s.kind.Grammar.Expected(file, syntax.Lex(file.Bytes, source.Span{End: int32(len(text))}, nil))
	return want
}

// bareText: a text without its quotes.
func bareText(s *stop) (f finding.Finding, ok bool) {
	if s.at == len(s.toks) || !s.wants(syntax.Quoted) || s.wants(syntax.Word) || len(s.want) > 1 && s.toks[s.at].Kind != syntax.Word ||
		s.toks[s.at-1].Kind == syntax.Quoted {
		return f, false
	}
	last := s.at
	line := s.file.Line(s.spanAt(s.at).Start)
	for last+1 < len(s.toks) && s.file.Line(s.spanAt(last+1).Start) == line {
		last++
	}
	f.Span = source.Span{Start: s.spanAt(s.at).Start, End: s.spanAt(last).End}
	text := syntax.Quote(s.file.Text(f.Span))
	if s.kind.Grammar.Knows("to") && strings.EqualFold(s.tok(s.at), "of") && last == s.at+1 && s.toks[last].Kind == syntax.Word {
		f.Span.Start = s.spanAt(s.at - 1).Start
		f.Message = fmt.Sprintf("a cause is written: to %s", s.tok(last))
		f.Mend = &finding.Mend{Span: f.Span, Text: "to " + s.tok(last)}
		return f, true
	}
	if s.kind.Grammar.Knows("to") && strings.EqualFold(s.tok(s.at-1), "because") && last == s.at && s.toks[s.at].Kind == syntax.Word {
		f.Span.Start = s.spanAt(s.at - 1).Start
		f.Message = fmt.Sprintf("a cause is written: to %s; because takes a text in quotes: because %s", s.tok(s.at), text)
		f.Mend = &finding.Mend{Span: f.Span, Text: "to " + s.tok(s.at)}
		return f, true
	}
	f.Message = fmt.Sprintf("a text stands in quotes: %s %s", s.tok(s.at-1), text)
	f.Mend = &finding.Mend{Span: f.Span, Text: text}
	return f, true
}

// fraction: half a plant.
func fraction(s *stop) (f finding.Finding, ok bool) {
	if s.at == len(s.toks) || s.toks[s.at].Kind != syntax.Decimal || !s.wants(syntax.Int) || s.wants(syntax.Decimal) {
		return f, false
	}
	f.Rule = "number"
	f.Message = notWhole(s.tok(s.at))
	return f, true
}

func notWhole(text string) string {
	say := fmt.Sprintf("%s is no whole number; only what is weighed or measured has a fraction", text)
	if whole, part, _ := strings.Cut(text, "."); len(part) == 3 {
		say += fmt.Sprintf(" (if thousands are meant, write %s%s)", whole, part)
	}
	return say
}

// wordFirst: took 39 for 39 took.
func wordFirst(s *stop) (f finding.Finding, ok bool) {
	first := s.at - 1 // a verdict needs no number, so the sentence stops at its number
	if s.at < len(s.toks) && s.toks[s.at].Kind == syntax.Word && s.wants(syntax.Int) {
		first = s.at
	}
	if first < 1 || first+1 >= len(s.toks) || s.toks[first].Kind != syntax.Word || s.toks[first+1].Kind != syntax.Int ||
		!s.kind.Grammar.Knows(s.tok(first)) || s.tok(first-1) != ":" && s.tok(first-1) != "," && first == s.at-1 {
		return f, false
	}
	var pairs []string
	end := first
	for i := first; i+1 < len(s.toks) && s.toks[i].Kind == syntax.Word && s.toks[i+1].Kind == syntax.Int; i += 3 {
		pairs = append(pairs, s.tok(i+1)+" "+s.tok(i))
		end = i + 1
		if s.tok(end+1) != "," {
			break
		}
	}
	f.Span = source.Span{Start: s.spanAt(first).Start, End: s.spanAt(end).End}
	text := strings.Join(pairs, ", ")
	f.Message = "the number comes first: " + text
	f.Mend = &finding.Mend{Span: f.Span, Text: text}
	return f, true
}

// thousands: 1 200 for 1200.
func thousands(s *stop) (f finding.Finding, ok bool) {
	if s.at == 0 || s.at == len(s.toks) || s.toks[s.at-1].Kind != syntax.Int {
		return f, false
	}
	whole, _, _ := strings.Cut(s.tok(s.at), ".")
	if kind := s.toks[s.at].Kind; kind != syntax.Int && kind != syntax.Decimal || len(whole) != 3 {
		return f, false
	}
	f.Rule = "number"
	f.Span = source.Span{Start: s.spanAt(s.at - 1).Start, End: s.spanAt(s.at).End}
	text := s.tok(s.at-1) + s.tok(s.at)
	f.Message = "a number holds no blank: " + text
	f.Mend = &finding.Mend{Span: f.Span, Text: text}
	return f, true
}

// verdict: a check that does not say what was seen.
func verdict(s *stop) (finding.Finding, bool) {
	f := finding.Finding{Message: "what was seen is a number and a word: 39 took, 6 failed"}
	return f, s.wants(syntax.Int) && s.wantsWord("took")
}

// reservedName: a reserved word where a name should stand, and no clause of
// this sentence begins with it.
func reservedName(s *stop) (f finding.Finding, ok bool) {
	word := s.tok(s.at)
	if s.at == len(s.toks) || s.toks[s.at].Kind != syntax.Reserved || !s.wants(syntax.Word) || s.kind.Grammar.Knows(word) {
		return f, false
	}
	f.Rule = "name"
	f.Message = fmt.Sprintf("%q is a word of the language; as a name it stands in quotes", word)
	f.Mend = &finding.Mend{Span: s.spanAt(s.at), Text: syntax.Quote(word)}
	return f, true
}

// twoWords: two names side by side, which are one without its quotes or have
// lost the word between them.
func twoWords(s *stop) (f finding.Finding, ok bool) {
	last := s.at
	for ; last < len(s.toks) && s.toks[last].Kind == syntax.Word && !s.kind.Grammar.Knows(s.tok(last)); last++ {
	}
	if last == s.at || s.at < 2 || s.toks[s.at-1].Kind != syntax.Word {
		return f, false
	}
	f.Span = source.Span{Start: s.spanAt(s.at - 1).Start, End: s.spanAt(last - 1).End}
	if strings.ContainsAny(s.file.Text(f.Span), "\n#") || !s.fitsJoined(s.at-1, last, f.Span) {
		return finding.Finding{}, false
	}
	quoted := syntax.Quote(strings.Join(strings.Fields(s.file.Text(f.Span)), " "))
	f.Rule = "name"
	f.Message = "a name of several words stands in quotes: " + quoted
	between := s.between()
	switch {
	case between == "":
		f.Mend = &finding.Mend{Span: f.Span, Text: quoted}
	case strings.ContainsAny(s.tok(s.at-1)+s.tok(s.at), "0123456789"):
		f.Message = fmt.Sprintf("between %s and %s %s is missing; %s", s.tok(s.at-1), s.tok(s.at), between, f.Message)
	default:
		f.Message += fmt.Sprintf("; between two names %s is missing", between)
	}
	return f, true
}

// fitsJoined reports whether the sentence would fit, or make sense for longer,
// with some tokens made one name.
func (s *stop) fitsJoined(from, to int, span source.Span) bool {
	name := syntax.Token{Kind: syntax.Quoted, Span: span}
	_, bad := s.parser.Parse(s.kind.Grammar, s.file, slices.Concat(s.toks[:from], []syntax.Token{name}, s.toks[to:]))
	return bad == nil || bad.At > from+1 && bad.At <= len(s.toks)-(to-from)
}

// between lists words of the kind's own sentences that would mend two names
// side by side, or nothing.
func (s *stop) between() string {
	s.repair()
	if s.How != syntax.Missing || len(s.Put) != 1 {
		return ""
	}
	shown := s.kind.examples()
	var out []string
	for _, t := range slices.Concat(s.Put, s.Or) {
		if unshown(shown, t) == 0 && t.Literal != "" {
			out = append(out, an(t.Terminal))
		}
	}
	return orList(out[:min(3, len(out))])
}

// misspelled: a word that is nearly one that could stand here.
func misspelled(s *stop) (finding.Finding, bool) {
	if s.at == len(s.toks) || s.toks[s.at].Kind != syntax.Word {
		return finding.Finding{}, false
	}
	meant, ok := s.near()
	if !ok {
		return finding.Finding{}, false
	}
	return s.instead(meant, fmt.Sprintf("did you mean %q?", meant)), true
}
