package money

import "fmt"

// Layers is a stock that keeps each purchase at its own cost and gives out the
// oldest first (FIFO). The zero Layers is empty.
type Layers struct {
	layers []Pool // oldest first, none empty
	count  int64
}

// Count is how many units there are.
func (l *Layers) Count() int64 { return l.count }

// Cost is what they carry between them.
func (l *Layers) Cost() (total Amount) {
	for _, p := range l.layers {
		total = total.Add(p.cost)
	}
	return total
}

// Put adds a layer of n units and their cost. It refuses a layer of none.
func (l *Layers) Put(n int64, cost Amount) error {
	if n <= 0 || l.count+n < 0 {
		return fmt.Errorf("can't put %d on top of %d", n, l.count)
	}
	l.layers = append(l.layers, Pool{n, cost})
	l.count += n
	return nil
}

// Take takes out the n oldest units with their cost; where that parts a layer,
// by [Pool.Take]. It refuses more than there are and then takes nothing.
func (l *Layers) Take(n int64) (cost Amount, err error) {
	if n < 0 || n > l.count {
		return Amount{}, fmt.Errorf("can't take %d of %d", n, l.count)
	}
	l.count -= n
	for n > 0 {
		oldest := &l.layers[0]
		k := min(n, oldest.count)
		cost, n = cost.Add(oldest.take(k)), n-k
		if oldest.count == 0 {
			l.layers = l.layers[1:]
		}
	}
	return cost, nil
}
