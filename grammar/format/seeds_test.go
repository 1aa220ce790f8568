package format

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"github.com/budstick/budstick/grammar/entry"
)

// seeds are journals to start from: every sentence that the kinds of entry
// show, every journal under testdata, and texts that are hard on a formatter.
func seeds(t testing.TB) []string {
	t.Helper()
	out := append(hostile, journals(t)...)
	for _, s := range sentences() {
		out = append(out, "2026-03-02\n"+s+"\n", "2026–03–02\tmonday#d\r\n"+scrawled(s))
	}
	return out
}

// scrawled writes a sentence as a telephone might.
func scrawled(s string) string {
	words := parts(s)
	for i, w := range words {
		if w[0] == '"' {
			words[i] = "“" + w[1:len(w)-1] + "”"
		}
	}
	s = strings.Join(words, " \r\n\t")
	return strings.ToUpper(s[:1]) + s[1:] + " #c"
}

// parts cuts a plain sentence at the blanks that are in no text.
func parts(s string) []string {
	quoted := false
	return strings.FieldsFunc(s, func(c rune) bool {
		quoted = quoted != (c == '"')
		return c == ' ' && !quoted
	})
}

// sentences are what the kinds of entry show of themselves.
func sentences() []string {
	var out []string
	for _, k := range entry.All {
		out = append(append(out, k.Pattern), k.Samples...)
	}
	return out
}

// hostile are texts that have broken formatters of other languages, or look as
// though they could break this one.
var hostile = []string{
	"",
	" ",
	"\r",
	"\n\n",
	"\r\r\n",
	"#\r \n#\n",
	"# lone \r in a comment \r\r\n",
	"\uFEFF# mark\r\nparty Bob\n",
	"\uFEFFparty Bob",
	"party Bob\r\r\n  as customer\r\n",
	"party Bob \r \r\n",
	"party Bob\x00\n",
	"party \xff\n",
	"party “Bob\\” the ″ as customer\n",
	"party “Bob \\” the” as customer\n",
	"party \"Bob “the”\" as customer#c\n",
	"party\u200BBob\u2060as\uFEFFcustomer\u00A0\n",
	"party B\u0301ob\u0301 as customer\n",
	"\u0301 party Bob\n",
	"\u00A0party Bob\n",
	"party Bob\n\t# in\n\n#col\n  as customer\n  # after\n# end\n",
	"place Area AREA 60M2 Holds 9\n",
	"variety X parents X X X\n",
	"2026-03-02\ncount AM26 25 ,2 missing\ncheck AM26:39 took\n , 6 failed\n",
	"2026-03-02\nStrike Line 4 POT A to 3L , x Because “b”\n",
	"seal sha256 0000000000000000000000000000000000000000000000000000000000000000\nparty   Bob",
	"\uFEFFparty  Bob\r\nseal  sha256 0000000000000000000000000000000000000000000000000000000000000000\r\nparty  Ru\n",
}

// journals are the journals in the archives under testdata.
func journals(t testing.TB) []string {
	t.Helper()
	var out []string
	err := filepath.WalkDir("../../testdata", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || filepath.Ext(path) != ".txtar" {
			return err
		}
		b, err := os.ReadFile(path)
		for _, f := range txtar.Parse(b).Files {
			if filepath.Ext(f.Name) == ".bud" {
				out = append(out, string(f.Data))
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}
