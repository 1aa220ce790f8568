package lsp

import (
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/source"
)

// sameFacts reports whether two versions of a file say the same to the nursery
// and to all rules, so that neither need be asked again: they hold the same
// entries, word for word and day for day and where the edit put them, and differ
// in what counts for nothing (comments, blank lines, entries that can't be read).
// Most of what is typed is of that kind, since an entry counts only when its last
// word is written.
//
// It may say no where the answer is yes.
func sameFacts(e edit, from, to *text, missed map[string]bool) bool {
	if from.notText() >= 0 || to.notText() >= 0 {
		return false
	}
	shared, old, now := difference(from.blocks, to.blocks)
	if bound(from.blocks) || bound(to.blocks) {
		return false
	}
	return sameEntries(e, placed(old, from.starts[shared:]), placed(now, to.starts[shared:])) && sameGaps(old, now, missed)
}

// difference leaves out the blocks that two texts share, above (and says how
// many) and below.
func difference(from, to []*block) (shared int, old, now []*block) {
	for len(from) > 0 && len(to) > 0 && from[0] == to[0] {
		from, to = from[1:], to[1:]
		shared++
	}
	for len(from) > 0 && len(to) > 0 && from[len(from)-1] == to[len(to)-1] {
		from, to = from[:len(from)-1], to[:len(to)-1]
	}
	return shared, from, to
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

// sameEntries reports whether the entries of before are those of now, under the
// same days. One that was written anew elsewhere, in the place of another, is not
// the same: what was found is about the other.
func sameEntries(e edit, old, now []placedEntry) bool {
	return slices.EqualFunc(old, now, func(x, y placedEntry) bool {
		at, untouched := e.moved(x.at)
		return untouched && at == y.at && x.Date == y.Date && x.File.Text(x.Span) == y.File.Text(y.Span)
	})
}

// A placedEntry is an entry with where it stands in the whole text.
type placedEntry struct {
	*fact.Entry
	at source.Span
}

// placed are the entries of blocks, which start there.
func placed(blocks []*block, starts []int32) []placedEntry {
	var list []placedEntry
	for i, b := range blocks {
		for j := range b.page.Entries {
			e := &b.page.Entries[j]
			list = append(list, placedEntry{e, shifted(e.Span, starts[i])})
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
