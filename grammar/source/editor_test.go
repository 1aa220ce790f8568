package source

import (
	"strings"
	"testing"
	"unicode/utf16"

	"pgregory.net/rapid"
)

// The positions of LSP 3.17 (Text Documents, Position): a𐐀b has 𐐀 from 1 to 3
// in UTF-16, and a line ends at LF, CR LF or CR.
func TestRowColumn(t *testing.T) {
	f := New("x.bud", []byte("a𐐀b\r\né\rz\n"))
	for _, c := range []struct {
		off         int32
		row         int
		utf16, utf8 int
	}{
		{0, 0, 0, 0}, {1, 0, 1, 1}, {5, 0, 3, 5}, {6, 0, 4, 6}, {8, 1, 0, 0}, {10, 1, 1, 2}, {11, 2, 0, 0}, {12, 2, 1, 1}, {13, 3, 0, 0},
	} {
		for e, want := range map[Encoding]int{UTF16: c.utf16, UTF8: c.utf8} {
			if row, column := f.RowColumn(c.off, e); row != c.row || column != want {
				t.Errorf("byte %d, encoding %d: %d:%d, want %d:%d", c.off, e, row, column, c.row, want)
			}
			if off, ok := f.RowOffset(c.row, want, e); !ok || off != c.off {
				t.Errorf("%d:%d, encoding %d: byte %d (%v), want %d", c.row, want, e, off, ok, c.off)
			}
		}
	}
}

func TestRowOffsetOfPlacesThatAreNone(t *testing.T) {
	f := New("x.bud", []byte("a𐐀b\r\né"))
	for _, c := range []struct {
		row, column int
		e           Encoding
		want        int32
		ok          bool
	}{
		{0, 2, UTF16, 1, true}, {0, 3, UTF8, 1, true}, // in the middle of 𐐀
		{0, 99, UTF16, 6, true}, {0, 99, UTF8, 6, true}, // behind the end
		{1, 1, UTF16, 10, true},
		{2, 0, UTF16, 0, false}, {-1, 0, UTF16, 0, false}, {0, -1, UTF8, 0, false},
	} {
		if off, ok := f.RowOffset(c.row, c.column, c.e); off != c.want || ok != c.ok {
			t.Errorf("%d:%d: byte %d (%v), want %d (%v)", c.row, c.column, off, ok, c.want, c.ok)
		}
	}
}

// What an editor would say itself, that holds its lines as UTF-16.
func TestRowsAsAnEditorHasThem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOfN(rapid.RuneFrom([]rune("aé𐐀\r\n\uFEFF")), 0, 14, -1).Draw(t, "text")
		f := New("x.bud", []byte(text))
		lines := strings.Split(strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text), "\n")
		if f.Rows() != len(lines) {
			t.Fatalf("%q: %d rows, want %d", text, f.Rows(), len(lines))
		}
		for row, line := range lines {
			at := 0
			for _, r := range line {
				off, ok := f.RowOffset(row, at, UTF16)
				if !ok || !strings.HasPrefix(text[off:], string(r)) {
					t.Fatalf("%q: %d:%d is byte %d", text, row, at, off)
				}
				if gotRow, column := f.RowColumn(off, UTF16); gotRow != row || column != at {
					t.Fatalf("%q: byte %d is %d:%d, want %d:%d", text, off, gotRow, column, row, at)
				}
				at += len(utf16.Encode([]rune{r}))
			}
		}
	})
}
