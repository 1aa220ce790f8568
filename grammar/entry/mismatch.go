package entry

import (
	"cmp"
	"fmt"
	"iter"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/finding"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// A stop is a sentence that stopped making sense, for the messages about it.
type stop struct {
	*reader
	parser *syntax.Parser
	kind   *Kind
	at     int // the token that does not fit, or the number of tokens
	want   []syntax.Terminal
	syntax.Repair
}

// mismatch explains where a sentence stopped making sense: by the slip it
// most likely is, by the change that would mend it, or else by what could
// stand there.
func (r *reader) mismatch(p *syntax.Parser, k *Kind, m *syntax.Mismatch) {
	s := &stop{reader: r, parser: p, kind: k, at: m.At, want: m.Want}
	if s.wants(syntax.Date) && r.otherDate(s.at) {
		return
	}
	for _, slip := range slips {
		if f, ok := slip(s); ok {
			r.report(s.complete(f))
			return
		}
	}
	s.repair()
	r.report(s.complete(s.explain()))
}

// repair looks for the change that would mend the sentence.
func (s *stop) repair() {
	s.Repair = s.parser.Repair(s.kind.Grammar, s.file, s.toks, s.at)
	for n := len(s.toks) - 1; s.How == syntax.Unclear && n > s.at; n-- {
		r := s.parser.Repair(s.kind.Grammar, s.file, s.toks[:n], s.at)
		if !s.certain(r) {
			continue
		}
		if r.How == syntax.Wrong && !plainWord(s.tok(s.at)) { // a name is seldom a slip for a word
			if !s.better(empty(s.spanAt(s.at).Start), r.Put[0].Literal+" ") {
				continue
			}
			r.How = syntax.Missing
		}
		s.Repair = r
	}
	s.prefer()
}

// certain reports whether a repair of the beginning of an entry, behind which
// another slip stands, can be offered.
func (s *stop) certain(r syntax.Repair) bool {
	one := r.Sure() && len(r.Put) == 1 && r.Put[0].Literal != ""
	return one && (r.How == syntax.Missing || r.How == syntax.Wrong) || r.How == syntax.OutOfPlace || r.How == syntax.NameFirst
}

// complete fills in what the findings about a sentence share.
func (s *stop) complete(f finding.Finding) finding.Finding {
	f.Severity = finding.Error
	if f.Rule == "" {
		f.Rule = "sentence"
	}
	if f.Span == (source.Span{}) {
		f.Span = s.spanAt(s.at)
	}
	return f
}

// spanAt is where a token stands; past the last it is the empty place behind.
func (r *reader) spanAt(i int) source.Span {
	if i < len(r.toks) {
		return r.toks[i].Span
	}
	return empty(r.toks[len(r.toks)-1].Span.End)
}

func empty(at int32) source.Span { return source.Span{Start: at, End: at} }

// tok is the text of a token, or nothing past the last.
func (r *reader) tok(i int) string {
	if i < 0 || i >= len(r.toks) {
		return ""
	}
	return r.file.Text(r.toks[i].Span)
}

// explain words the repair.
func (s *stop) explain() finding.Finding {
	switch {
	case len(s.toks) == 1:
	case s.How == syntax.Missing && len(s.Put) > 0:
		return s.missing()
	case s.How == syntax.Wrong && len(s.Put) > 0:
		return s.wrong()
	case s.How == syntax.Surplus && plainWord(s.tok(s.At)):
		return finding.Finding{
			Message: fmt.Sprintf("leave out %s: %s", s.tok(s.At), s.mended()),
			Mend:    &finding.Mend{Span: s.withBlank(s.At)},
		}
	case s.How == syntax.OutOfPlace:
		return finding.Finding{
			Message: fmt.Sprintf("%s belongs %s: %s", quoteWord(s.tok(s.At)), s.beside(s.To), s.mended()),
			Mend:    s.rewrite(),
		}
	case s.How == syntax.NameFirst:
		return finding.Finding{
			Message: fmt.Sprintf("the number comes before the name: %s", s.mended()),
			Mend:    s.rewrite(),
		}
	}
	return s.unclear()
}

// plainWord reports whether a word can hardly be anyone's name: it is all small
// letters.
func plainWord(s string) bool { return strings.Trim(s, "abcdefghijklmnopqrstuvwxyz") == "" }

// prefer puts those of several changes first that the kind's own sentences
// show, and leaves out clauses that nobody forgets the first word of.
func (s *stop) prefer() {
	if len(s.Put) != 1 {
		return
	}
	all := slices.DeleteFunc(slices.Concat(s.Put, s.Or), func(t syntax.Slot) bool {
		return slices.Contains([]string{"cost", "tag", "happened", "note"}, t.Literal)
	})
	if led := slices.Collect(s.leading(all)); len(led) > 0 {
		all = led
	}
	shown := s.kind.examples()
	slices.SortStableFunc(all, func(x, y syntax.Slot) int { return cmp.Compare(unshown(shown, x), unshown(shown, y)) })
	s.Put, s.Or = nil, nil
	if len(all) > 0 {
		s.Put, s.Or = all[:1], all[1:]
	}
}

// leading are those of several missing words that lead to the word of the
// language before which they are missing: use, in use rootstock.
func (s *stop) leading(all []syntax.Slot) iter.Seq[syntax.Slot] {
	return func(yield func(syntax.Slot) bool) {
		word := strings.ToLower(s.tok(s.At))
		if s.How != syntax.Missing || !s.kind.Grammar.Knows(word) {
			return
		}
		for _, slot := range all {
			then := s.wantsAfter(s.At, slot.Literal)
			leads := slot.Literal != "" && slices.ContainsFunc(then, func(t syntax.Terminal) bool { return t.Literal == word })
			if leads && len(then) == 1 && !yield(slot) {
				return
			}
		}
	}
}

func unshown(shown map[int]string, t syntax.Slot) int {
	if _, ok := shown[t.Spot]; ok {
		return 0
	}
	return 1
}

// before quotes the token before i, for a message.
func (s *stop) before(i int) string { return quoteWord(s.tok(i - 1)) }

// quoteWord puts a token in quotes, unless it has its own.
func quoteWord(text string) string {
	if strings.HasPrefix(text, `"`) {
		return text
	}
	return `"` + text + `"`
}

// missing words what is missing before a token, or at the end.
func (s *stop) missing() finding.Finding {
	f := finding.Finding{Span: s.spanAt(s.At)}
	put := s.Put[0]
	switch {
	case len(s.Put) == 2:
		f.Message = fmt.Sprintf("%s and %s are missing: %s", an(put.Terminal), an(s.Put[1].Terminal), s.mended())
		return f
	case len(s.Or) > 0:
		f.Message = fmt.Sprintf("after %s one of these is missing: %s; for example: %s", s.before(s.At), anyOf(slices.Concat(s.Put, s.Or)), s.mended())
		return f
	case put.Literal == "":
		f.Message = fmt.Sprintf("after %s %s is missing: %s", s.before(s.At), an(put.Terminal), s.mended())
		return f
	}
	f.Message = fmt.Sprintf("%s is missing: %s", an(put.Terminal), s.mended())
	switch {
	case put.Literal == ",":
		f.Mend = &finding.Mend{Span: empty(s.spanAt(s.At - 1).End), Text: ","}
	case s.At == len(s.toks):
		f.Mend = &finding.Mend{Span: f.Span, Text: " " + put.Literal}
	default:
		f.Mend = &finding.Mend{Span: empty(f.Span.Start), Text: put.Literal + " "}
	}
	return f
}

// wrong words a token that should be another.
func (s *stop) wrong() finding.Finding {
	all := slices.Concat(s.Put, s.Or)
	if len(all) > most || slices.ContainsFunc(all, func(t syntax.Slot) bool { return t.Literal == "worker" }) {
		return s.unclear() // any clause could stand there
	}
	return finding.Finding{Message: fmt.Sprintf("%s does not fit here; write %s: %s",
		quoteWord(s.tok(s.at)), anyOf(all), s.mended())}
}

// instead offers a word in place of the one that stands there; say begins the
// message.
func (s *stop) instead(word, say string) finding.Finding {
	s.Repair = syntax.Repair{How: syntax.Wrong, At: s.at, Put: []syntax.Slot{{Terminal: syntax.Terminal{Literal: word}}}}
	return finding.Finding{Message: say + " " + s.mended(), Mend: &finding.Mend{Span: s.spanAt(s.at), Text: word}}
}

// unclear says what could stand where the sentence stopped.
func (s *stop) unclear() finding.Finding {
	if s.at == len(s.toks) && s.at == 1 {
		return finding.Finding{Message: fmt.Sprintf("%s says nothing alone; it is written like this: %s", s.tok(0), s.kind.Pattern)}
	}
	found := quoteWord(s.tok(s.at)) + " does not fit after " + s.before(s.at)
	if s.at == len(s.toks) {
		found = "the entry ends after " + s.before(s.at)
	}
	var slots []syntax.Slot
	for _, t := range s.want {
		if t.Literal != "about" && (t.Kind != syntax.Decimal || !s.wants(syntax.Int)) && (t.Kind != syntax.Quoted || !s.wants(syntax.Word)) {
			slots = append(slots, syntax.Slot{Terminal: t})
		}
	}
	return finding.Finding{Message: fmt.Sprintf("%s, where %s could stand; it is written like this: %s", found, anyOf(slots), s.kind.nearest(s.file, s.toks))}
}

// most is how many things a message lists.
const most = 8

// anyOf lists a choice.
func anyOf(list []syntax.Slot) string {
	var out []string
	for _, t := range list {
		word := an(t.Terminal)
		if t.Literal != "" && t.Literal != "," && t.Literal != ":" {
			word = t.Literal
		}
		if !slices.Contains(out, word) {
			out = append(out, word)
		}
	}
	if len(out) > most {
		out = append(out[:most-1], "another of its clauses")
	}
	if len(out) == 1 {
		return an(list[0].Terminal)
	}
	return orList(out)
}

// mended is the part of the entry around the change, as it should be.
func (s *stop) mended() string {
	words, first, last := s.change()
	const behind = 2
	from, to := 0, min(len(words), last+1+behind)
	if first > 7 { // a long entry is shown from near the change on
		from = first - 2
	}
	var b strings.Builder
	if from > 0 {
		b.WriteString("…")
	}
	for _, w := range words[from:to] {
		if b.Len() > 0 && w != "," && w != ":" {
			b.WriteByte(' ')
		}
		b.WriteString(w)
	}
	if to < len(words) {
		b.WriteString(" …")
	}
	return b.String()
}

// change is the words of the entry with the repair made, and which of them are
// the first and the last that it touches.
func (s *stop) change() (words []string, first, last int) {
	for i := range s.toks {
		words = append(words, s.tok(i))
	}
	var put []string
	for _, p := range s.Put {
		put = append(put, s.kind.fill(p))
	}
	switch s.How {
	case syntax.Missing:
		return slices.Insert(words, s.At, put...), s.At - 1, s.At + len(put) - 1
	case syntax.Wrong:
		words[s.At] = put[0]
		return words, s.At, s.At
	case syntax.Surplus:
		return slices.Delete(words, s.At, s.At+1), s.At - 1, s.At
	case syntax.OutOfPlace:
		moved := words[s.At]
		words = slices.Insert(slices.Delete(words, s.At, s.At+1), s.To, moved)
		return words, s.To, s.At
	case syntax.NameFirst:
		name := words[s.At]
		words = slices.Insert(slices.Delete(words, s.At, s.At+1), s.To-1, "of", name)
		return words, s.At, s.To
	}
	return words, s.at, s.at
}

// beside says before which token something belongs.
func (s *stop) beside(to int) string {
	if to == 1 {
		return "right after " + quoteWord(s.tok(0))
	}
	return "before " + quoteWord(s.tok(to))
}

// rewrite puts tokens in their right order, where they stand on one line.
func (s *stop) rewrite() *finding.Mend {
	words, first, last := s.change()
	to := last
	if s.How == syntax.NameFirst {
		to = s.To - 1
	}
	span := source.Span{Start: s.toks[first].Span.Start, End: s.toks[to].Span.End}
	if strings.ContainsAny(s.file.Text(span), "\n#") {
		return nil
	}
	return &finding.Mend{Span: span, Text: strings.Join(words[first:last+1], " ")}
}

// withBlank is a token with the blank before it, to be taken out.
func (s *stop) withBlank(i int) source.Span {
	span := s.toks[i].Span
	if before := s.file.Bytes[span.Start-1]; before == ' ' {
		span.Start--
	}
	return span
}

// wants reports whether a token of a kind could stand where the sentence
// stopped.
func (s *stop) wants(k syntax.Kind) bool { return slices.Contains(s.want, syntax.Terminal{Kind: k}) }

// wantsWord is wants for a word of the language.
func (s *stop) wantsWord(w string) bool {
	return slices.ContainsFunc(s.want, func(t syntax.Terminal) bool { return t.Literal == w })
}

// near finds the word of the language that was meant where one was misspelled.
func (s *stop) near() (string, bool) {
	var words []string
	for _, t := range s.want {
		if len(t.Literal) > 2 {
			words = append(words, t.Literal)
		}
	}
	return spelling.Suggest(strings.ToLower(s.tok(s.at)), words)
}
