package entry

import (
	"fmt"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/syntax"
)

// badTokens reports what is no token at all; the sentence around it is not
// looked at further. A file that is no journal has thousands of such signs, and
// the first few of an entry say it.
func (r *reader) badTokens() bool {
	n := 0
	for _, t := range r.toks {
		if t.Kind == syntax.Bad && n < most {
			r.badToken(t)
			n++
		}
	}
	return n > 0
}

// lineEnd is how a line ends.
const lineEnd = "\n"

// badToken explains a token that is no word, number or sign of the language.
func (r *reader) badToken(t syntax.Token) {
	text := r.file.Text(t.Span)
	f := finding.Finding{Span: t.Span, Severity: finding.Error}
	mend := func(put string) { f.Mend = &finding.Mend{Span: t.Span, Text: put} }
	switch t.Why {
	case syntax.OpenQuote:
		f.Rule, f.Message = "quote", "this text has no closing quote; a quoted text ends on its own line"
	case syntax.DecimalComma:
		message, put := commaMeant(text)
		f.Rule, f.Message = "decimal-comma", message
		if put != "" {
			mend(put)
		}
	case syntax.OddNumber:
		rule, message, put := oddNumber(text)
		f.Rule, f.Message = rule, message
		if put != "" {
			mend(put)
		}
	case syntax.NegativeNumber:
		number := strings.TrimLeft(syntax.Hyphens(text), "-")
		f.Rule, f.Message = "number", "a number stands without a sign here: "+number
		mend(number)
	case syntax.DotEnd:
		f.Rule, f.Message = "sign", fmt.Sprintf("nothing ends in %q: an entry needs no full stop, and a name ends in a letter or digit", text)
		mend("")
	case syntax.SingleQuote:
		f.Rule, f.Message = "quote", `names and texts stand in double quotes: "Amberlight"`
	case syntax.ControlSign:
		if text == "\r" { // it ended a line where it was written
			f.Rule, f.Message = "sign", "a line ends here in the old way, by a carriage return alone; have the editor end lines by LF or CRLF"
			mend(lineEnd)
			break
		}
		f.Rule, f.Message = "sign", "a character that can't be seen stands here; take it out"
		mend("")
	default:
		f.Rule, f.Message = "sign", strange(text)
		if message, m, ok := r.parted(t); ok {
			f.Message, f.Mend = message, m
		}
	}
	r.report(f)
}

// parted explains a sign by what stands behind it: a semicolon where a comma or
// a new line should be.
func (r *reader) parted(t syntax.Token) (message string, m *finding.Mend, ok bool) {
	i := slices.Index(r.toks, t)
	if r.file.Text(t.Span) != ";" || i < 1 {
		return "", nil, false
	}
	m = &finding.Mend{Span: t.Span}
	switch {
	case i+1 == len(r.toks):
		return "; means nothing at the end of an entry; leave it out", m, true
	case byVerb[strings.ToLower(r.tok(i+1))] != nil:
		m.Span.End, m.Text = r.toks[i+1].Span.Start, lineEnd
		return "; means nothing here; an entry begins on a line of its own", m, true
	case r.toks[i+1].Kind == syntax.Int:
		m.Text = ","
		return "; means nothing here; things in a list are parted by a comma", m, true
	}
	return "", nil, false
}

// strange explains a sign that the language has no use for.
func strange(sign string) string {
	switch sign {
	case "€", "$", "£", "¥", "₹":
		return "money is a number, with a currency code after it where it is not the farm's own: 12.50 EUR"
	case "@":
		return "@ is written as a word: at 19.00 each"
	case "½", "¼", "¾":
		return sign + " is written with a point: 2.5 h for two and a half hours"
	case "-", "–", "—":
		return fmt.Sprintf("%s means nothing here; leave it out, or put a remark in quotes: note \"second flush\"", sign)
	case "&", "+":
		return fmt.Sprintf("%s means nothing here; things in a list are parted by a comma: M7, M8", sign)
	case "(", ")", ";":
		return fmt.Sprintf(`%s means nothing here; a remark is a clause of its own: note "second flush"`, sign)
	case "=":
		return "= is written as a word: rate 1 USD is 0.92 EUR"
	case "%":
		return "% stands after a number: 15 %"
	}
	return fmt.Sprintf("%s means nothing here; a name or text that holds it stands in double quotes", sign)
}

// commaMeant shows the number meant by one with commas: 25,2 is 25.2, 1,200.50
// is 1200.50; of 1,200 nobody can tell.
func commaMeant(text string) (message, put string) {
	if text == "," {
		return "a comma between two digits could be part of a number; put a blank after it", ", "
	}
	comma, point := strings.LastIndexByte(text, ','), strings.LastIndexByte(text, '.')
	whole, frac := text[:comma], text[comma+1:]
	switch {
	case point > comma, strings.Count(text, ",") > 1 && point < 0:
		put = strings.ReplaceAll(text, ",", "")
	case len(frac) == 3 && point < 0 && len(whole) <= 3 && whole != "0":
		return fmt.Sprintf("%s could be two numbers: write %s%s for thousands, %s.%s for a fraction, or put a blank after the comma",
			text, whole, frac, whole, frac), ""
	default:
		put = strings.NewReplacer(".", "", ",", "").Replace(whole) + "." + frac
	}
	return fmt.Sprintf("a number has a point and no comma: %s; in a list put a blank after the comma", put), put
}

// oddNumber explains digits that make no number and no date.
func oddNumber(text string) (rule, message, put string) {
	plain := syntax.Hyphens(text)
	if say, mend := yearFirst(plain); say != "" {
		return "date", say, mend
	}
	if plain[0] == '.' {
		return "number", "a number begins with a digit: 0" + plain, "0" + plain
	}
	say := text + " is no number and no date; "
	if strings.ContainsAny(plain, "-/") {
		return "number", say + fmt.Sprintf("write 12 or 2026-03-02, and in quotes where it is a name: %q", text), ""
	}
	return "number", say + "write 12, 12.50 or 2026-03-02, and in a name at least one letter", ""
}
