package report

import (
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

// special are the tables of what has a take of its own. Those with no rows are
// left out.
func special(n *nursery.Nursery, o Options, by []string, batches []*nursery.Batch) []table.Block {
	return nil
}
