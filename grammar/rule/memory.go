package rule

import (
	"slices"
	"sync"

	"github.com/budstick/budstick/grammar/finding"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/nursery"
)

// A Memory keeps, from one check of a journal to the next, what takes long to
// find and seldom changes: which of its names look alike. The zero Memory is
// empty. Several checks may share one at a time.
type Memory struct {
	mu   sync.Mutex
	near map[string]nearNames // by what they are names of
}

// nearNames are the pairs of a list of names that look alike.
type nearNames struct {
	list  []string
	pairs [][2]int
}

// Check is the function Check, with a memory of the checks before.
func (m *Memory) Check(n *nursery.Nursery) []finding.Finding { return check(n, All, m) }

// pairs are spelling.NearPairs of a list.
func (m *Memory) pairs(kind string, list []string) [][2]int {
	m.mu.Lock()
	known, ok := m.near[kind]
	m.mu.Unlock()
	if ok && slices.Equal(known.list, list) {
		return known.pairs
	}
	known = nearNames{list: list}
	for i, j := range spelling.NearPairs(list) {
		known.pairs = append(known.pairs, [2]int{i, j})
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.near == nil {
		m.near = map[string]nearNames{}
	}
	m.near[kind] = known
	return known.pairs
}
