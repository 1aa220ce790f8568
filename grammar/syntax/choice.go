package syntax

import "fmt"

// Conflicts names each place of the sentence at which one token would not
// decide how it goes on (the language is LL(1)), and each where a bare name
// could follow a bare name (nobody could tell where the first one ends). A
// sound grammar has none.
func (g *Grammar) Conflicts() []string {
	a := g.ready().auto
	var out []string
	for at, s := range a.spots {
		for i, x := range s.next {
			on := a.spots[x].on
			for _, y := range s.next[i+1:] {
				if overlap(on, a.spots[y].on) {
					out = append(out, fmt.Sprintf("behind %s both %s and %s could stand", a.shown(at), on, a.spots[y].on))
				}
			}
			if isName(s.on) && isName(on) {
				out = append(out, fmt.Sprintf("behind %s another name could stand", a.shown(at)))
			}
		}
	}
	return out
}

func (a *automaton) shown(at int) string {
	if at == 0 {
		return "nothing"
	}
	return a.spots[at].on.String()
}

func isName(t Terminal) bool { return t == Terminal{Kind: Word} }

// overlap reports whether one token could be both. A literal word is a token
// of its kind as well: behind a choice of "as" and any name, as is both.
func overlap(x, y Terminal) bool {
	switch {
	case x.Not && y.Not:
		return true
	case x.Not || y.Not:
		return x.Literal != y.Literal || x.Literal == ""
	case x.Literal != "" && y.Literal != "":
		return x.Literal == y.Literal
	}
	return x.Kind == y.Kind
}
