package table

import (
	"unicode/utf8"

	"github.com/budstick/budstick/grammar/screen"
)

// visible is text as it is shown in a cell: all of it passes through here on the
// way to a person or a spreadsheet. What would cling to what stands before the
// cell gets a circle to cling to.
func visible(s string) string {
	shown := screen.Visible(s)
	if first, _ := utf8.DecodeRuneInString(s); screen.Clings(first) {
		return "◌" + shown
	}
	return shown
}
