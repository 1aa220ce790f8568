package entry

import "github.com/budstick/budstick/grammar/fact"

type version struct {
	N ref `parser:"'budstick' @Int"`
}

// Language is the version of the language that this package reads.
const Language = 1

var versionKind = kindOf(Kind{
	Summary: "the version of the language",
	Text:    `May stand as the first entry of a file. Without it version 1 is meant.`,
	Pattern: `budstick 1`,
}, func(r *reader, s *version) fact.Effect {
	e := &fact.Version{N: r.number(s.N)}
	if e.N.N != Language {
		r.errorf(e.N.Span, "version", "this journal is written in version %d of the language, and this budstick reads version %d; use a newer budstick", e.N.N, Language)
	}
	return e
})
