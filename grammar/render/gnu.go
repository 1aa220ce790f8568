package render

import (
	"bufio"
	"fmt"
	"io"

	"github.com/budstick/budstick/grammar/screen"
)

// writeGNU writes one line a finding, as section 4.4 of the GNU Coding
// Standards ("Formatting Error Messages") has it: FILE:LINE:COLUMN: or
// FILE:LINE.COLUMN-LINE.COLUMN:, the last column counted in. Its columns are
// characters, like everywhere here, and not cells of a screen.
func writeGNU(w io.Writer, r Result, _ Options) error {
	out := bufio.NewWriterSize(w, 1<<16)
	for f := range r.placed() {
		// An empty span has no last character; the column behind it stands for one.
		last := max(f.end.Column-1, 1)
		where := fmt.Sprintf("%d.%d-%d.%d", f.start.Line, f.start.Column, f.end.Line, last)
		if f.start.Line == f.end.Line && last <= f.start.Column {
			where = fmt.Sprintf("%d:%d", f.start.Line, f.start.Column)
		}
		fmt.Fprintf(out, "%s:%s: %s: %s [%s]\n", screen.Visible(f.File.Path), where, f.Severity, message(f.Message), f.Rule)
	}
	return out.Flush()
}
