package lsp

import (
	"math/bits"

	"github.com/budstick/budstick/grammar/nursery"
)

// A target is what mentions mean that mean the same: a name among names of one
// class, or among things.
type target struct {
	in  class
	key string
}

// target is what a mention means. Where a name could be of several classes it
// is of the first in which it is known.
func (r *replay) target(m mention) target {
	if m.of&things != 0 {
		if _, known := r.Thing(m.key); known || m.of&^things == 0 {
			return target{things, m.key}
		}
	}
	first := class(0)
	for rest := m.of &^ things; rest != 0; rest &= rest - 1 {
		one := class(1) << bits.TrailingZeros32(uint32(rest))
		if r.known(one, m.key) {
			return target{one, m.key}
		}
		if first == 0 {
			first = one
		}
	}
	return target{first, m.key}
}

// known reports whether the journal knows a name of a class.
func (r *replay) known(in class, key string) (ok bool) {
	switch in {
	case varieties:
		_, ok = r.Variety(key)
	case places:
		_, ok = r.Place(key)
	case workers:
		_, ok = r.Worker(key)
	case parties:
		_, ok = r.Party(key)
	case methods:
		_, ok = r.Method(key)
	case causes:
		_, ok = r.Cause(key)
	default:
		ok = r.labels()[target{in, key}]
	}
	return ok
}

// thing is the thing that a target is, or nil.
func (r *replay) thing(t target) nursery.Thing {
	if t.in != things {
		return nil
	}
	found, _ := r.Thing(t.key)
	return found
}

// A hit is a mention in a file.
type hit struct {
	file  *file
	start int32 // of its block
	block *block
	mention
}

// find gives the mentions that mean a target, file by file from above.
func (r *replay) find(t target, files ...*file) func(yield func(hit) bool) {
	return func(yield func(hit) bool) {
		for _, f := range files {
			for i, b := range f.blocks {
				for _, m := range b.names() {
					if m.key == t.key && r.target(m) == t && !yield(hit{f, f.starts[i], b, m}) {
						return
					}
				}
			}
		}
	}
}
