package syntax

import (
	"slices"

	"github.com/budstick/budstick/grammar/source"
)

// How says what is wrong with a sentence, as far as one change would mend it.
type How uint8

// The ways in which a sentence goes wrong.
const (
	Unclear    How = iota
	Missing        // something is missing before a token
	Wrong          // a token should be something else
	Surplus        // a token should not be there
	OutOfPlace     // a token should stand before an earlier or a later one
	NameFirst      // a name stands before the number of it, as in QA25 48
)

// A Repair is the least change that makes a whole entry fit its sentence.
type Repair struct {
	How How
	At  int    // the token that is wrong, or before which something is missing
	To  int    // OutOfPlace: the token before which At belongs; NameFirst: the end of what belongs before At
	Put []Slot // what is missing, in order, or what should stand in place of At
	// Or holds what would do as well where Put is one thing: the choice is the
	// grower's.
	Or []Slot
}

// Sure reports whether there is only one such change.
func (r *Repair) Sure() bool { return r.How != Unclear && len(r.Or) == 0 }

// Repair looks for the change that mends an entry which stopped fitting at the
// token at. The likeliest slips are tried first.
func (p *Parser) Repair(g *Grammar, file *source.File, toks []Token, at int) Repair {
	p.see(g, file, toks)
	f := fixer{a: g.auto, list: p.list, at: at, other: p.other}
	_, f.before = f.a.run(0, f.list[:at])
	tries := []func() (Repair, bool){f.eaten, f.nameFirst, f.misplaced, f.oneOfSome, f.missing, f.surplus, f.wrong, f.missingTwo}
	if at < len(toks) && p.list[at].word > 0 { // a word of the language is seldom a slip for another
		tries[6], tries[7] = f.missingTwo, f.wrong
	}
	for _, try := range tries {
		if r, ok := try(); ok {
			return r
		}
	}
	return Repair{At: at}
}

// A fixer tries changes near the token at which a sentence stopped.
type fixer struct {
	a      *automaton
	list   []symbol
	at     int
	before int // the spot that read the token before at
	other  []symbol
}

func (f *fixer) slot(spot int) Slot { return Slot{spot, f.a.spots[spot].on} }

// eaten: the word before was taken for a name, since its name is missing, as
// in: variety species "Ficus carica".
func (f *fixer) eaten() (Repair, bool) {
	if f.at < 2 || f.at == len(f.list) || f.list[f.at-1].kind != Word || f.list[f.at-1].word == 0 {
		return Repair{}, false
	}
	_, from := f.a.run(0, f.list[:f.at-1])
	for _, i := range f.a.spots[from].next {
		if isName(f.a.spots[i].on) && f.a.fits(i, f.list[f.at-1:]) {
			return Repair{How: Missing, At: f.at - 1, Put: []Slot{f.slot(i)}}, true
		}
	}
	return Repair{}, false
}

// missing: one thing is missing before the token.
func (f *fixer) missing() (Repair, bool) {
	return f.oneOf(Missing, f.list[f.at:])
}

// oneOfSome: an unknown word stands where one of several could, or none.
func (f *fixer) oneOfSome() (Repair, bool) {
	if f.at == len(f.list) || f.list[f.at] != (symbol{kind: Word}) {
		return Repair{}, false
	}
	r, ok := f.wrong()
	if !ok || len(r.Or) == 0 {
		return r, false
	}
	if _, lost := f.missing(); !lost {
		if extra, fits := f.surplus(); fits {
			return extra, true
		}
	}
	return r, true
}

// wrong: something else should stand in place of the token.
func (f *fixer) wrong() (Repair, bool) {
	if f.at == len(f.list) {
		return Repair{}, false
	}
	return f.oneOf(Wrong, f.list[f.at+1:])
}

// oneOf finds what could stand at the token so that the rest fits.
func (f *fixer) oneOf(how How, rest []symbol) (Repair, bool) {
	var could []Slot
	for _, i := range f.a.spots[f.before].next {
		if f.a.fits(i, rest) {
			could = append(could, f.slot(i))
		}
	}
	if could = plain(could); len(could) == 0 {
		return Repair{}, false
	}
	return Repair{How: how, At: f.at, Put: could[:1], Or: could[1:]}, true
}

// plain leaves out what only another way of writing stands for: a name may
// always be quoted, an amount be whole, and × be x.
func plain(could []Slot) []Slot {
	has := func(t Terminal) bool {
		return slices.ContainsFunc(could, func(s Slot) bool { return s.Terminal == t })
	}
	name, number, x := has(Terminal{Kind: Word}), has(Terminal{Kind: Int}), has(literal("x"))
	return slices.DeleteFunc(could, func(s Slot) bool {
		return s.Not || s.Kind == Quoted && name || s.Kind == Decimal && number || s.Kind == Cross && x
	})
}

// surplus: the token should not be there.
func (f *fixer) surplus() (Repair, bool) {
	ok := f.at < len(f.list) && f.a.fits(f.before, f.list[f.at+1:])
	return Repair{How: Surplus, At: f.at}, ok
}

// reach is how far a token may stand from its place.
const reach = 5

// misplaced: the token belongs before an earlier one, or a later one belongs
// before it.
func (f *fixer) misplaced() (Repair, bool) {
	for to := f.at - 1; to >= max(1, f.at-reach) && f.at < len(f.list); to-- {
		if f.moved(f.at, to) {
			return Repair{How: OutOfPlace, At: f.at, To: to}, true
		}
	}
	for from := f.at + 1; from < min(f.at+reach, len(f.list)); from++ {
		if f.moved(from, f.at) {
			return Repair{How: OutOfPlace, At: from, To: f.at}, true
		}
	}
	return Repair{}, false
}

// moved reports whether the sentence fits with one token before an earlier one.
func (f *fixer) moved(from, to int) bool {
	f.other = append(f.other[:0], f.list[:to]...)
	f.other = append(f.other, f.list[from])
	f.other = append(f.other, f.list[to:from]...)
	f.other = append(f.other, f.list[from+1:]...)
	return f.a.fits(0, f.other)
}

// nameFirst: QA25 48 where 48 of QA25 is meant.
func (f *fixer) nameFirst() (Repair, bool) {
	of := symbol{Reserved, f.a.words.find([]byte("of"))}
	for name := max(1, f.at-1); name <= f.at && name+1 < len(f.list) && of.word > 0; name++ {
		if k := f.list[name].kind; k != Word && k != Quoted {
			continue
		}
		for end := name + 2; end <= min(name+reach, len(f.list)); end++ {
			f.other = append(f.other[:0], f.list[:name]...)
			f.other = append(f.other, f.list[name+1:end]...)
			f.other = append(f.other, of, f.list[name])
			f.other = append(f.other, f.list[end:]...)
			if f.a.fits(0, f.other) {
				return Repair{How: NameFirst, At: name, To: end}, true
			}
		}
	}
	return Repair{}, false
}

// missingTwo: two things are missing before the token, as in: graft 48 with W7.
func (f *fixer) missingTwo() (Repair, bool) {
	for _, i := range f.a.spots[f.before].next {
		for _, j := range f.a.spots[i].next {
			if !f.a.spots[i].on.Not && f.a.fits(j, f.list[f.at:]) {
				return Repair{How: Missing, At: f.at, Put: []Slot{f.slot(i), f.slot(j)}}, true
			}
		}
	}
	return Repair{}, false
}
