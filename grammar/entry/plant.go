package entry

import (
	"strconv"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
)

type plant struct {
	Part    part           `parser:"'plant' @@"`
	Clauses []*plantClause `parser:"@@*"`
}

type plantClause struct {
	As      *name   `parser:"  'as' @@"`
	Through *name   `parser:"  ('to' @@)?"`
	Variety *name   `parser:"| 'variety' @@"`
	Common  *common `parser:"| @@"`
}

var plantKind = kindOf(Kind{
	Summary: "plants of a lot are set out, as trees of their own",
	Text: `A plant with a name becomes a tree that is followed on its own, and its line goes on. Several are named from the first to the last. ` +
		"Without `as`" + ` they leave the book.`,
	Pattern: `plant 1 of AM26 as M41 at terrace-5`,
	Samples: []string{`plant 12 of LN25 as R2/1 to R2/12 at row-2`, `plant 3 waiting of TR24 at hedge`},
}, func(r *reader, s *plant) fact.Effect {
	e := &fact.Plant{}
	e.Count, e.State, e.Of = r.part(&s.Part, "the number planted")
	for _, c := range s.Clauses {
		r.put(&e.As, "as", c.As)
		r.put(&e.Through, "as", c.Through)
		r.put(&e.Variety, "variety", c.Variety)
		r.extra(c.Common)
	}
	if !r.failed {
		r.named(e)
	}
	return e
})

// named checks that there are as many names as plants.
func (r *reader) named(e *fact.Plant) {
	n := int(e.Count.N)
	if !e.Through.Given() {
		if e.As.Given() && n > 1 {
			r.errorf(e.As.Span, "names", "%d plants need %d names; write the first and the last: as %s to …, or plant them one by one", n, n, e.As.Text)
		}
		return
	}
	stem, first, ok1 := numbered(e.As.Text)
	stem2, last, ok2 := numbered(e.Through.Text)
	switch {
	case !ok1 || !ok2 || stem != stem2:
		r.errorf(e.Through.Span, "names", "names in a row differ only in the number at their end: as R2/1 to R2/12")
	case last-first+1 != n:
		r.errorf(e.Through.Span, "names", "%s to %s is %d names, but %d are planted", e.As.Text, e.Through.Text, max(last-first+1, 0), n)
	}
}

// numbered parts a name from the number at its end.
func numbered(s string) (stem string, n int, ok bool) {
	stem = strings.TrimRight(s, "0123456789")
	n, err := strconv.Atoi(s[len(stem):])
	return stem, n, err == nil
}
