package syntax

import "strings"

// A wordTable numbers a few words from 1 and finds them without regard to case
// and without allocating: each word of each entry is looked up in it.
type wordTable struct {
	slots   []numbered // a power of two, at most half full
	longest int
}

type numbered struct {
	word string
	n    uint8
}

// newWordTable numbers words, which are in small letters, as they come.
func newWordTable(words []string) *wordTable {
	size := 16
	for size < 2*len(words) {
		size *= 2
	}
	t := &wordTable{slots: make([]numbered, size)}
	for i, w := range words {
		t.longest = max(t.longest, len(w))
		at := t.first([]byte(w))
		for t.slots[at].n > 0 {
			at = (at + 1) % size
		}
		t.slots[at] = numbered{w, uint8(i + 1)}
	}
	return t
}

// first is the slot where the search for a word begins.
func (t *wordTable) first(b []byte) int {
	h := len(b) + 7*int(b[0]|0x20) + 31*int(b[len(b)-1]|0x20) + 3*int(b[len(b)/2]|0x20)
	return h & (len(t.slots) - 1)
}

// find is the number of a word, or 0.
func (t *wordTable) find(b []byte) uint8 {
	if len(b) == 0 || len(b) > t.longest {
		return 0
	}
	for at := t.first(b); t.slots[at].n > 0; at = (at + 1) & (len(t.slots) - 1) {
		if sameFolded(t.slots[at].word, b) {
			return t.slots[at].n
		}
	}
	return 0
}

// sameFolded compares with a word in small letters; only ASCII letters have a
// case here.
func sameFolded(small string, b []byte) bool {
	if len(small) != len(b) {
		return false
	}
	for i, c := range b {
		if c >= 'A' && c <= 'Z' {
			c += 'a' - 'A'
		}
		if c != small[i] {
			return false
		}
	}
	return true
}

// ReservedWords can never be bare names. The list is closed for version 1.
var ReservedWords = strings.Fields(`about above after and as at because before below by each for from if in into is not of on
	onto or over per since than to under until with without note tag cost worker`)

var reserved = newWordTable(ReservedWords)

func isReserved(b []byte) bool { return reserved.find(b) > 0 }
