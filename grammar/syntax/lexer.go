package syntax

import (
	"bytes"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/budstick/budstick/grammar/source"
)

// Fault says why a token is Bad.
type Fault uint8

// The faults of the text itself.
const (
	NoFault        Fault = iota
	OpenQuote            // the quoted text does not end on its line
	StrangeSign          // a sign that the language does not use
	DecimalComma         // 25,2
	OddNumber            // digits with - . or / that make no number or date
	NegativeNumber       // -5
	DotEnd               // a name or sentence that ends in a sign
	SingleQuote          // 'Glenn'
	ControlSign          // a control character
)

// class sorts bytes below 0x80; the others are decoded.
type class uint8

const (
	other class = iota
	blank
	digit
	letter
	joiner // may stand inside a name
	control
)

var classes = func() (t [128]class) {
	for c := range t {
		switch {
		case c == ' ' || c == '\t' || c == '\n':
			t[c] = blank
		case c < ' ' || c == 0x7F:
			t[c] = control
		case c >= '0' && c <= '9':
			t[c] = digit
		case c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z':
			t[c] = letter
		case c == '-' || c == '_' || c == '.' || c == '/':
			t[c] = joiner
		}
	}
	return t
}()

// dashes are read as a hyphen, quotes as a straight one, as telephones write
// them.
const (
	dashes       = "‐‑‒–—−"
	openQuotes   = "\"“”„‟″"
	singleQuotes = "'‘’‚`´"
)

// classOf gives the class and the length of the character at off.
func classOf(b []byte, off int) (class, int) {
	if c := b[off]; c < utf8.RuneSelf {
		return classes[c], 1
	}
	r, size := utf8.DecodeRune(b[off:])
	switch {
	case r == utf8.RuneError && size == 1:
		return control, 1
	case unicode.IsLetter(r) || unicode.IsMark(r):
		return letter, size
	case strings.ContainsRune(dashes, r):
		return joiner, size
	case unicode.IsSpace(r) || r == 0xFEFF || r == 0x200B || r == 0x2060:
		return blank, size
	case unicode.IsControl(r) || unicode.Is(unicode.Cf, r):
		return control, size
	}
	return other, size
}

// Lex cuts the bytes of a span into tokens and appends them to toks, without
// blanks and comments. It never fails: what is no token is a Bad one.
func Lex(b []byte, s source.Span, toks []Token) []Token {
	l := lexing{b: b[:s.End], toks: toks}
	for off := int(s.Start); off < len(l.b); {
		off = l.next(off)
	}
	return l.toks
}

// Trivia calls f with the span of each comment in s, in order. A comment runs
// to the end of its line, without the line's end.
func Trivia(b []byte, s source.Span, f func(source.Span)) {
	l := lexing{b: b[:s.End], comment: f}
	for off := int(s.Start); off < len(l.b); {
		l.toks = l.toks[:0]
		off = l.next(off)
	}
}

type lexing struct {
	b       []byte
	toks    []Token
	comment func(source.Span)
}

func (l *lexing) add(k Kind, start, end int) {
	l.toks = append(l.toks, Token{Kind: k, Span: source.Span{Start: int32(start), End: int32(end)}})
}

func (l *lexing) bad(why Fault, start, end int) {
	l.toks = append(l.toks, Token{Bad, why, source.Span{Start: int32(start), End: int32(end)}})
}

// next reads what stands at off and returns where it ends.
func (l *lexing) next(off int) int {
	c, size := classOf(l.b, off)
	switch c {
	case blank:
		return off + size
	case digit:
		return l.number(off)
	case letter:
		return l.word(off)
	case control:
		if l.b[off] == '\r' && off+1 < len(l.b) && l.b[off+1] == '\n' || l.b[off] == '\r' && off+1 == len(l.b) {
			return off + 1
		}
		l.bad(ControlSign, off, off+size)
		return off + size
	case joiner:
		return l.signedNumber(off, size)
	}
	r, _ := utf8.DecodeRune(l.b[off:])
	switch {
	case r == '#':
		return l.skipComment(off)
	case strings.ContainsRune(openQuotes, r):
		return l.quoted(off, r)
	case r == ',':
		l.add(Comma, off, off+size)
	case r == ':':
		l.add(Colon, off, off+size)
	case r == '×':
		l.add(Cross, off, off+size)
	case r == '%' && l.afterNumber():
		l.add(Unit, off, off+size)
	case strings.ContainsRune(singleQuotes, r):
		l.bad(SingleQuote, off, off+size)
	default:
		l.bad(StrangeSign, off, off+size)
	}
	return off + size
}

func (l *lexing) afterNumber() bool {
	if len(l.toks) == 0 {
		return false
	}
	k := l.toks[len(l.toks)-1].Kind
	return k == Int || k == Decimal
}

func (l *lexing) afterPer() bool {
	if len(l.toks) == 0 {
		return false
	}
	t := l.toks[len(l.toks)-1]
	return t.Kind == Reserved && t.Span.Len() == 3 && bytes.EqualFold(l.b[t.Span.Start:t.Span.End], []byte("per"))
}

func (l *lexing) skipComment(off int) int {
	end := lineEnd(l.b, off)
	if l.comment != nil {
		l.comment(source.Span{Start: int32(off), End: int32(end)})
	}
	return end
}

// lineEnd is the end of the line at off, before CR LF or LF.
func lineEnd(b []byte, off int) int {
	end := len(b)
	if i := bytes.IndexByte(b[off:], '\n'); i >= 0 {
		end = off + i
	}
	if end > off && b[end-1] == '\r' {
		end--
	}
	return end
}

// run is the end of the name characters from off on.
func (l *lexing) run(off int) int {
	for off < len(l.b) {
		c, size := classOf(l.b, off)
		if c != digit && c != letter && c != joiner {
			break
		}
		off += size
	}
	return off
}

// trimSigns moves the signs at the end of a run off it: a name ends in a
// letter or digit.
func trimSigns(b []byte) int {
	end := len(b)
	for end > 0 {
		r, size := utf8.DecodeLastRune(b[:end])
		if !strings.ContainsRune("-_./"+dashes, r) {
			break
		}
		end -= size
	}
	return end
}

func (l *lexing) word(off int) int {
	end := l.run(off)
	stop := off + trimSigns(l.b[off:end])
	text := l.b[off:stop]
	switch {
	case l.afterPer() && isUnit(text), l.afterNumber() && isUnit(text):
		l.add(Unit, off, stop)
	case l.afterNumber() && isCurrency(text) && !isReserved(text):
		l.add(Currency, off, stop)
	case isReserved(text):
		l.add(Reserved, off, stop)
	default:
		l.add(Word, off, stop)
	}
	if stop < end {
		l.bad(DotEnd, stop, end)
	}
	return end
}

// number reads what begins with a digit: a number, a date, a number run
// together with its unit, or a name such as 2b.
func (l *lexing) number(off int) int {
	end := l.run(off)
	if end < len(l.b)-1 && l.b[end] == ',' && classes[l.b[end+1]&0x7F] == digit && l.b[end+1] < utf8.RuneSelf && allDigits(l.b[off:end]) {
		end = l.run(end + 1)
		for end < len(l.b)-1 && l.b[end] == ',' && l.b[end+1] >= '0' && l.b[end+1] <= '9' {
			end = l.run(end + 1)
		}
		l.bad(DecimalComma, off, end)
		return end
	}
	stop := off + trimSigns(l.b[off:end])
	l.numeric(off, stop)
	if stop < end {
		l.bad(DotEnd, stop, end)
	}
	return end
}

// numeric sorts the run [off, end), which begins and ends in no sign.
func (l *lexing) numeric(off, end int) {
	b := l.b[off:end]
	n := 0
	for n < len(b) && (b[n] >= '0' && b[n] <= '9' || b[n] == '.' && n+1 < len(b) && b[n+1] >= '0' && b[n+1] <= '9') {
		n++
	}
	head := numberKind(b[:n])
	switch {
	case n == len(b) && head != Bad:
		l.add(head, off, end)
	case n < len(b) && head != Bad && (isUnit(b[n:]) || isCurrency(b[n:])):
		l.add(head, off, off+n)
		kind := Unit
		if !isUnit(b[n:]) {
			kind = Currency
		}
		l.add(kind, off+n, end)
	case hasLetter(b):
		l.add(Word, off, end)
	default:
		l.add2(dateKind(b), off, end)
	}
}

func (l *lexing) add2(k Kind, off, end int) {
	if k == Bad {
		l.bad(OddNumber, off, end)
		return
	}
	l.add(k, off, end)
}

// numberKind tells whether digits and points are a whole number, a decimal or
// neither.
func numberKind(b []byte) Kind {
	switch bytes.Count(b, []byte{'.'}) {
	case 0:
		return Int
	case 1:
		return Decimal
	}
	return Bad
}

// dateKind tells YYYY-MM-DD from YYYY-MM; whether the day exists is not its
// business.
func dateKind(b []byte) Kind {
	plain := bytes.Map(func(r rune) rune {
		if strings.ContainsRune(dashes, r) {
			return '-'
		}
		return r
	}, b)
	parts := bytes.Split(plain, []byte{'-'})
	for i, p := range parts {
		if !allDigits(p) || i == 0 && len(p) != 4 || i > 0 && len(p) != 2 {
			return Bad
		}
	}
	switch len(parts) {
	case 2:
		return Month
	case 3:
		return Date
	}
	return Bad
}

func allDigits(b []byte) bool {
	for _, c := range b {
		if c < '0' || c > '9' {
			return false
		}
	}
	return len(b) > 0
}

func hasLetter(b []byte) bool {
	for off := 0; off < len(b); {
		c, size := classOf(b, off)
		if c == letter {
			return true
		}
		off += size
	}
	return false
}

// signedNumber reads a sign that begins nothing the language knows: a number
// below zero, or a stray sign.
func (l *lexing) signedNumber(off, size int) int {
	end := l.run(off)
	why := StrangeSign
	if off+size < len(l.b) && l.b[off+size] >= '0' && l.b[off+size] <= '9' && l.b[off] != '.' && l.b[off] != '/' && l.b[off] != '_' {
		why = NegativeNumber
	} else if off+size < len(l.b) && l.b[off] == '.' && l.b[off+size] >= '0' && l.b[off+size] <= '9' {
		why = OddNumber
	}
	l.bad(why, off, end)
	return end
}

// quoted reads a text in quotes, which ends on its line. One opened by a
// straight quote ends at a straight one; one opened by a curly quote ends at
// any.
func (l *lexing) quoted(off int, open rune) int {
	end := lineEnd(l.b, off)
	closing := openQuotes
	if open == '"' {
		closing = "\""
	}
	for i := off + utf8.RuneLen(open); i < end; {
		r, size := utf8.DecodeRune(l.b[i:end])
		switch {
		case r == '\\' && i+size < end:
			_, next := utf8.DecodeRune(l.b[i+size : end])
			i += size + next
			continue
		case strings.ContainsRune(closing, r):
			l.add(Quoted, off, i+size)
			return i + size
		}
		i += size
	}
	l.bad(OpenQuote, off, end)
	return end
}

// Unquote is the text of a quoted token, less its quotes and backslashes.
func Unquote(s string) string {
	_, first := utf8.DecodeRuneInString(s)
	_, last := utf8.DecodeLastRuneInString(s)
	if len(s) < first+last {
		return ""
	}
	s = s[first : len(s)-last]
	if !strings.Contains(s, `\`) {
		return s
	}
	var out strings.Builder
	escaped := false
	for _, r := range s {
		if r == '\\' && !escaped {
			escaped = true
			continue
		}
		escaped = false
		out.WriteRune(r)
	}
	return out.String()
}

// Quote writes s as a quoted text.
func Quote(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) + `"`
}

// Bare reports whether s can be written as a name without quotes.
func Bare(s string) bool {
	toks := Lex([]byte(s), source.Span{End: int32(len(s))}, nil)
	return len(toks) == 1 && toks[0].Kind == Word && toks[0].Span.Len() == len(s) && !strings.ContainsAny(s, dashes)
}

// Spell writes a name bare where it can be, else in quotes.
func Spell(s string) string {
	if Bare(s) {
		return s
	}
	return Quote(s)
}
