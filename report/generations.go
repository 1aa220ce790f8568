package report

import (
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/nursery"
)

// A cloning is how often the top of something was made anew from a branch since
// the last seed, as far as the record goes. Where it is one of several, the
// least and the most differ.
type cloning struct {
	least, most int
	since       []string // what stands at the beginning of each line
}

// cloningOf counts generations of cloning along the scion lines of a thing: a
// graft, a layer and a cutting are one each; the same plants in another lot, or
// wood that was only cut, are none.
func cloningOf(n *nursery.Nursery, t nursery.Thing) cloning {
	type count struct{ least, most int }
	known := map[nursery.Thing]count{}
	var out cloning
	// Sources are older than what comes from them, so there are no loops; a
	// stack of our own, because a line may be of any length.
	for stack := []nursery.Thing{t}; len(stack) > 0; {
		at := stack[len(stack)-1]
		if _, done := known[at]; done {
			stack = stack[:len(stack)-1]
			continue
		}
		sum, lines, waits := count{}, 0, false
		for _, link := range n.Tops(at) {
			one, from := count{}, link.From.Thing
			if from != nil && link.Step != nursery.Seedling {
				var ok bool
				if one, ok = known[from]; !ok {
					waits = true
					stack = append(stack, from)
					continue
				}
				if isCloning(link.Step) {
					one.least, one.most = one.least+1, one.most+1
				}
			}
			if lines == 0 {
				sum = one
			}
			lines++
			sum.least, sum.most = min(sum.least, one.least), max(sum.most, one.most)
		}
		if waits {
			continue
		}
		known[at] = sum
		out.since = append(out.since, beginnings(n, at)...)
		stack = stack[:len(stack)-1]
	}
	slices.Sort(out.since)
	out.since = slices.Compact(out.since)
	out.least, out.most = known[t].least, known[t].most
	return out
}

func isCloning(s nursery.Step) bool {
	return s == nursery.Scion || s == nursery.LayerOf || s == nursery.CuttingOf
}

// beginnings are the ends of the scion lines that a thing is the last of.
func beginnings(n *nursery.Nursery, t nursery.Thing) []string {
	tops := n.Tops(t)
	if len(tops) == 0 {
		return []string{t.Label() + ", where the record begins"}
	}
	var out []string
	for _, link := range tops {
		switch {
		case link.From.Thing == nil:
			out = append(out, t.Label()+", bought from "+link.From.Label())
		case link.Step == nursery.Seedling:
			out = append(out, t.Label()+", seed of "+link.From.Label())
		}
	}
	return out
}

// text says since when the generations are counted.
func (c cloning) text() string { return strings.Join(c.since, "; ") }

// foundersOf are what the genotype of a thing is known from in this book: the
// plants (or, of what came from outside, the first things) at which the chain of
// vegetative steps to it begins. A nucellar seedling is not surely of it.
func foundersOf(n *nursery.Nursery, t nursery.Thing) (founders []nursery.Thing, sure bool) {
	sure = true
	seen := map[nursery.Thing]bool{t: true}
	for queue := []nursery.Thing{t}; len(queue) > 0; queue = queue[1:] {
		begins := true
		for _, link := range n.Tops(queue[0]) {
			same, certain := nursery.Clones(queue[0], link)
			if from := link.From.Thing; from != nil && same {
				begins, sure = false, sure && certain
				if !seen[from] {
					seen[from] = true
					queue = append(queue, from)
				}
			}
		}
		if begins {
			founders = append(founders, queue[0])
		}
	}
	return founders, sure
}
