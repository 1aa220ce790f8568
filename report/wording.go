package report

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
)

// wording is what the attempts of one kind and their success are called.
type wording struct {
	one, many string // the attempts
	took      string // heading of the successes
	rate      string // heading of the share
	better    string // what the better of two does
	title     string
}

var wordings = [...]wording{
	nursery.GraftBatch:   {"graft", "grafts", "took", "take", "takes better", "Take of grafts"},
	nursery.LayerBatch:   {"layer", "layers", "rooted", "rooting", "roots better", "Rooting of layers"},
	nursery.CuttingBatch: {"cutting", "cuttings", "rooted", "rooting", "roots better", "Rooting of cuttings"},
	nursery.SeedBatch:    {"seed", "seeds", "up", "germination", "comes up better", "Germination of seed"},
}

// counted is a number of attempts in words.
func (w wording) counted(n int) string { return counted(n, w.one, w.many) }

// none says that there is nothing to count, and how to count something else.
func (w wording) none() string {
	return fmt.Sprintf("No %s here; --kind asks about others: graft, layer, cutting or seed.", w.one)
}

// counted is a number with what it counts.
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return grouping(n) + " " + many
}

// grouping writes a whole number for reading, with commas.
func grouping(n int) string {
	s := strconv.Itoa(n)
	var parts []string
	for ; len(s) > 3; s = s[:len(s)-3] {
		parts = append([]string{s[len(s)-3:]}, parts...)
	}
	return strings.Join(append([]string{s}, parts...), ",")
}

// percent writes a share for a sentence, without decimals.
func percent(share float64) string {
	return strconv.FormatFloat(100*share, 'f', 0, 64) + "%"
}

// listed joins names for a sentence: a, b and c.
func listed(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// someOf is a list for a sentence that names no more than mostNamed.
func someOf(names []string) string {
	if more := len(names) - mostNamed; more > 1 {
		return strings.Join(names[:mostNamed], ", ") + " and " + grouping(more) + " more"
	}
	return listed(names)
}

// lotsDiffer begins the note that lots are less alike than trials of one chance.
// Three digits, since two would write a dispersion of 1.04 as if there were none.
func lotsDiffer(o stat.Overdispersion) string {
	return fmt.Sprintf("Lots differ more than luck would have them (dispersion %.3g)", o.Phi())
}
