package report

import (
	"strconv"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
)

// descentOption reads an option of the reports about descent and papers, if it
// is one.
func descentOption(o *Options, name, value string) (known, ok bool) {
	words := strings.ReplaceAll(value, "_", " ")
	var err error
	switch name {
	case "name":
		o.Name = words
	case "names":
		o.Names = strings.Split(words, ",")
	case "for":
		o.For = value
	case "clones":
		o.Clones = true
	case "copies":
		o.Copies, err = strconv.Atoi(value)
	case "depth":
		o.Depth, err = strconv.Atoi(value)
	case "since":
		day, ok := fact.ParseDate(value)
		o.Periods = []Period{{First: day}}
		return true, ok
	default:
		return false, true
	}
	return true, err == nil
}
