package nursery

import (
	"strings"

	spelling "github.com/budstick/budstick/grammar/name"
)

// maxGuesses bounds the names that are compared, in all, to guess what was
// meant: in a journal with very many names and very many slips, the later slips
// get no guess.
const maxGuesses = 200_000

// guesses sorts the names of things so that few of them need be compared with
// one that is unknown.
type guesses struct {
	byDigits                    map[string][]string
	lots, trees, limbs, bundles int // how many of each are in it
	compared                    int
}

// meantThing guesses which lot, tree, limb or bundle was meant.
func (n *Nursery) meantThing(name string) (string, bool) {
	n.gatherNames()
	g := &n.guesses
	among := g.byDigits[sureDigits(name)]
	if g.compared += len(among); g.compared > maxGuesses {
		return "", false
	}
	return spelling.Suggest(name, among)
}

// meantVariety guesses which variety was meant.
func (n *Nursery) meantVariety(name string) (string, bool) {
	if n.guesses.compared += len(n.Varieties); n.guesses.compared > maxGuesses {
		return "", false
	}
	among := make([]string, len(n.Varieties))
	for i, v := range n.Varieties {
		among[i] = v.Name
	}
	return spelling.Suggest(name, among)
}

// gatherNames takes in what was named since the last guess.
func (n *Nursery) gatherNames() {
	g := &n.guesses
	if g.byDigits == nil {
		g.byDigits = map[string][]string{}
	}
	add := func(name string) {
		key := sureDigits(name)
		g.byDigits[key] = append(g.byDigits[key], name)
	}
	for ; g.lots < len(n.Lots); g.lots++ {
		add(n.Lots[g.lots].Name)
	}
	for ; g.trees < len(n.Trees); g.trees++ {
		add(n.Trees[g.trees].Name)
	}
	for ; g.limbs < len(n.Limbs); g.limbs++ {
		add(n.Limbs[g.limbs].Name)
	}
	for ; g.bundles < len(n.Bundles); g.bundles++ {
		add(n.Bundles[g.bundles].Name)
	}
}

// sureDigits is the digits of a name that no letter looks like and no zero in
// front makes doubtful. One name is a likely reading of another only where
// these are the same (see spelling.Suggest).
func sureDigits(name string) string {
	return strings.Map(func(c rune) rune {
		if c >= '2' && c <= '9' {
			return c
		}
		return -1
	}, name)
}
