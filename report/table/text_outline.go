package table

import "strings"

// outline draws branches below one another, joined by lines.
func (t *textWriter) outline(o Outline) {
	t.title(o.Title)
	var notes footnotes
	for _, root := range o.Roots {
		t.branch(root, "", "", &notes)
	}
	t.footnotes(notes)
}

// branch writes one branch: its first line after first, all that hangs below it
// after below.
func (t *textWriter) branch(b Branch, first, below string, notes *footnotes) {
	text := visible(b.Label) + notes.sign(b.Marks)
	if b.Detail != "" {
		text += "  " + visible(b.Detail)
	}
	under := below
	if len(b.Branches) > 0 {
		under += "│ "
	} else {
		under += "  "
	}
	lead, further := t.shallow(first), t.shallow(under)
	for _, line := range wrap(text, t.width-max(width(lead), width(further))) {
		t.line(strings.TrimRight(lead+line, " "))
		lead = further
	}
	for i, child := range b.Branches {
		if i < len(b.Branches)-1 {
			t.branch(child, below+"├─ ", below+"│  ", notes)
		} else {
			t.branch(child, below+"└─ ", below+"   ", notes)
		}
	}
}

// shallow keeps the joining lines of a deep branch from using up the width: it
// cuts them on the left, and says so.
func (t *textWriter) shallow(lead string) string {
	runes := []rune(lead)
	if room := t.width / 2; len(runes) > room {
		return "…" + string(runes[len(runes)-room+1:])
	}
	return lead
}
