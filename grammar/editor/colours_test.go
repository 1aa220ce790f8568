package editor

import (
	"bytes"
	"errors"
	"fmt"
	"html"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// A colour is what a piece of text is, as an editor shows it.
type colour string

const (
	plain   colour = "name"
	day     colour = "day"
	lead    colour = "verb"
	word    colour = "word"
	comment colour = "comment"
	text    colour = "text"
	number  colour = "number"
	date    colour = "date"
	unit    colour = "unit"
)

// A place is where a character of a journal is, and what it is by the parser.
type place struct {
	offset int32
	is     colour
}

// places gives the first and the last character of each token of a journal.
func places(file *source.File) []place {
	var list []place
	add := func(s source.Span, c colour) {
		_, size := utf8.DecodeLastRune(file.Bytes[s.Start:s.End])
		list = append(list, place{s.Start, c}, place{s.End - int32(size), c})
	}
	isDay := syntax.IsDay(file)
	syntax.Chunks(file, isDay, func(c syntax.Chunk) bool {
		syntax.Trivia(file.Bytes, c.Span, func(s source.Span) { add(s, comment) })
		toks := syntax.Lex(file.Bytes, c.Span, nil)
		if isDay(c.Span) {
			for _, t := range toks {
				add(t.Span, day)
			}
			return true
		}
		kind, ok := entry.Named(strings.ToLower(file.Text(toks[0].Span)))
		if !ok {
			return true
		}
		path := kind.Grammar.Path(file, toks)
		for i, t := range toks {
			if c, ok := colourOf(path[i], t, i == 0); ok {
				add(t.Span, c)
			}
		}
		return true
	})
	return list
}

// colourOf is the colour that a token should have; signs have none.
func colourOf(slot syntax.Slot, t syntax.Token, first bool) (colour, bool) {
	switch {
	case first:
		return lead, true
	case t.Kind == syntax.Comma || t.Kind == syntax.Colon || t.Kind == syntax.Cross:
		return "", false
	case slot.Literal != "" && !slot.Not:
		return word, true
	}
	switch t.Kind {
	case syntax.Int, syntax.Decimal:
		return number, true
	case syntax.Unit, syntax.Currency:
		return unit, true
	case syntax.Date, syntax.Month:
		return date, true
	case syntax.Quoted:
		return text, true
	}
	return plain, !slot.Not // what a strike repeats is of any kind
}

// journals are those that are coloured: each sentence that is shown in FORMAT.md,
// what is odd, and the farm of the examples.
func journals(t *testing.T) []*source.File {
	t.Helper()
	var b strings.Builder
	for _, k := range entry.All {
		if k.Verb == "strike" {
			continue
		}
		for _, s := range append([]string{k.Pattern}, k.Samples...) {
			b.WriteString(s + "\n")
		}
	}
	list := []*source.File{source.New("sentences.bud", []byte(b.String())), source.New("odd.bud", []byte(odd))}
	paths, err := filepath.Glob("../../examples/kestrel-hollow/*.bud")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no journals: %v", err)
	}
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, source.New(path, data))
	}
	return list
}

// odd has names that are words elsewhere, units run together with numbers,
// comments and blank lines within entries, and other signs than ASCII has.
const odd = `# a comment, with "quotes" and of with by
GRAFT 3 of took with M7 by CLEFT as graft
  # in between, of with
  caliper 9mm

  worker Inés 3h20min, “Ru the 2nd” 1 h  # of with
# a comment line never ends an entry
  note "a \"quoted\" word, of # no comment" tag by-hand
2026-03-02 Monday # of
check graft: 2 took, 1 failed
note 2b, M8/of, of-with "über of"
sow 20 seed of Nèfle as seed-of from "5 kg" for 12.50 USD cost 3 EUR
pick 31.5 kg, 420 fruit from M7
worker Ines 14.50 per h
limit loss 15 % for cleft
limit old-wood 15%
tree M9 variety Nèfle planted 2013-05 at of.of
variety Latelight parents Amberlight × Redwing protected until 2041-12-31 by "plant variety right"
`

// An editor colours the places of a journal.
type editor struct {
	name    string
	program string
	syntax  string
	// colours returns what the editor calls each place; the four numbers of a
	// place are its line and its column in bytes, from 1, and the bytes before it and
	// the UTF-16 units before it in its line.
	colours func(t *testing.T, program, syntax, journal string, places []string) []string
	means   map[string]colour
}

var editors = []editor{
	{"Vim", "vim", "vim/syntax/budstick.vim", byVim("-N", "-u", "NONE", "-i", "NONE", "-n", "-es"), vimMeans},
	{"Neovim", "nvim", "vim/syntax/budstick.vim", byVim("-u", "NONE", "-i", "NONE", "-n", "--headless"), vimMeans},
	{"Emacs", "emacs", "emacs/budstick-mode.el", byEmacs, map[string]colour{
		"nil": plain, "font-lock-function-name-face": day, "font-lock-keyword-face": lead, "font-lock-builtin-face": word,
		"font-lock-comment-face": comment, "font-lock-comment-delimiter-face": comment, "font-lock-string-face": text,
		"font-lock-constant-face": number, "font-lock-type-face": unit,
	}},
	{"TextMate", "node", "vscode/syntaxes/budstick.tmLanguage.json", byTextMate, map[string]colour{
		"source.budstick": plain, "entity.name.section.budstick": day, "keyword.control.budstick": lead, "keyword.other.budstick": word,
		"comment.line.number-sign.budstick": comment, "string.quoted.double.budstick": text, "constant.numeric.budstick": number,
		"constant.other.date.budstick": date, "keyword.other.unit.budstick": unit,
	}},
	{"Kate", "kate-syntax-highlighter", "kate/budstick.xml", byKate, nil},
}

var vimMeans = map[string]colour{
	"": plain, "budstickDay": day, "budstickVerb": lead, "budstickWord": word, "budstickComment": comment,
	"budstickText": text, "budstickNumber": number, "budstickDate": date, "budstickUnit": unit,
}

// Every editor sees in a journal what the parser sees.
func TestEditorsSeeWhatTheParserSees(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes half a minute")
	}
	for _, e := range editors {
		t.Run(e.name, func(t *testing.T) {
			program, err := exec.LookPath(e.program)
			if err != nil {
				t.Skip(e.program + " is not installed")
			}
			for _, file := range journals(t) {
				e.check(t, program, file)
			}
		})
	}
}

func (e editor) check(t *testing.T, program string, file *source.File) {
	t.Helper()
	want := places(file)
	asked := make([]string, len(want))
	for i, p := range want {
		line := file.Line(p.offset)
		start := file.LineSpan(line).Start
		_, column := file.RowColumn(p.offset, source.UTF16)
		asked[i] = fmt.Sprintln(line, p.offset-start+1, p.offset, column)
	}
	journal := filepath.Join(t.TempDir(), "journal.bud")
	if err := os.WriteFile(journal, file.Bytes, 0o644); err != nil {
		t.Fatal(err)
	}
	syntax, err := filepath.Abs(e.syntax)
	if err != nil {
		t.Fatal(err)
	}
	got := e.colours(t, program, syntax, journal, asked)
	if len(got) != len(want) {
		t.Fatalf("%d colours of %d places", len(got), len(want))
	}
	wrong := 0
	for i, p := range want {
		if is, known := e.meaning(got[i]); !known || is != p.is && !(is == number && p.is == date) {
			line := file.Line(p.offset)
			t.Errorf("%s:%d: at %q it is %s (%s), and by the parser %s", filepath.Base(file.Path), line,
				file.Text(source.Span{Start: p.offset, End: file.LineSpan(line).End}), is, got[i], p.is)
			if wrong++; wrong > 10 {
				return
			}
		}
	}
}

// meaning is the colour that the editor's own word stands for.
func (e editor) meaning(own string) (colour, bool) {
	if e.means == nil {
		return colour(own), own != ""
	}
	if strings.HasPrefix(own, "budstickWord_") {
		own = "budstickWord"
	}
	if strings.HasPrefix(own, "budstickEntry_") {
		own = ""
	}
	c, ok := e.means[own]
	return c, ok
}

// ask runs a program that reads the places from one file and writes the colours
// into another.
func ask(t *testing.T, c *exec.Cmd, syntax, journal string, places []string) []string {
	t.Helper()
	folder := t.TempDir()
	in, out := filepath.Join(folder, "places"), filepath.Join(folder, "colours")
	if err := os.WriteFile(in, []byte(strings.Join(places, "")), 0o644); err != nil {
		t.Fatal(err)
	}
	c.Env = append(os.Environ(), "SYNTAX="+syntax, "JOURNAL="+journal, "PLACES="+in, "COLOURS="+out, "LC_ALL=C.UTF-8", "HOME="+folder)
	said, err := c.CombinedOutput()
	if exit := (*exec.ExitError)(nil); err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	colours, err := os.ReadFile(out)
	if err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	return strings.Split(strings.TrimSuffix(string(colours), "\n"), "\n")
}

func byVim(args ...string) func(t *testing.T, program, syntax, journal string, places []string) []string {
	return func(t *testing.T, program, syntax, journal string, places []string) []string {
		script, err := filepath.Abs("testdata/colours.vim")
		if err != nil {
			t.Fatal(err)
		}
		return ask(t, exec.Command(program, append(args, "-S", script)...), syntax, journal, places)
	}
}

func byEmacs(t *testing.T, program, syntax, journal string, places []string) []string {
	return ask(t, exec.Command(program, "-Q", "--batch", "-l", "testdata/colours.el"), syntax, journal, places)
}

// byTextMate needs the libraries that VS Code colours with; npm ci in vscode
// brings them.
func byTextMate(t *testing.T, program, syntax, journal string, places []string) []string {
	modules, err := filepath.Abs("vscode")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(modules, "node_modules", "vscode-textmate")); err != nil {
		t.Skip("the libraries are not here: npm ci in grammar/editor/vscode brings them")
	}
	t.Setenv("MODULES", modules)
	return ask(t, exec.Command(program, "testdata/colours.mjs"), syntax, journal, places)
}

var (
	kateItem = regexp.MustCompile(`<itemData name="(\w+)" defStyleNum="\w+"/>`)
	kateSpan = regexp.MustCompile(`<span style="[^"]*color:#0000(\d\d);[^"]*">`)
)

// byKate gives each kind of text a colour of its own and reads the page that
// Kate's highlighter makes.
func byKate(t *testing.T, program, syntax, journal string, places []string) []string {
	data, err := os.ReadFile(syntax)
	if err != nil {
		t.Fatal(err)
	}
	var kinds []string
	painted := kateItem.ReplaceAllStringFunc(string(data), func(item string) string {
		kinds = append(kinds, kateItem.FindStringSubmatch(item)[1])
		return fmt.Sprintf(`<itemData name="%s" defStyleNum="dsNormal" color="#0000%02d"/>`, kinds[len(kinds)-1], len(kinds))
	})
	home := t.TempDir()
	folder := filepath.Join(home, "org.kde.syntax-highlighting", "syntax")
	if err := os.MkdirAll(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, "budstick.xml"), []byte(painted), 0o644); err != nil {
		t.Fatal(err)
	}
	c := exec.Command(program, journal)
	c.Env = append(os.Environ(), "XDG_DATA_HOME="+home, "QT_QPA_PLATFORM=offscreen", "LC_ALL=C.UTF-8")
	var complaints bytes.Buffer
	c.Stderr = &complaints
	page, err := c.Output()
	if err != nil || complaints.Len() > 0 {
		t.Fatalf("%v %s", err, complaints.String())
	}
	_, body, _ := strings.Cut(string(page), "<pre>\n")
	body, _, _ = strings.Cut(body, "</pre>")
	colours := kateBytes(body, kinds)
	list := make([]string, len(places))
	for i, p := range places {
		var line, column, offset int
		if _, err := fmt.Sscan(p, &line, &column, &offset); err != nil {
			t.Fatal(err)
		}
		if offset < len(colours) {
			list[i] = colours[offset]
		}
	}
	return list
}

// kateBytes gives the kind of each byte of the journal that a page shows.
func kateBytes(page string, kinds []string) []string {
	var list []string
	kind := "name"
	for page != "" {
		at := strings.IndexByte(page, '<')
		if at < 0 {
			at = len(page)
		}
		for range len(html.UnescapeString(page[:at])) {
			list = append(list, kind)
		}
		page = page[at:]
		kind = "name"
		if m := kateSpan.FindStringSubmatch(page); m != nil && strings.HasPrefix(page, m[0]) {
			var n int
			fmt.Sscan(strings.TrimLeft(m[1], "0"), &n)
			kind = kinds[n-1]
		}
		if end := strings.IndexByte(page, '>'); end >= 0 {
			page = page[end+1:]
		}
	}
	return list
}
