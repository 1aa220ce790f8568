package cost

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/name"
)

// shares are how costs are declared to be shared, by their folded label.
type shares struct {
	declared map[string][]declared
	cache    map[string]string // labels as written, folded
	met      map[string]bool
}

type declared struct {
	from fact.Date
	by   fact.Base
	name fact.Name
}

func readShares(entries []*fact.Entry) *shares {
	s := &shares{map[string][]declared{}, map[string]string{}, map[string]bool{}}
	for _, e := range entries {
		f, ok := e.Effect.(*fact.Share)
		if !ok {
			continue
		}
		for _, label := range f.Labels {
			key := s.fold(label.Text)
			s.declared[key] = append(s.declared[key], declared{e.Date, f.By, label})
		}
	}
	return s
}

func (s *shares) fold(label string) string {
	key, ok := s.cache[label]
	if !ok {
		key = name.Fold(label)
		s.cache[label] = key
	}
	return key
}

// base is what the costs of a label are shared by on a day.
func (s *shares) base(label string, day fact.Date) fact.Base {
	if len(s.declared) == 0 {
		return fact.PlantDays
	}
	key := s.fold(label)
	list := s.declared[key]
	if len(list) > 0 {
		s.met[key] = true
	}
	for i := len(list) - 1; i >= 0; i-- {
		if list[i].from <= day {
			return list[i].by
		}
	}
	return fact.PlantDays
}

// unmet are the labels that were declared and never stood on a cost.
func (s *shares) unmet(entries []*fact.Entry) (list []fact.Name) {
	seen := map[string]bool{}
	for _, e := range entries {
		f, ok := e.Effect.(*fact.Share)
		if !ok {
			continue
		}
		for _, label := range f.Labels {
			if key := s.fold(label.Text); !s.met[key] && !seen[key] {
				seen[key] = true
				list = append(list, label)
			}
		}
	}
	return list
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
		*fact.Plant, *fact.Return, *fact.Pick, *fact.Stocktake, *fact.Tend, *fact.Mark, *fact.Tree, *fact.Limb:
		return "", false
	}
	return e.Verb, true
}
