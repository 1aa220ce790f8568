// Package nursery replays the entries of a journal into what stands on the
// farm: lots of plants, trees, wood, and the attempts that were made on them.
// It is the only place where anything is counted; the linter, the reports and
// the editor all read it, so they can't disagree.
//
// Two records are kept side by side, and neither is worked out from the other.
// Plants obey conservation: what entered a lot is what stands in it plus what
// left it. Attempts are observations: a graft that failed is not a plant that
// died, and the same stock may be worked again.
//
//	lot:      entered = waiting + attached + living + failed
//	                  + sold + given + lost + culled + planted
//	                  + used as stock + gone to other lots + unexplained
//	attempts: made = took + failed + left before the check + waiting
//
// An entry that contradicts the book is an error and moves nothing.
package nursery

import (
	"slices"
	"time"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/source"
)

// A Nursery is a journal, replayed up to a day. Its lists are in the order in
// which things came to be. Readers must not change it.
type Nursery struct {
	Farm      *fact.Farm // nil where none was declared
	Entries   []*fact.Entry
	Lots      []*Lot
	Trees     []*Tree
	Limbs     []*Limb
	Bundles   []*Bundle
	Batches   []*Batch
	Varieties []*Variety
	Places    []*Place
	Workers   []*Worker
	Parties   []*Party
	Methods   []*Method
	Causes    []*Cause
	Rates     []*fact.Entry // of effect *fact.Rate, in order
	Moves     []Move
	Uses      []Use
	Visits    []Visit       // treatments and inspections, in order
	Samples   []*fact.Entry // of effect *fact.Check, which moved nothing
	Struck    map[*fact.Entry]*fact.Entry
	Refused   map[*fact.Entry]bool // entries that contradict the book, and count for nothing
	Last      fact.Date            // the last day written in, up to the day asked for
	Findings  []finding.Finding
	Pages     []*entry.Page
	// Missed are the names, folded, that were looked for in vain, whether or not
	// that was said.
	Missed map[string]bool

	things    map[string]Thing // lots, trees, limbs and bundles, by folded name
	varieties map[string]*Variety
	places    map[string]*Place
	workers   map[string]*Worker
	parties   map[string]*Party
	methods   map[string]*Method
	causes    map[string]*Cause
	limits    limits
	waits     map[waitKey]wait
	loops     map[*fact.Entry][]fact.Name // declarations that build on themselves, by way of which
	muted     map[string]bool             // names that an entry which does not count would have made
	doubts    map[string]doubt            // checks that do not count, by the folded name of their lot
	now       *fact.Entry                 // the entry being replayed
	refused   bool                        // it contradicts the book
	guesses   guesses
	shifted   []*Lot // made, potted or moved by the entry at hand
}

// A Move is plants changing state, lot or owner by one entry: in from outside
// (From nil), out (To nil), or on. Folding all moves in order gives every count.
type Move struct {
	Entry     *fact.Entry
	From, To  *Lot
	N         int32
	How       fact.How
	FromState fact.State
	ToState   fact.State
}

// Replay puts the entries of the pages in order and replays them up to the end
// of the day until; no date means all of them. An entry that is struck later
// counts on no day. Its Findings hold those of the pages too.
func Replay(pages []*entry.Page, until fact.Date) *Nursery {
	n := &Nursery{
		Pages: pages, Struck: map[*fact.Entry]*fact.Entry{}, Refused: map[*fact.Entry]bool{},
		varieties: map[string]*Variety{}, places: map[string]*Place{},
		workers: map[string]*Worker{}, parties: map[string]*Party{}, methods: map[string]*Method{},
		causes: map[string]*Cause{}, muted: map[string]bool{}, doubts: map[string]doubt{}, Missed: map[string]bool{}, loops: map[*fact.Entry][]fact.Name{}, limits: newLimits(),
	}
	for _, p := range pages {
		n.Findings = append(n.Findings, p.Standing()...)
		struck := p.Struck()
		for _, b := range p.Broken {
			if slices.ContainsFunc(struck, func(s entry.Broken) bool { return s.Line == b.Line }) {
				continue
			}
			for _, name := range b.Names {
				n.muted[spelling.Fold(name)] = true
			}
			n.doubtUnread(p.File, b)
		}
	}
	n.Entries = n.inOrder(pages, until)
	n.things = make(map[string]Thing, makers(n.Entries))
	n.Moves = make([]Move, 0, len(n.Entries))
	n.replay(n.Entries)
	n.now = nil
	n.explainStrikes()
	return n
}

// replay replays entries in order. What is declared on a day stands before what
// is done on it.
func (n *Nursery) replay(list []*fact.Entry) {
	for i := 0; i < len(list); {
		first := list[i]
		if !fact.Declares(first.Effect) {
			n.step(first)
			i++
			continue
		}
		end := i + 1
		for end < len(list) && list[end].Date == first.Date && fact.Declares(list[end].Effect) {
			end++
		}
		n.declareAll(list[i:end])
		i = end
	}
}

// step replays one entry.
func (n *Nursery) step(e *fact.Entry) {
	n.now, n.refused = e, false
	n.Last = max(n.Last, e.Date)
	n.apply(e)
	n.settleSpots()
	if n.refused {
		n.Refused[e] = true
		n.mute(e.Effect)
		n.doubtRefused(e)
	}
}

// makers counts the entries that make a thing.
func makers(list []*fact.Entry) int {
	count := 0
	for _, e := range list {
		switch f := e.Effect.(type) {
		case *fact.Begin, *fact.Layer, *fact.Cut, *fact.Graft, *fact.Join, *fact.Tree, *fact.Limb:
			count++
		case *fact.Pass:
			if f.As.Given() {
				count++
			}
		}
	}
	return count
}

// SeasonFrom is the month in which the farm's seasons begin.
func (n *Nursery) SeasonFrom() time.Month {
	if n.Farm == nil || n.Farm.SeasonFrom == 0 {
		return time.January
	}
	return n.Farm.SeasonFrom
}

// Season is the season named by a year; year 0 means the one of the last day.
func (n *Nursery) Season(year int) fact.Season {
	if year == 0 {
		return fact.SeasonOf(max(n.Last, 1), n.SeasonFrom())
	}
	return fact.SeasonNamed(year, n.SeasonFrom())
}

// apply does what an entry says.
func (n *Nursery) apply(e *fact.Entry) {
	n.clauses(e)
	switch f := e.Effect.(type) {
	case *fact.Begin:
		n.begin(f)
	case *fact.Layer:
		n.layer(f)
	case *fact.Cut:
		n.cut(f)
	case *fact.Graft:
		n.graft(f)
	case *fact.Check:
		n.check(f)
	case *fact.Turn:
		n.turn(f)
	case *fact.Pass:
		n.pass(f)
	case *fact.Join:
		n.join(f)
	case *fact.Leave:
		n.leave(f)
	case *fact.Plant:
		n.plant(f)
	case *fact.Return:
		n.takeBack(f)
	case *fact.Pick:
		n.pick(f)
	case *fact.Stocktake:
		n.stocktake(f)
	case *fact.Spend:
		n.know(f.For)
	case *fact.Work:
		n.know(f.For)
	case *fact.Paid:
		n.party(f.From)
	case *fact.Tend:
		n.tend(f)
	case *fact.Treat:
		n.treat(f)
	case *fact.Inspect:
		n.inspect(f)
	case *fact.Mark:
		n.mark(f)
	case *fact.Remark:
		n.know(f.Of)
	default:
		n.declare(f)
	}
}

// refuse reports that the entry at hand contradicts the book. The caller moves
// nothing after it.
func (n *Nursery) refuse(at source.Span, rule, message string, about ...string) *finding.Finding {
	n.refused = true
	return n.say(finding.Error, at, rule, message, about...)
}

// say reports something about the entry at hand.
func (n *Nursery) say(sev finding.Severity, at source.Span, rule, message string, about ...string) *finding.Finding {
	n.Findings = append(n.Findings, finding.Finding{
		File: n.now.File, Span: at, Severity: sev, Rule: rule, Message: message, About: about,
	})
	return &n.Findings[len(n.Findings)-1]
}
