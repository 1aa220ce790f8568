package entry

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// numberWords are the numbers that people write in letters.
var numberWords = func() map[string]int {
	m := map[string]int{}
	for i, w := range strings.Fields("one two three four five six seven eight nine ten eleven twelve") {
		m[w] = i + 1
	}
	maps.Copy(m, map[string]int{"fifteen": 15, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "hundred": 100})
	return m
}()

// better reports whether the entry, with a stretch of it written otherwise,
// makes sense beyond that stretch and beyond where it stopped. A second slip
// further on doesn't hide the first.
func (s *stop) better(span source.Span, put string) bool {
	begin := s.spanAt(0).Start
	whole := source.Span{Start: begin, End: s.spanAt(len(s.toks)).End}
	text := s.file.Text(source.Span{Start: begin, End: span.Start}) + put + s.file.Text(source.Span{Start: span.End, End: whole.End})
	file := source.New("", []byte(text))
	toks := syntax.Lex(file.Bytes, source.Span{End: int32(len(text))}, nil)
	_, bad := s.parser.Parse(s.kind.Grammar, file, toks)
	if bad == nil {
		return true
	}
	if bad.At == len(toks) {
		return false
	}
	now, behind := toks[bad.At].Span.Start, span.Start-begin+int32(len(put))
	return now > behind || span.End > s.spanAt(s.at).Start && now == behind
}

// replace offers other words for some tokens, and say begins the message.
func (s *stop) replace(from, to int, put, say string) finding.Finding {
	span := source.Span{Start: s.spanAt(from).Start, End: s.spanAt(to).End}
	return finding.Finding{
		Span: span, Message: say + " " + put,
		Mend: &finding.Mend{Span: span, Text: put},
	}
}

// dose: how much of a product was used.
func dose(s *stop) (f finding.Finding, ok bool) {
	if s.kind != treatKind && s.kind != tendKind || s.at == len(s.toks) || s.wants(syntax.Int) {
		return f, false
	}
	k := s.toks[s.at].Kind
	f.Message = "no dose is written here: what the label of the product says goes; leave it out"
	return f, k == syntax.Int || k == syntax.Decimal
}

// numberInLetters: three for 3, and a dozen for 12.
func numberInLetters(s *stop) (f finding.Finding, ok bool) {
	if f, ok := dozen(s); ok {
		return f, true
	}
	for i := s.at; i >= max(1, s.at-1); i-- {
		n, ok := numberWords[strings.ToLower(s.tok(i))]
		if !ok || s.toks[i].Kind != syntax.Word {
			continue
		}
		if put := strconv.Itoa(n); s.better(s.spanAt(i), put) {
			f = s.replace(i, i, put, "a number is written in digits:")
			f.Rule = "number"
			return f, true
		}
	}
	return f, false
}

// dozen: 3 dozen, whose number would be lost with the word.
func dozen(s *stop) (f finding.Finding, ok bool) {
	if word := strings.ToLower(s.tok(s.at)); word != "dozen" && word != "dozens" || s.toks[s.at-1].Kind != syntax.Int {
		return f, false
	}
	n, err := strconv.Atoi(s.tok(s.at - 1))
	if err != nil || n > 1000 {
		return f, false
	}
	f = s.replace(s.at-1, s.at, strconv.Itoa(12*n), "a number is written in digits:")
	f.Rule = "number"
	return f, true
}

// runTogether is a number right before a unit, and minutes right behind it.
var runTogether = regexp.MustCompile(`^(\d+)([a-zA-Z]+)(\d*)$`)

// gluedUnit: 20m after 1 h, 2hours, 2h30.
func gluedUnit(s *stop) (f finding.Finding, ok bool) {
	if s.at == len(s.toks) || s.toks[s.at].Kind != syntax.Word && s.toks[s.at].Kind != syntax.Unit {
		return f, false
	}
	part := runTogether.FindStringSubmatch(s.tok(s.at))
	if part == nil {
		return f, false
	}
	unit := strings.ToLower(part[2])
	if other, ok := otherWords[unit]; ok {
		unit = other
	} else if unit == "m" && s.at > 1 && strings.EqualFold(s.tok(s.at-1), "h") {
		unit = "min"
	}
	put := part[1] + " " + unit
	if part[3] != "" {
		put += " " + part[3] + " min"
	}
	if _, known := syntax.UnitNamed(unit); !known || !s.better(s.spanAt(s.at), put) {
		return f, false
	}
	f = s.replace(s.at, s.at, put, "a number and its unit are written:")
	return f, true
}

// clock: 2:30 where hours stand.
func clock(s *stop) (f finding.Finding, ok bool) {
	if s.at == 0 || s.tok(s.at) != ":" || !s.wants(syntax.Unit) || s.at+1 >= len(s.toks) || s.toks[s.at+1].Kind != syntax.Int {
		return f, false
	}
	put := s.tok(s.at-1) + " h " + s.tok(s.at+1) + " min"
	to := s.at + 1
	if to+1 < len(s.toks) && s.toks[to+1].Kind == syntax.Unit {
		to++
	}
	f = s.replace(s.at-1, to, put, "hours are written:")
	return f, s.better(f.Span, put)
}

// currencyFirst: USD 3.50 for 3.50 USD.
func currencyFirst(s *stop) (f finding.Finding, ok bool) {
	if s.at+1 >= len(s.toks) || !syntax.IsCurrency(s.tok(s.at)) {
		return f, false
	}
	if k := s.toks[s.at+1].Kind; k != syntax.Int && k != syntax.Decimal {
		return f, false
	}
	put := s.tok(s.at+1) + " " + strings.ToUpper(s.tok(s.at))
	f = s.replace(s.at, s.at+1, put, "the currency stands behind its number:")
	return f, s.better(f.Span, put)
}

// stateBehindOf: 6 of failed KK26 for 6 failed of KK26.
func stateBehindOf(s *stop) (f finding.Finding, ok bool) {
	if s.at < 3 || s.at == len(s.toks) || !strings.EqualFold(s.tok(s.at-2), "of") || !slices.Contains(states, strings.ToLower(s.tok(s.at-1))) {
		return f, false
	}
	put := s.tok(s.at-1) + " of " + s.tok(s.at)
	f = s.replace(s.at-2, s.at, put, `the state stands before "of":`)
	return f, s.better(f.Span, put)
}

var states = strings.Fields("waiting attached living failed")

// hyphened: off type for off-type, whip and tongue for whip-and-tongue.
func hyphened(s *stop) (f finding.Finding, ok bool) {
	if s.at+1 < len(s.toks) {
		put := strings.ToLower(s.tok(s.at) + "-" + s.tok(s.at+1))
		if s.wantsWord(put) {
			return s.replace(s.at, s.at+1, put, "it is one word:"), true
		}
	}
	if s.at < 2 || s.at+1 >= len(s.toks) || s.tok(s.at) != "and" || !strings.EqualFold(s.tok(s.at-2), "by") ||
		s.toks[s.at+1].Kind != syntax.Word {
		return f, false
	}
	put := s.tok(s.at-1) + "-and-" + s.tok(s.at+1)
	f = s.replace(s.at-1, s.at+1, put, "a name is one word, or several in quotes:")
	return f, s.better(f.Span, put)
}

// smallWords are the words that may have been meant by another small word, the
// likeliest first.
var smallWords = map[string][]string{
	"by": {"to", "from"}, "for": {"to"}, "from": {"of", "to"}, "in": {"at"}, "into": {"to"}, "off": {"from"},
	"an": {"per"}, "a": {"per"}, "on": {"at"},
}

// smallWord: lose 2 of AM26 by frost, paid 100 by Bob, plant 3 in an orchard.
func smallWord(s *stop) (finding.Finding, bool) {
	word := strings.ToLower(s.tok(s.at))
	meant := smallWords[word]
	if word == "in" && (s.kind == moveKind || s.kind == potKind) {
		meant = smallWords["into"]
	}
	for _, m := range meant {
		if s.wantsWord(m) && s.better(s.spanAt(s.at), m) {
			return s.instead(m, fmt.Sprintf("write %q for %q:", m, s.tok(s.at))), true
		}
	}
	return finding.Finding{}, false
}

// idleWords are words that say nothing here.
var idleWords = strings.Fields("due valid the then also pcs pieces total")

// idleWord: lose 2 of AM26 due to frost, valid until 2027-03-31.
func idleWord(s *stop) (f finding.Finding, ok bool) {
	if !slices.Contains(idleWords, strings.ToLower(s.tok(s.at))) || s.toks[s.at].Kind != syntax.Word {
		return f, false
	}
	if !s.better(s.spanAt(s.at), "") {
		return f, false
	}
	s.Repair = syntax.Repair{How: syntax.Surplus, At: s.at}
	f.Message = fmt.Sprintf("leave out %s: %s", s.tok(s.at), s.mended())
	f.Mend = &finding.Mend{Span: s.withBlank(s.at)}
	return f, true
}
