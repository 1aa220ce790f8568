package nursery

import (
	"fmt"
	"strings"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/source"
)

// A doubt is a check that counts for nothing until it is mended. What is taken
// of the lot behind it is likely to be there then.
type doubt struct {
	file *source.File
	span source.Span
}

// doubtLot notes the first check of a lot that does not count.
func (n *Nursery) doubtLot(name string, d doubt) {
	key := spelling.Fold(name)
	if _, known := n.doubts[key]; !known {
		n.doubts[key] = d
	}
}

// doubtUnread notes the lots of a check that could not be read.
func (n *Nursery) doubtUnread(file *source.File, b entry.Broken) {
	if !entry.BeginsWith(strings.ToLower(b.Begins), "check") {
		return
	}
	for _, name := range b.Names {
		n.doubtLot(name, doubt{file, b.Span})
	}
}

// doubtRefused notes the lot of a check that was refused.
func (n *Nursery) doubtRefused(e *fact.Entry) {
	if check, ok := e.Effect.(*fact.Check); ok {
		n.doubtLot(check.Lot.Text, doubt{e.File, e.Span})
	}
}

// orMend ends a message about numbers of a lot: with what else could be meant
// or, where a check of the lot does not count, with that.
func (n *Nursery) orMend(name, otherwise string) (end string, related []finding.Related) {
	d, ok := n.doubts[spelling.Fold(name)]
	if !ok || d.file == n.now.File && d.span.Start > n.now.Span.Start {
		return otherwise, nil
	}
	return fmt.Sprintf("; a check of %s has an error and counts for nothing, so mend that first", name),
		[]finding.Related{{File: d.file, Span: d.span, Message: "to be mended first"}}
}
