package entry

import "github.com/budstick/budstick/grammar/fact"

type check struct {
	Looked   *ref       `parser:"'check' (@Int 'of')?"`
	Lot      name       `parser:"@@ ':'?"`
	Outcomes []*outcome `parser:"@@ (',' @@)*"`
	Clauses  []*common  `parser:"@@*"`
}

type outcome struct {
	Count   *count `parser:"@@?"`
	Verdict ref    `parser:"@('took' | 'rooted' | 'up' | 'failed' | 'dead' | 'unsure' | 'upper' | 'lower')"`
	With    *ref   `parser:"('with' @Int"`
	Noun    *ref   `parser:" @('scions' | 'plants'))?"`
	Cause   *name  `parser:"('to' @@)?"`
}

var verdictWords = map[string]fact.Verdict{
	"took": fact.Took, "rooted": fact.Rooted, "up": fact.Up, "failed": fact.Fails, "dead": fact.Dead,
	"unsure": fact.Unsure, "upper": fact.Upper, "lower": fact.Lower,
}

var checkKind = kindOf(Kind{
	Summary: "plants that waited are looked at and get their verdict",
	Text: `Grafts ` + "`took`" + `, ` + "`failed`" + ` (the scion is dead, the stock lives) or are ` + "`dead`" + `; layers and cuttings ` + "`rooted`" + `, ` +
		"`failed`" + ` or are ` + "`dead`" + `; seed is ` + "`up`" + ` or ` + "`dead`" + `. Of an interstock made in one step ` + "`upper`" + ` says that the top died and the ` +
		`interstock lives, ` + "`lower`" + ` that all above the stock died. Plants that nobody looked at go on waiting, and so do those that are ` + "`unsure`" + `. ` +
		`With ` + "`check 40 of AM25:`" + ` the outcomes must add up to 40. A tree that was planted while it waited has one verdict and no number.`,
	Pattern: `check AM26: 39 took, 6 failed, 3 dead`,
	Samples: []string{
		`check 40 of AM25: 30 took, 5 failed, 3 dead to rot, 2 unsure worker Ru 20 min`,
		`check AM26: 36 took with 67 scions, 4 failed`,
		`check IT25: 5 took, 2 upper, 1 lower`,
		`check TR24: 52 up with 58 plants, 8 dead`,
		`check FG26 7 rooted`,
		`check M41: took`,
	},
}, func(r *reader, s *check) fact.Effect {
	e := &fact.Check{Lot: r.name(&s.Lot), Outcomes: r.outcomes(s.Outcomes, given(s.Looked))}
	if given(s.Looked) {
		e.Looked = r.some(*s.Looked)
	}
	r.commons(s.Clauses)
	return e
})

type sample struct {
	Looked   ref        `parser:"'sample' @Int 'of'"`
	Lot      name       `parser:"@@ ':'?"`
	Outcomes []*outcome `parser:"@@ (',' @@)*"`
	Clauses  []*common  `parser:"@@*"`
}

var sampleKind = kindOf(Kind{
	Summary: "some plants are looked at, and no count moves",
	Text:    `A look at some plants of a lot, which estimates its take and moves no count. The outcomes must add up to the number looked at.`,
	Pattern: `sample 30 of AM26: 26 took, 4 failed`,
}, func(r *reader, s *sample) fact.Effect {
	e := &fact.Check{Lot: r.name(&s.Lot), Looked: r.some(s.Looked), Outcomes: r.outcomes(s.Outcomes, true), Sample: true}
	r.commons(s.Clauses)
	return e
})

// outcomes reads the verdicts; a count of 0 is said out loud here: 0 took. Only
// a tree has a verdict without a count, and then it is the only one; counted
// says that the number looked at was written.
func (r *reader) outcomes(list []*outcome, counted bool) []fact.Outcome {
	out := make([]fact.Outcome, len(list))
	for i, o := range list {
		out[i] = r.outcome(o)
		if o.Count == nil && (len(list) > 1 || counted) {
			r.errorf(r.span(o.Verdict), "number", "how many %s? write the number before it: 3 %s", r.word(o.Verdict), r.word(o.Verdict))
		}
	}
	return out
}

func (r *reader) outcome(o *outcome) fact.Outcome {
	v := fact.Outcome{Verdict: verdictWords[r.word(o.Verdict)], Cause: r.name(o.Cause)}
	if o.Count != nil {
		v.Count = r.number(o.Count.N)
		v.Count.About = given(o.Count.About)
	}
	if given(o.With) {
		v.With, v.Noun = r.number(*o.With), fact.Scions
		if r.word(*o.Noun) == "plants" {
			v.Noun = fact.Plants
		}
	}
	return v
}
