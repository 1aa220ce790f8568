package money

import (
	"fmt"

	"github.com/cockroachdb/apd/v3"
)

// A Pool is plants, or units of anything alike, that carry one cost between
// them, each the same share: the weighted average. What goes in and what comes
// out balance exactly, and who takes the last unit takes the last of the cost.
// The zero Pool is empty.
type Pool struct {
	count int64
	cost  Amount
}

// Count is how many units are in the pool.
func (p Pool) Count() int64 { return p.count }

// Cost is what they carry between them. It can be other than nought in an
// empty pool, where a cost came after the last unit had left.
func (p Pool) Cost() Amount { return p.cost }

// Put adds units and their cost. A cost alone, for units already there, comes
// with n 0. It refuses a negative number of units.
func (p *Pool) Put(n int64, cost Amount) error {
	if n < 0 || p.count+n < 0 {
		return fmt.Errorf("can't put %d on top of %d", n, p.count)
	}
	p.count += n
	p.cost = p.cost.Add(cost)
	return nil
}

// Take takes out n units with their share of the cost, rounded half to even at
// [Guard] decimals; all there are take all of it. It refuses more than there are
// and then leaves the pool as it is.
func (p *Pool) Take(n int64) (Amount, error) {
	if err := p.has(n); err != nil || n == 0 {
		return Amount{}, err
	}
	return p.take(n), nil
}

// take is Take for a number that is above 0 and not more than there are.
func (p *Pool) take(n int64) Amount {
	share := p.cost.MulFrac(n, p.count) // exactly the cost where n is count
	p.count -= n
	p.cost = p.cost.Sub(share)
	return share
}

func (p *Pool) has(n int64) error {
	if n < 0 || n > p.count {
		return fmt.Errorf("can't take %d of %d", n, p.count)
	}
	return nil
}

// Normal is the loss to be expected in a batch: Share, from 0 to 1, of the
// Entered units; Gone of them were lost before now.
type Normal struct {
	Share         Ratio
	Entered, Gone int64
}

// Lose takes out n units that died. The survivors bear the cost of a loss
// within normal, by carrying the same cost among fewer. What is lost beyond it,
// to a part of a unit, leaves with its share and is returned: a loss of the
// season. It is valued as if the normal loss had come first, so losses in turn
// come to what one for them all would. Where nothing survives there is nobody to
// bear it, and the whole cost is returned. More survivors than expected make no
// gain: they are cheaper.
//
// It refuses more units than there are and then leaves the pool as it is. This
// is process costing with normal and abnormal loss, without scrap value: take
// what failed plants fetch off the cost first.
func (p *Pool) Lose(n int64, normal Normal) (abnormal Amount, err error) {
	if err := p.has(n); err != nil || n == 0 {
		return Amount{}, err
	}
	abnormal = p.cost
	if n < p.count {
		abnormal = p.beyond(n, normal)
	}
	p.count -= n
	p.cost = p.cost.Sub(abnormal)
	return abnormal, nil
}

// beyond is the cost of those of n lost units that normal doesn't cover, where
// some survive: cost x beyond / (survivors + beyond).
func (p *Pool) beyond(n int64, normal Normal) Amount {
	share := normal.Share.sound()
	if share.Num == share.Den && n <= normal.Entered-normal.Gone {
		return Amount{} // all loss is normal
	}
	den := apd.NewBigInt(share.Den)
	lost := new(apd.BigInt).Mul(apd.NewBigInt(n), den)
	allowed := new(apd.BigInt).Mul(apd.NewBigInt(normal.Entered), apd.NewBigInt(share.Num))
	gone := new(apd.BigInt).Mul(apd.NewBigInt(normal.Gone), den)
	if allowed.Sub(allowed, gone); allowed.Sign() < 0 {
		allowed.SetInt64(0)
	}
	beyond := new(apd.BigInt).Sub(lost, allowed) // in units of 1/den, as all these
	if beyond.Sign() <= 0 {
		return Amount{}
	}
	base := new(apd.BigInt).Mul(apd.NewBigInt(p.count-n), den)
	base.Add(base, beyond)
	return fromBig(quo(beyond.Mul(beyond, p.cost.big()), base, HalfEven))
}
