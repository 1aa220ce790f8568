package name

import (
	"cmp"
	"iter"
	"slices"
)

// NearPairs gives the positions in names of all pairs that are Near, the
// earlier name first, in order of the first and then of the second. Of names
// that are the same only the first is looked at.
//
// It doesn't compare all with all: names are near only if they have a key in
// common, and the keys of a name are its two skeletons, itself, and itself
// with any one letter left out, since one slip between two names means that
// leaving out one letter of one, or one of each, makes them the same. Time and
// memory grow with the letters in all names and the pairs that are found.
func NearPairs(names []string) iter.Seq2[int, int] {
	return func(yield func(int, int) bool) {
		shapes, places := distinctShapes(names)
		shared := sharedKeys(shapes)
		var near []int32
		for i := range shapes {
			near = near[:0]
			for key := range shapes[i].keys() {
				for _, other := range shared.with(key) {
					if int(other.shape) > i {
						near = append(near, other.shape)
					}
				}
			}
			slices.Sort(near)
			for _, j := range slices.Compact(near) {
				if shapes[i].near(&shapes[j]) && !yield(places[i], places[j]) {
					return
				}
			}
		}
	}
}

// distinctShapes gives the shapes of the different names, and where in names
// each stands first.
func distinctShapes(names []string) (shapes []shape, places []int) {
	seen := make(map[string]bool, len(names))
	for i, name := range names {
		s := shapeOf(name)
		if !seen[s.exact] {
			seen[s.exact] = true
			shapes = append(shapes, s)
			places = append(places, i)
		}
	}
	return shapes, places
}

// A keyed is one key of one shape.
type keyed struct {
	key   uint64
	shape int32
}

// A keyIndex is sorted by key.
type keyIndex []keyed

// sharedKeys indexes the keys that more than one of shapes has.
func sharedKeys(shapes []shape) keyIndex {
	var all keyIndex
	for i := range shapes {
		for key := range shapes[i].keys() {
			all = append(all, keyed{key, int32(i)})
		}
	}
	slices.SortFunc(all, func(a, b keyed) int {
		return cmp.Or(cmp.Compare(a.key, b.key), cmp.Compare(a.shape, b.shape))
	})
	all = slices.Compact(all)
	var shared keyIndex
	for start := 0; start < len(all); {
		run := all[start:].run()
		if len(run) > 1 {
			shared = append(shared, run...)
		}
		start += len(run)
	}
	return shared
}

// with gives the entries for key.
func (index keyIndex) with(key uint64) keyIndex {
	start, found := slices.BinarySearchFunc(index, key, func(entry keyed, key uint64) int {
		return cmp.Compare(entry.key, key)
	})
	if !found {
		return nil
	}
	return index[start:].run()
}

// run gives the entries at the beginning that have one key. There is one at
// least.
func (index keyIndex) run() keyIndex {
	end := 1
	for end < len(index) && index[end].key == index[0].key {
		end++
	}
	return index[:end]
}

// These set off keys of different kinds from each other.
const (
	skeletonKey = 1 + iota
	numbersKey
	plainKey
)

// keyBase is the base of the polynomial that stands for a string of runes, odd
// and without a pattern. Two strings with the same value cost time and no
// more, since shapes that share a key are still compared.
const keyBase = 0x9E3779B97F4A7C15

func textKey(kind uint64, text string) uint64 {
	for _, r := range text {
		kind = kind*keyBase + uint64(r)
	}
	return kind
}

// keys gives numbers of which any two near shapes have one in common.
func (x *shape) keys() iter.Seq[uint64] {
	return func(yield func(uint64) bool) {
		before := make([]uint64, len(x.plain)+1) // the polynomials of what stands before each rune
		before[0] = plainKey
		for i, r := range x.plain {
			before[i+1] = before[i]*keyBase + uint64(r)
		}
		if !yield(textKey(skeletonKey, x.skeleton)) || !yield(textKey(numbersKey, x.numbers)) ||
			!yield(before[len(x.plain)]) || letterCount(x.plain) < slipName {
			return
		}
		after, power := uint64(0), uint64(1)
		for i, r := range slices.Backward(x.plain) {
			if isLetter(r) && !yield(before[i]*power+after) {
				return
			}
			after += uint64(r) * power
			power *= keyBase
		}
	}
}
