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

var classes = func() (t [utf8.RuneSelf]class) {
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

// named are the plain characters that a name may hold.
var named = func() (t [utf8.RuneSelf]bool) {
	for c := range t {
		t[c] = classes[c] == digit || classes[c] == letter || classes[c] == joiner
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
		if c := l.b[off]; c < utf8.RuneSelf && named[c] {
			off++
			continue
		}
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
		if c := b[end-1]; c < utf8.RuneSelf && classes[c] != joiner {
			break
		}
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
	case isReserved(text):
		l.add(Reserved, off, stop)
	case l.afterNumber() && isCurrency(text):
		l.add(Currency, off, stop)
	default:
		l.add(Word, off, stop)
	}
	return l.close(stop, end)
}

// close reports signs that end a run, and a comma that stands right between
// two digits, where nobody can tell what it means.
func (l *lexing) close(stop, end int) int {
	if stop < end {
		l.bad(DotEnd, stop, end)
	} else if l.commaBetween(end) {
		l.bad(DecimalComma, end, end+1)
		return end + 1
	}
	return end
}

// commaBetween reports whether a comma at off has a digit on either side.
func (l *lexing) commaBetween(off int) bool {
	return off > 0 && off+1 < len(l.b) && l.b[off] == ',' && isDigit(l.b[off-1]) && isDigit(l.b[off+1])
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// number reads what begins with a digit: a number, a date, a number run
// together with its unit, or a name such as 2b.
func (l *lexing) number(off int) int {
	end := l.run(off)
	if l.commaBetween(end) && numberKind(l.b[off:end]) != Bad {
		for l.commaBetween(end) {
			end = l.run(end + 1)
		}
		end = off + trimSigns(l.b[off:end])
		l.bad(DecimalComma, off, end)
		return end
	}
	stop := off + trimSigns(l.b[off:end])
	l.numeric(off, stop)
	return l.close(stop, end)
}

// numeric sorts the run [off, end), which begins with a digit and ends in no
// sign.
func (l *lexing) numeric(off, end int) {
	b := l.b[off:end]
	if kind := numberKind(b); kind != Bad {
		l.add(kind, off, end)
	} else if kind := dateKind(b); kind != Bad {
		l.add(kind, off, end)
	} else if !hasLetter(b) {
		l.bad(OddNumber, off, end)
	} else if !l.measures(off, end) {
		l.add(Word, off, end)
	}
}

// measures adds numbers run together with their units, as in 9mm, 12.50EUR or
// 3h20min, if the run [off, end) is made of nothing else.
func (l *lexing) measures(off, end int) bool {
	had := len(l.toks)
	for off < end {
		n := l.numberAt(off, end)
		u := n
		for u < end && !isDigit(l.b[u]) {
			u++
		}
		switch {
		case n == off:
			l.toks = l.toks[:had]
			return false
		case isUnit(l.b[n:end]): // m2 ends in a digit
			u = end
			fallthrough
		case isUnit(l.b[n:u]):
			l.add(numberKind(l.b[off:n]), off, n)
			l.add(Unit, n, u)
		case u == end && isCurrency(l.b[n:u]):
			l.add(numberKind(l.b[off:n]), off, n)
			l.add(Currency, n, u)
		default:
			l.toks = l.toks[:had]
			return false
		}
		off = u
	}
	return true
}

// numberAt is the end of the number at off, or off where none stands.
func (l *lexing) numberAt(off, end int) int {
	n := off
	for n < end && (isDigit(l.b[n]) || l.b[n] == '.' && n > off) {
		n++
	}
	if numberKind(l.b[off:n]) == Bad {
		return off
	}
	return n
}

// numberKind tells whether b is a whole number, a decimal or neither.
func numberKind(b []byte) Kind {
	point := -1
	for i, c := range b {
		switch {
		case isDigit(c):
		case c == '.' && point < 0 && i > 0 && i+1 < len(b):
			point = i
		default:
			return Bad
		}
	}
	switch {
	case len(b) == 0:
		return Bad
	case point > 0:
		return Decimal
	}
	return Int
}

// dateKind tells YYYY-MM-DD from YYYY-MM; whether the day exists is not its
// business.
func dateKind(b []byte) Kind {
	plain := Hyphens(string(b))
	switch {
	case len(plain) == 10 && plain[4] == '-' && plain[7] == '-' && allDigits(plain[:4]+plain[5:7]+plain[8:]):
		return Date
	case len(plain) == 7 && plain[4] == '-' && allDigits(plain[:4]+plain[5:]):
		return Month
	}
	return Bad
}

func allDigits(s string) bool { return strings.Trim(s, "0123456789") == "" }

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
// below zero or with no digit before its point, or a stray sign.
func (l *lexing) signedNumber(off, size int) int {
	end := l.run(off)
	why := StrangeSign
	if next := off + size; next < len(l.b) && isDigit(l.b[next]) {
		switch l.b[off] {
		case '_', '/':
		case '.':
			why = OddNumber
		default:
			why = NegativeNumber
		}
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
