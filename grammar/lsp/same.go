package lsp

import (
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	spelling "github.com/budstick/budstick/grammar/name"
)

// sameFacts reports whether two versions of a file say the same to the nursery
// and to all rules, so that neither need be asked again: they hold the same
// entries, word for word and day for day, and differ in what counts for nothing
// (comments, blank lines, entries that can't be read). Most of what is typed is
// of that kind, since an entry counts only when its last word is written.
//
// It may say no where the answer is yes.
func sameFacts(from, to *text, missed map[string]bool) bool {
	if from.notText() >= 0 || to.notText() >= 0 {
		return false
	}
	old, now := difference(from.blocks, to.blocks)
	if bound(from.blocks) || bound(to.blocks) {
		return false
	}
	return sameEntries(old, now) && sameGaps(old, now, missed)
}

// difference leaves out the blocks that two texts share, above and below.
func difference(from, to []*block) (old, now []*block) {
	for len(from) > 0 && len(to) > 0 && from[0] == to[0] {
		from, to = from[1:], to[1:]
	}
	for len(from) > 0 && len(to) > 0 && from[len(from)-1] == to[len(to)-1] {
		from, to = from[:len(from)-1], to[:len(to)-1]
	}
	return from, to
}

// bound reports whether entries in some blocks mean others by their lines or
// bytes, which every edit may change: strikes and seals.
func bound(list []*block) bool {
	return slices.ContainsFunc(list, func(b *block) bool { return b.bound })
}

func (b *block) findBound() bool {
	return slices.ContainsFunc(b.page.Entries, func(e fact.Entry) bool {
		switch e.Effect.(type) {
		case *fact.Strike, *fact.Seal:
			return true
		}
		return false
	})
}

// sameEntries reports whether blocks hold the same entries under the same days.
func sameEntries(old, now []*block) bool {
	a, b := entriesOf(old), entriesOf(now)
	return slices.EqualFunc(a, b, func(x, y *fact.Entry) bool {
		return x.Date == y.Date && x.File.Text(x.Span) == y.File.Text(y.Span)
	})
}

func entriesOf(blocks []*block) []*fact.Entry {
	var list []*fact.Entry
	for _, b := range blocks {
		for i := range b.page.Entries {
			list = append(list, &b.page.Entries[i])
		}
	}
	return list
}

// sameGaps reports whether it is all the same which names stand in entries that
// can't be read: such names are not called unknown elsewhere.
func sameGaps(old, now []*block, missed map[string]bool) bool {
	counts := map[string]int{}
	count := func(blocks []*block, by int) {
		for _, b := range blocks {
			for _, broken := range b.page.Broken {
				for _, name := range broken.Names {
					counts[spelling.Fold(name)] += by
				}
			}
		}
	}
	count(old, -1)
	count(now, 1)
	for name, n := range counts {
		if n != 0 && missed[name] {
			return false
		}
	}
	return true
}
