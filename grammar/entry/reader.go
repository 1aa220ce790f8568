package entry

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// A reader turns the tokens of one entry into values and collects what is
// wrong with them. It is used again for the next entry.
type reader struct {
	file     *source.File
	toks     []syntax.Token
	day      fact.Date // the day the entry stands under; 0 before the first
	lost     bool      // the day line above could not be read, and day is the one before it
	ext      *fact.Extra
	findings []finding.Finding
	failed   bool // the entry has an error and must not count
}

// index is the token that a parsed reference names.
func index(t ref) int { return t.Pos.Offset }

func (r *reader) span(t ref) source.Span { return r.toks[index(t)].Span }

// raw is the text of a token as it stands.
func (r *reader) raw(t ref) string { return r.file.Text(r.span(t)) }

// word is a word of the language in small letters.
func (r *reader) word(t ref) string { return t.Value }

// given reports whether an optional token is there.
func given(t *ref) bool { return t != nil }

func (r *reader) errorf(s source.Span, rule, format string, args ...any) {
	r.report(finding.Finding{Span: s, Severity: finding.Error, Rule: rule, Message: fmt.Sprintf(format, args...)})
}

func (r *reader) report(f finding.Finding) {
	f.File = r.file
	r.findings = append(r.findings, f)
	r.failed = r.failed || f.Severity == finding.Error
}

// once reports a clause that stands twice.
func (r *reader) once(clause string, already bool, at ref) {
	if already {
		r.errorf(r.span(at), "clause-twice", "%s stands twice in this entry; keep one of them", clause)
	}
}

// put sets what a clause says, if n is there; a second such clause is reported.
func (r *reader) put(dst *fact.Name, clause string, n *name) {
	if n != nil {
		r.once(clause, dst.Given(), n.Ref)
		*dst = r.name(n)
	}
}

func (r *reader) putNames(dst *[]fact.Name, clause string, n *names) {
	if n != nil {
		r.once(clause, *dst != nil, n.List[0].Ref)
		*dst = r.names(n)
	}
}

// putText is put for a text in quotes.
func (r *reader) putText(dst *fact.Name, clause string, t *ref) {
	if t == nil {
		return
	}
	r.once(clause, dst.Given(), *t)
	*dst = r.quoted(*t)
	if dst.Text == "" {
		r.errorf(dst.Span, "name", "the text behind %s is empty", clause)
	}
}

// putWord is put for a word of the language, or one that is read as such.
func (r *reader) putWord(dst *fact.Name, clause string, t *ref) {
	if t != nil {
		r.once(clause, dst.Given(), *t)
		*dst = fact.Name{Text: r.raw(*t), Span: r.span(*t)}
	}
}

func (r *reader) putMoney(dst *fact.Money, clause string, m *money) {
	if m != nil {
		r.once(clause, dst.Given, m.Amount)
		*dst = r.money(m)
	}
}

// putMeasure is put for a quantity, which must be in one of some units; what
// says what is measured.
func (r *reader) putMeasure(dst *fact.Quantity, clause string, m *measure, what string, fit ...fact.Unit) {
	if m != nil {
		r.once(clause, dst.Given, m.Value)
		*dst = r.oneOf(r.measure(m), what, fit...)
	}
}

func (r *reader) putCount(dst *fact.Count, clause string, t *ref) {
	if t != nil {
		r.once(clause, dst.Given, *t)
		*dst = r.some(*t)
	}
}

// name is the name at n; of no name it is the zero Name.
func (r *reader) name(n *name) fact.Name {
	if n == nil {
		return fact.Name{}
	}
	return r.nameAt(n.Ref)
}

func (r *reader) nameAt(t ref) fact.Name {
	if r.toks[index(t)].Kind == syntax.Quoted {
		q := r.quoted(t)
		if strings.TrimSpace(q.Text) == "" {
			r.errorf(q.Span, "name", "a name can't be empty")
		}
		return q
	}
	return fact.Name{Text: syntax.Hyphens(r.raw(t)), Span: r.span(t)}
}

// quoted is a text in quotes.
func (r *reader) quoted(t ref) fact.Name {
	return fact.Name{Text: syntax.Unquote(r.raw(t)), Span: r.span(t)}
}

func (r *reader) names(n *names) []fact.Name {
	if n == nil {
		return nil
	}
	out := make([]fact.Name, len(n.List))
	for i := range n.List {
		out[i] = r.name(&n.List[i])
	}
	return out
}

// maxCount is far above what one entry can be about.
const maxCount = 10_000_000

// number is a whole number; what it counts is said in messages.
func (r *reader) number(t ref) fact.Count {
	s := r.span(t)
	n, err := strconv.Atoi(r.raw(t))
	if err != nil || n > maxCount {
		r.errorf(s, "number", "%s is more than one entry can be about", r.raw(t))
		n = 0
	}
	return fact.Count{N: int32(n), Given: true, Span: s}
}

// some is a number of which there must be at least one.
func (r *reader) some(t ref) fact.Count {
	n := r.number(t)
	if n.N == 0 && !r.failed {
		r.errorf(n.Span, "zero", "a count of 0 says nothing; write how many, or leave the entry out")
	}
	return n
}

// whole is some of what is counted and so has no fraction.
func (r *reader) whole(t ref) fact.Count {
	if r.toks[index(t)].Kind == syntax.Decimal {
		r.errorf(r.span(t), "number", "%s", notWhole(r.raw(t)))
		return fact.Count{Given: true, Span: r.span(t)}
	}
	return r.some(t)
}

// count is a count that may be a guess.
func (r *reader) count(c *count) fact.Count {
	if c == nil {
		return fact.Count{}
	}
	n := r.some(c.N)
	n.About = given(c.About)
	return n
}

// exact is a count that must have been counted out.
func (r *reader) exact(c *count, what string) fact.Count {
	n := r.count(c)
	if n.About {
		r.errorf(r.span(*c.About), "about", "%s must be exact; leave out about", what)
	}
	return n
}

func (r *reader) decimal(t ref) fact.Decimal {
	d, ok := fact.ParseDecimal(r.raw(t))
	if !ok {
		r.errorf(r.span(t), "number", "%s has more digits than can be kept exactly (18)", r.raw(t))
	}
	return d
}

func (r *reader) money(m *money) fact.Money {
	if m == nil {
		return fact.Money{}
	}
	out := fact.Money{Amount: r.decimal(m.Amount), Given: true, Span: r.span(m.Amount)}
	if m.Currency != nil {
		out.Currency = r.raw(*m.Currency)
		out.Span.End = r.span(*m.Currency).End
	}
	return out
}

func (r *reader) unit(t ref) fact.Unit {
	unit, _ := syntax.UnitNamed(r.raw(t))
	return unit
}

func (r *reader) measure(m *measure) fact.Quantity {
	if m == nil {
		return fact.Quantity{}
	}
	return fact.Quantity{
		Value: r.decimal(m.Value), Unit: r.unit(m.Unit), Given: true,
		Span: source.Span{Start: r.span(m.Value).Start, End: r.span(m.Unit).End},
	}
}

// oneOf reports a quantity whose unit is none of the units that fit here.
func (r *reader) oneOf(q fact.Quantity, what string, fit ...fact.Unit) fact.Quantity {
	if !q.Given || slices.Contains(fit, q.Unit) {
		return q
	}
	words := make([]string, len(fit))
	for i, u := range fit {
		words[i] = string(u)
	}
	r.errorf(q.Span, "unit", "%s is measured in %s, not in %s", what, orList(words), q.Unit)
	return q
}

// orList writes words as a person lists a choice: mm, cm or in.
func orList(words []string) string {
	switch n := len(words); n {
	case 0:
		return ""
	case 1:
		return words[0]
	default:
		return strings.Join(words[:n-1], ", ") + " or " + words[n-1]
	}
}

// date is a date known to the day.
func (r *reader) date(t ref) fact.Date {
	d, ok := fact.ParseDate(syntax.Hyphens(r.raw(t)))
	if !ok {
		r.errorf(r.span(t), "date", "%s", noSuchDay(syntax.Hyphens(r.raw(t))))
	}
	return d
}

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
