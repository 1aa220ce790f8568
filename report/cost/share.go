package cost

import (
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/name"
)

// shares are how the costs of each label are declared to be shared, in order.
type shares map[string][]declared

type declared struct {
	from fact.Date
	by   fact.Base
}

// readShares reads the declarations and finds which hold for the labels that
// stand on costs, as they are written there. Unmet are labels that were declared
// and stand on none.
func readShares(entries []*fact.Entry) (s shares, unmet []fact.Name) {
	folded := map[string][]declared{}
	var labels []fact.Name
	for _, e := range entries {
		f, ok := e.Effect.(*fact.Share)
		if !ok {
			continue
		}
		for _, label := range f.Labels {
			key := name.Fold(label.Text)
			if folded[key] == nil {
				labels = append(labels, label)
			}
			folded[key] = append(folded[key], declared{e.Date, f.By})
		}
	}
	if len(folded) == 0 {
		return nil, nil
	}
	s, met := shares{}, map[string]bool{}
	for _, e := range entries {
		label, ok := shared(e)
		if _, known := s[label]; !ok || known {
			continue
		}
		key := name.Fold(label)
		s[label], met[key] = folded[key], true
	}
	return s, slices.DeleteFunc(labels, func(n fact.Name) bool { return met[name.Fold(n.Text)] })
}

// base is what the costs of a label are shared by on a day.
func (s shares) base(label string, day fact.Date) fact.Base {
	list := s[label]
	for i := len(list) - 1; i >= 0; i-- {
		if list[i].from <= day {
			return list[i].by
		}
	}
	return fact.PlantDays
}

// lasting is an entry that buys something for longer.
func lasting(e *fact.Entry) (*fact.Spend, bool) {
	s, ok := e.Effect.(*fact.Spend)
	return s, ok && s.Over.Given
}

// shared is the label under which an entry's cost is shared by all that stands,
// if nothing is named that it is for.
func shared(e *fact.Entry) (label string, ok bool) {
	switch f := e.Effect.(type) {
	case *fact.Spend:
		return f.On.Text, len(f.For) == 0
	case *fact.Work:
		return f.Task.Text, len(f.For) == 0
	case *fact.Remark:
		return e.Verb, len(f.Of) == 0
	case *fact.Begin, *fact.Layer, *fact.Cut, *fact.Graft, *fact.Check, *fact.Turn, *fact.Pass, *fact.Join, *fact.Leave,
		*fact.Plant, *fact.Return, *fact.Pick, *fact.Stocktake, *fact.Tend, *fact.Treat, *fact.Inspect, *fact.Mark, *fact.Tree, *fact.Limb:
		return "", false
	}
	return e.Verb, true
}
