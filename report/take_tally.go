package report

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
)

// outcome is the successes of a batch, of those whose outcome counts. Of seed
// all that was sown counts as soon as somebody has looked, less what was taken
// out before it came up: seed that stays in the ground has not come up. Of all
// else only what has a verdict counts.
func outcome(b *nursery.Batch) stat.Tally {
	switch {
	case b.Kind != nursery.SeedBatch:
		return stat.Tally{X: int(b.Took), N: int(b.Known())}
	case b.Known() == 0:
		return stat.Tally{}
	}
	return stat.Tally{X: int(b.Took), N: int(b.Made - b.Left)}
}

// provisional reports whether the outcome of a batch may still turn: it rests
// on an early look that no later one has followed, or its seed may still come
// up.
func provisional(b *nursery.Batch, asAt fact.Date) bool {
	if b.Kind == nursery.SeedBatch {
		return b.Known() > 0 && b.Waiting() > 0 && asAt < b.Stale
	}
	if b.Early == 0 {
		return false
	}
	for _, e := range b.Checks {
		if e.Day() >= b.FirstCheck {
			return false
		}
	}
	return true
}

// tallied is the sums of some batches of one kind.
type tallied struct {
	lots                                        int
	made, took, failed, dead, left, late, limbs int
	early                                       int // verdicts of early looks, borne out or not
	scionsKnown, scionsAlive                    int // on stocks that carry several
	plants                                      int // from seed
	about, provisional                          bool
	outcome                                     stat.Tally
	perLot                                      []stat.Tally // lots of which something is known
}

func tallyUp(batches []*nursery.Batch, asAt fact.Date) tallied {
	t := tallied{lots: len(batches), perLot: make([]stat.Tally, 0, len(batches))}
	for _, b := range batches {
		t.made += int(b.Made)
		t.took += int(b.Took)
		t.failed += int(b.Failed)
		t.dead += int(b.Dead)
		t.left += int(b.Left)
		t.late += int(b.Late)
		t.early += int(b.Early)
		t.plants += int(b.Plants)
		if b.Limbs {
			t.limbs += int(b.Made)
		}
		if b.ScionsEach > 1 {
			t.scionsKnown += int(b.ScionsKnown)
			t.scionsAlive += int(b.ScionsAlive)
		}
		t.about = t.about || b.About
		t.provisional = t.provisional || provisional(b, asAt)
		if o := outcome(b); o.N > 0 {
			t.outcome.X += o.X
			t.outcome.N += o.N
			t.perLot = append(t.perLot, o)
		}
	}
	return t
}

func (t tallied) known() int   { return t.took + t.failed }
func (t tallied) waiting() int { return t.made - t.known() - t.left }

// open is the attempts of which nothing is known, now or ever.
func (t tallied) open() int { return t.waiting() + t.left }

// muchOpen reports whether what is not known is more than a twentieth, so that
// it could change the picture.
func (t tallied) muchOpen() bool { return 20*t.open() > t.made }
