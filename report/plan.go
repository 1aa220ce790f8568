package report

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
	"github.com/budstick/budstick/report/table"
)

var plan = &Report{
	Name:    "plan",
	Summary: "what to sow, buy, cut and graft, and when, to have so many trees by a day",
	Long: `Backwards from the trees wanted, through the way that this nursery makes them: seed or bought liners, stocks fit to
work, the take, failed stocks worked again, young trees that come to sale; or cuttings, layers or seed. Each link has the
shares of the farm's own seasons, of the variety where 30 outcomes are known, else of its species, else of everything.

The next season is another season. So each link has a law of what it may bring (a beta law after the seasons that were,
with the spread between lots and between seasons), the laws are put together along the chain, and the counts are the least
with which the trees are there in as many seasons of a hundred as --sure says: 90, unless it says otherwise. Each count is
what is needed from there on: where you have fewer when that day comes, the assurance is less.

Days are the farm's own medians: when it works, how old its stocks are then, how long its wood has been cut; a tree is ready
after the saleable-age of its species, or sooner if it was here. Wood is shared among the mothers by what their age allows
(limit mother-cut).

With --what-if take=0.85 a link has that share for certain, and the counts as they are stand beside. The links are seed,
root, stock, take, again and sale. Without --by the trees are for the end of the next season, which is the
one at hand until half of it has passed.`,
	Example: "--want 200 --variety Amberlight --by 2027-10-01 --sure 90",
	Takes:   Target,
	Build:   buildPlan,
}

// A Supposition is a link of the plan with a share that it is supposed to have.
type Supposition struct {
	Link  string  // one of PlanLinks
	Share float64 // above 0, at most 1
}

// usualAssurance is the probability where none is asked for.
const usualAssurance = 0.9

// A scheme is a plan, reckoned.
type scheme struct {
	*way
	want  Want
	gates []gate
	needs []int         // before each gate
	rest  []stat.Chance // of passing each gate and those after it
}

func buildPlan(n *nursery.Nursery, o Options) (*table.Doc, error) {
	want, v, err := wanted(n, o)
	if err != nil {
		return nil, err
	}
	w, err := wayOf(n, v)
	if err != nil {
		return nil, err
	}
	s, err := newScheme(w, want, o)
	if err != nil {
		return nil, err
	}
	var as *scheme // as it is, where something is supposed
	if len(o.WhatIf) > 0 {
		plain := o
		plain.WhatIf = nil
		if as, err = newScheme(w, want, plain); err != nil {
			as = nil // only the supposition makes it possible
		}
	}
	p := &planDoc{scheme: s, as: as, asAt: o.AsAt, days: w.days(want.By, o.AsAt)}
	return p.doc(n, o), nil
}

// wanted makes sure that something can be planned, and fills in what was left
// open.
func wanted(n *nursery.Nursery, o Options) (Want, *nursery.Variety, error) {
	want := o.Want
	if want.Count == 0 || want.Variety == "" {
		return want, nil, errors.New("say how many trees of which variety: plan --want 200 --variety Amberlight")
	}
	v, ok := n.Variety(want.Variety)
	if !ok {
		var names []string
		for _, known := range n.Varieties {
			names = append(names, known.Name)
		}
		hint := ""
		if meant, ok := spelling.Suggest(want.Variety, names); ok {
			hint = "; did you mean " + meant + "?"
		}
		return want, nil, fmt.Errorf("%s is no variety of this journal%s", want.Variety, hint)
	}
	if want.By == 0 {
		want.By = nextEnd(n, o.AsAt)
	}
	if want.By <= o.AsAt {
		return want, nil, fmt.Errorf("%s is not after %s, the day of the plan", want.By, o.AsAt)
	}
	if want.Sure == 0 {
		want.Sure = usualAssurance
	}
	return want, v, nil
}

// nextEnd is the end of the season after the one that the season's book is of.
func nextEnd(n *nursery.Nursery, asAt fact.Date) fact.Date {
	s := n.Season(fact.SeasonOf(max(asAt, 1), n.SeasonFrom()).Year())
	if asAt-s.First < (s.Last-s.First)/2 {
		return s.Last
	}
	return n.Season(s.Year() + 1).Last
}

// unknown refuses a plan of which the journal does not tell some links, and names
// them all.
func (s *scheme) unknown() error {
	var what, suppose []string
	for _, g := range s.gates {
		if l := g.links[0]; l.unknown {
			what, suppose = append(what, l.what), append(suppose, fmt.Sprintf("--what-if %s=0.8", l.name))
		}
	}
	if len(what) == 0 {
		return nil
	}
	return fmt.Errorf("nothing in the journal tells the share of %s; suppose what you expect: %s", listed(what), strings.Join(suppose, " "))
}

// newScheme reckons backwards how many are needed before each gate.
func newScheme(w *way, want Want, o Options) (*scheme, error) {
	what := map[string]float64{}
	for _, s := range o.WhatIf {
		what[s.Link] = s.Share
	}
	s := &scheme{way: w, want: want, gates: w.gates(&records{w.n, o.AsAt, what})}
	for _, x := range o.WhatIf {
		if !s.has(x.Link) {
			return nil, fmt.Errorf("%s is not made by way of %s, so nothing can be supposed of that link", w.variety.Name, x.Link)
		}
	}
	if err := s.unknown(); err != nil {
		return nil, err
	}
	s.needs = make([]int, len(s.gates))
	s.rest = make([]stat.Chance, len(s.gates))
	rest := stat.Certain(1)
	for i := len(s.gates) - 1; i >= 0; i-- {
		g := s.gates[i]
		rest = g.chance.Then(rest)
		need, ok := rest.TrialsFor(want.Count, want.Sure)
		if !ok {
			return nil, fmt.Errorf("with what this journal knows, no number of plants gives %s of %s in %s seasons; ask for less with --sure",
				grouping(want.Count), w.variety.Name, percent(want.Sure))
		}
		s.needs[i], s.rest[i] = need, rest
	}
	return s, nil
}

func (s *scheme) has(name string) bool {
	for _, g := range s.gates {
		for _, l := range g.links {
			if l.name == name {
				return true
			}
		}
	}
	return false
}

// takeGate is the position of the gate of the attempts themselves.
func (s *scheme) takeGate() int { return len(s.gates) - 2 }

// works is how many attempts are made: stocks grafted, layers set, cuttings
// stuck or seeds sown.
func (s *scheme) works() int { return s.needs[s.takeGate()] }

// failing is the share of the attempts that is expected to fail at first.
func (s *scheme) failing() float64 { return 1 - s.gates[s.takeGate()].links[0].chance.Mean() }

// ceil is a number of plants, rounded up; what floats add to a whole number is
// none.
func ceil(x float64) int { return int(math.Ceil(x - 1e-9)) }
