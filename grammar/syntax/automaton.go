package syntax

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/ebnf"
	"github.com/alecthomas/participle/v2/lexer"
)

// An automaton accepts the sentences of one verb. It is made from the EBNF
// that participle prints, so it can't drift from the parser, and it answers
// what the parser does not: what could have stood here, and whether the grammar
// ever leaves a choice open (LL(1)).
//
// States are numbered; state 0 is the start. The sentences of this language
// never nest without bound, so productions are copied in where they are used.
type automaton struct {
	states []state
	end    int
}

type state struct {
	skip []int // moves that read nothing
	read []edge
}

type edge struct {
	on Terminal
	to int
}

func newAutomaton(text string) *automaton {
	g, err := ebnf.ParseString(text)
	if err != nil {
		panic(fmt.Sprintf("participle prints a grammar that it can't read: %v\n%s", err, text))
	}
	b := automatonBuilder{a: &automaton{}, rules: map[string]*ebnf.Expression{}}
	for _, p := range g.Productions {
		b.rules[p.Production] = p.Expression
	}
	start := b.state()
	b.a.end = b.expression(g.Productions[0].Expression, start)
	return b.a
}

type automatonBuilder struct {
	a     *automaton
	rules map[string]*ebnf.Expression
	depth int
}

func (b *automatonBuilder) state() int {
	b.a.states = append(b.a.states, state{})
	return len(b.a.states) - 1
}

func (b *automatonBuilder) skip(from, to int) {
	b.a.states[from].skip = append(b.a.states[from].skip, to)
}

// expression adds what reads e, from the state from, and returns where it ends.
func (b *automatonBuilder) expression(e *ebnf.Expression, from int) int {
	end := b.state()
	for _, seq := range e.Alternatives {
		at := b.state()
		b.skip(from, at)
		for _, term := range seq.Terms {
			at = b.term(term, at)
		}
		b.skip(at, end)
	}
	return end
}

func (b *automatonBuilder) term(t *ebnf.Term, from int) int {
	enter, leave := b.state(), b.state()
	b.skip(from, enter)
	b.skip(b.atom(t, enter), leave)
	switch t.Repetition {
	case "?":
		b.skip(enter, leave)
	case "*":
		b.skip(enter, leave)
		b.skip(leave, enter)
	case "+":
		b.skip(leave, enter)
	}
	return leave
}

func (b *automatonBuilder) atom(t *ebnf.Term, from int) int {
	switch {
	case t.Group != nil:
		return b.expression(t.Group.Expr, from)
	case t.Name != "":
		if b.depth++; b.depth > 50 {
			panic("the production " + t.Name + " contains itself")
		}
		defer func() { b.depth-- }()
		return b.expression(b.rules[t.Name], from)
	}
	on := Terminal{Kind: kindNamed(t.Token), Not: t.Negation}
	if t.Literal != "" { // still in its quotes
		on = Terminal{Literal: strings.Trim(t.Literal, `"`), Not: t.Negation}
	}
	to := b.state()
	b.a.states[from].read = append(b.a.states[from].read, edge{on, to})
	return to
}

// kindNamed finds a kind by its name in the EBNF, which is in small letters.
func kindNamed(s string) Kind {
	i := slices.IndexFunc(names[:], func(n string) bool { return strings.EqualFold(n, s) })
	return Kind(max(i, 0))
}

// closure is every state that can be reached from set without reading.
func (a *automaton) closure(set []int) []int {
	seen := make([]bool, len(a.states))
	var out []int
	for stack := slices.Clone(set); len(stack) > 0; {
		s := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if seen[s] {
			continue
		}
		seen[s] = true
		out = append(out, s)
		stack = append(stack, a.states[s].skip...)
	}
	return out
}

// accepts reports whether a token as it is fed to participle fits a terminal.
func (t Terminal) accepts(tok lexer.Token) bool {
	fits := tokenType(t.Kind) == tok.Type
	if t.Literal != "" {
		fits = t.Literal == tok.Value
	}
	return fits != t.Not
}

// expected reads tokens up to limit, as far as they fit, and returns how far
// that was and what could stand there, sorted: words first.
func (a *automaton) expected(toks []lexer.Token, limit int) (int, []Terminal) {
	set := a.closure([]int{0})
	at := 0
	for ; at < min(limit, len(toks)); at++ {
		var next []int
		for _, s := range set {
			for _, e := range a.states[s].read {
				if e.on.accepts(toks[at]) {
					next = append(next, e.to)
				}
			}
		}
		if len(next) == 0 {
			break
		}
		set = a.closure(next)
	}
	var want []Terminal
	for _, s := range set {
		for _, e := range a.states[s].read {
			want = append(want, e.on)
		}
		if s == a.end {
			want = append(want, Terminal{Kind: EOF})
		}
	}
	slices.SortFunc(want, func(x, y Terminal) int {
		return cmp.Or(cmp.Compare(x.Kind, y.Kind), cmp.Compare(x.Literal, y.Literal))
	})
	return at, slices.Compact(want)
}

// literals are the words and signs of the sentence, sorted.
func (a *automaton) literals() []string {
	var out []string
	for _, s := range a.states {
		for _, e := range s.read {
			if e.on.Literal != "" {
				out = append(out, e.on.Literal)
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
