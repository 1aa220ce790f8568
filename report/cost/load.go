package cost

import "github.com/budstick/budstick/report/money"

// A Part is one of the things that plants carry with them.
type Part uint8

// The parts. The first four are money and make up the cost. Hours are hours of
// work and Space is square metres of bench for a day, both as exact decimals.
// Saving is the part of Labour that would have been saved if a hundred grafts
// took an hour less; what is not worked can't be saved.
const (
	Bought   Part = iota // plants, seed and wood that came from outside
	Material             // what else was spent on them by name
	Labour               // hours at the wage in force
	Shared               // their share of what was spent on no lot in particular
	Hours
	Space
	Saving
	Parts
)

var partNames = [...]string{"plants, seed and wood", "materials", "labour", "shared costs", "hours", "space", "saving"}

func (p Part) String() string { return partNames[p] }

// A Load is what some plants carry between them.
type Load [Parts]money.Amount

// Cost is the money in the load.
func (l Load) Cost() money.Amount {
	return l[Bought].Add(l[Material]).Add(l[Labour]).Add(l[Shared])
}

// Plus is l + o.
func (l Load) Plus(o Load) Load {
	l.add(&o)
	return l
}

// Minus is l - o.
func (l Load) Minus(o Load) Load {
	for p := range l {
		l[p] = l[p].Sub(o[p])
	}
	return l
}

func (l *Load) add(o *Load) {
	for p := range l {
		l[p] = l[p].Add(o[p])
	}
}

// times is the load × num / den, each part rounded for itself.
func (l Load) times(num, den int64) Load {
	if num == den {
		return l
	}
	for p := range l {
		if l[p] != (money.Amount{}) {
			l[p] = l[p].MulFrac(num, den)
		}
	}
	return l
}

func (l *Load) isNone() bool { return *l == Load{} }

// split shares a load by weights, none of them below 0 and their sum above, each
// part by largest remainder.
func (l Load) split(weights []int64) []Load {
	shares := make([]Load, len(weights))
	for p := range l {
		parts, _ := money.Allocate(l[p], weights, money.Guard)
		for i, a := range parts {
			shares[i][p] = a
		}
	}
	return shares
}

// A splitter hands out the shares of a load one after the other, to very many.
// Each is the difference of two running sums, so that all add up to the load
// exactly and none is off by more than one step of the last decimal; there is
// nothing to be sorted, as for the largest remainders.
type splitter struct {
	load    Load
	sum, of int64 // weights so far, and in all
	given   Load
	parts   []Part // that are not nought
}

// begin is for when the load is complete.
func (s *splitter) begin() {
	for p := range Parts {
		if s.load[p] != (money.Amount{}) {
			s.parts = append(s.parts, p)
		}
	}
}

// next adds the share of the next weight to a load.
func (s *splitter) next(weight int64, to *Load) {
	if weight == 0 {
		return
	}
	s.sum += weight
	for _, p := range s.parts {
		upTo := s.load[p].MulFrac(s.sum, s.of)
		to[p] = to[p].Add(upTo.Sub(s.given[p]))
		s.given[p] = upTo
	}
}

// A pool is plants that carry one load between them, each the same.
type pool struct {
	count int64
	load  Load
}

func (p *pool) put(n int64, l *Load) {
	p.count += n
	p.load.add(l)
}

// take takes out plants with their share, all of them where there are fewer.
func (p *pool) take(n int64) Load {
	if n >= p.count {
		return p.empty()
	}
	l := p.load.times(n, p.count)
	p.count -= n
	p.load = p.load.Minus(l)
	return l
}

// lose takes out plants that died and returns what the survivors don't bear.
func (p *pool) lose(n int64, normal money.Normal) (l Load) {
	n = min(n, p.count)
	for i := range p.load {
		if p.load[i] == (money.Amount{}) {
			continue
		}
		var one money.Pool
		_ = one.Put(p.count, p.load[i])
		l[i], _ = one.Lose(n, normal) // there are as many
	}
	p.count -= n
	p.load = p.load.Minus(l)
	return l
}

// empty takes out everything.
func (p *pool) empty() Load {
	l := p.load
	*p = pool{}
	return l
}
