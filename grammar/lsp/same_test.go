package lsp

import "testing"

// What an edit leaves as it was needs no check; what it writes anew does, though
// it be word for word what it takes away.
func TestSameFacts(t *testing.T) {
	const farm = "farm \"Kestrel Hollow\" currency EUR\n"
	for _, c := range []struct {
		text string
		edit edit
		want bool
	}{
		{"2026-03-02\n" + farm, edit{11, 11, "# autumn\n\n"}, true},
		{"2026-03-02\n" + farm, edit{11, 11, "graf"}, false},
		{"2026-03-02\n" + farm + "gra\n", edit{49, 49, "f"}, true},
		{"2026-03-02\n" + farm, edit{0, 10, "2026-03-03"}, false},
		{"2026-03-02\n" + farm, edit{11, 11 + int32(len(farm)), farm}, false},
		// The old line's day can't be read any more, and the new line is as it was.
		{"2025-11-03 Mon2026-03-02\n" + farm, edit{11, 22, "2026-03-02\n" + farm}, false},
	} {
		from := newText("a.bud", []byte(c.text))
		to := from.edit(c.edit.start, c.edit.end, c.edit.with)
		if got := sameFacts(c.edit, from, to, nil); got != c.want {
			t.Errorf("%q: %+v leaves the facts: %v, want %v", c.text, c.edit, got, c.want)
		}
	}
}
