package lsp

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/tools/txtar"

	"github.com/budstick/budstick/grammar/source"
)

var update = flag.Bool("update", false, "write anew what sessions expect")

// TestSessions plays the sessions of testdata/lsp over real pipes. An archive
// holds the files of a journal and a file "session": lines that begin with > are
// what the editor does, and what follows each is what came of it. Places are
// written row:column and count from 0, as LSP does; see session.do for what an
// editor can do.
func TestSessions(t *testing.T) {
	archives, err := filepath.Glob("../../testdata/lsp/*.txtar")
	if err != nil || len(archives) == 0 {
		t.Fatal("there are no sessions")
	}
	for _, path := range archives {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".txtar"), func(t *testing.T) { play(t, path) })
	}
}

func play(t *testing.T, path string) {
	a, err := txtar.ParseFile(path)
	if err != nil {
		t.Fatal(err)
	}
	s := session{folder: t.TempDir(), texts: map[string]*source.File{}, committed: map[string]string{}}
	script := -1
	for i, f := range a.Files {
		name, inGit := strings.CutPrefix(f.Name, "committed/")
		switch {
		case f.Name == "session":
			script = i
		case inGit:
			s.committed[filepath.Join(s.folder, name)] = string(f.Data)
		default:
			if err := os.WriteFile(filepath.Join(s.folder, f.Name), f.Data, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
	o := diskOptions()
	o.Committed = func(path string) (*source.File, error) {
		if text, ok := s.committed[path]; ok {
			return source.New(path, []byte(text)), nil
		}
		return nil, nil
	}
	s.client = newClient(t, o)
	for line := range strings.Lines(string(a.Files[script].Data)) {
		if command, ok := strings.CutPrefix(line, "> "); ok {
			fmt.Fprintf(&s.out, "> %s", command)
			s.do(strings.TrimSpace(command))
		}
	}
	if bytes.Equal(s.out.Bytes(), a.Files[script].Data) {
		return
	}
	if *update {
		a.Files[script].Data = s.out.Bytes()
		if err := os.WriteFile(path, txtar.Format(a), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	t.Errorf("the session went differently:\n%s", s.out.String())
}

// A session is an editor at work on the files of an archive.
type session struct {
	*client
	folder    string
	texts     map[string]*source.File // open files, by name
	versions  map[string]int
	committed map[string]string
	encoding  source.Encoding
	out       bytes.Buffer
}

func (s *session) uri(name string) string { return uriOfPath(filepath.Join(s.folder, name)) }

// local makes a message read the same wherever it was played.
func (s *session) local(text string) string {
	return strings.ReplaceAll(strings.ReplaceAll(text, uriOfPath(s.folder)+"/", ""), s.folder+string(filepath.Separator), "")
}

func (s *session) say(format string, args ...any) {
	s.out.WriteString(s.local(fmt.Sprintf(format, args...)) + "\n")
}

// do does one thing and says what came of it.
func (s *session) do(command string) {
	word, rest, _ := strings.Cut(command, " ")
	name, rest, _ := strings.Cut(rest, " ")
	switch word {
	case "begin": // begin utf-8
		if name == "utf-8" {
			s.encoding = source.UTF8
		}
		s.begin(s.folder, name)
	case "open": // open FILE
		b, err := os.ReadFile(filepath.Join(s.folder, name))
		if err != nil {
			s.t.Fatal(err)
		}
		s.texts[name] = source.New(name, b)
		s.open(s.uri(name), string(b), 1)
		s.findings(name)
	case "type": // type FILE row:column[-row:column] "text"
		s.typeText(name, rest)
		s.findings(name)
	case "close": // close FILE
		s.notify("textDocument/didClose", s.about(name))
		delete(s.texts, name)
		s.barrier()
	case "findings": // findings FILE
		s.findings(name)
	case "end":
		s.say("status %d", s.end())
	default:
		s.request(word, name, rest)
	}
}

// about is the parameters of a request about a file, and more.
func (s *session) about(name string, more ...any) object {
	o := object{"textDocument": object{"uri": s.uri(name)}}
	for i := 0; i < len(more); i += 2 {
		o[more[i].(string)] = more[i+1]
	}
	return o
}

// place reads row:column.
func (s *session) place(text string) position {
	row, column, ok := strings.Cut(text, ":")
	r, err1 := strconv.Atoi(row)
	c, err2 := strconv.Atoi(column)
	if !ok || err1 != nil || err2 != nil {
		s.t.Fatalf("%q is no place; write row:column", text)
	}
	return position{r, c}
}

// stretch reads row:column-row:column, or one place.
func (s *session) stretch(text string) span {
	from, to, two := strings.Cut(text, "-")
	if !two {
		to = from
	}
	return span{s.place(from), s.place(to)}
}

func (s *session) typeText(name, rest string) {
	where, quoted, _ := strings.Cut(rest, " ")
	text, err := strconv.Unquote(quoted)
	if err != nil {
		s.t.Fatalf("%s is no text in quotes", quoted)
	}
	at := s.stretch(where)
	s.change(name, textEdit{at, text})
}

// change makes edits, which are apart, in a text and tells the server of them.
func (s *session) change(name string, list ...textEdit) {
	slices.SortFunc(list, func(a, b textEdit) int {
		if a.Range.Start.before(b.Range.Start) {
			return 1
		}
		return -1
	})
	var changes []object
	for _, e := range list {
		f := s.texts[name]
		start, _ := f.RowOffset(e.Range.Start.Line, e.Range.Start.Character, s.encoding)
		end, _ := f.RowOffset(e.Range.End.Line, e.Range.End.Character, s.encoding)
		text := string(f.Bytes[:start]) + e.NewText + string(f.Bytes[end:])
		s.texts[name] = source.New(name, []byte(text))
		changes = append(changes, object{"range": e.Range, "text": e.NewText})
	}
	if s.versions == nil {
		s.versions = map[string]int{}
	}
	s.versions[name]++
	s.notify("textDocument/didChange", object{
		"textDocument": object{"uri": s.uri(name), "version": 1 + s.versions[name]}, "contentChanges": changes,
	})
}

func (s *session) findings(name string) {
	s.settle()
	s.mu.Lock()
	p := s.found[s.uri(name)]
	s.mu.Unlock()
	words := map[int]string{1: "error", 2: "warning", 3: "information"}
	for _, d := range p.Diagnostics {
		s.say("%s %s: %s [%s]", show(d.Range), words[d.Severity], d.Message, d.Code)
		for _, r := range d.Related {
			s.say("  see %s %s: %s", r.Location.URI, show(r.Location.Range), r.Message)
		}
	}
}

func show(r span) string {
	start := fmt.Sprintf("%d:%d", r.Start.Line, r.Start.Character)
	if r.Start == r.End {
		return start
	}
	return fmt.Sprintf("%s-%d:%d", start, r.End.Line, r.End.Character)
}

// lines writes text with its blank lines left out.
func (s *session) lines(text string) {
	for line := range strings.SplitSeq(text, "\n") {
		if line != "" {
			s.say("%s", line)
		}
	}
}

// request asks the server for something about a file.
func (s *session) request(word, name, rest string) {
	at := func() object { return s.about(name, "position", s.place(rest)) }
	within := func() object { return s.about(name, "range", s.stretch(rest)) }
	switch word {
	case "hover": // hover FILE row:column
		var h *hovered
		if s.ok(s.call("textDocument/hover", at(), &h)) && h != nil {
			s.say("%s", show(h.Range))
			s.lines(h.Contents.Value)
		}
	case "complete": // complete FILE row:column [LABEL, …]
		s.completions(name, rest)
	case "define":
		var l *location
		if s.ok(s.call("textDocument/definition", at(), &l)) && l != nil {
			s.say("%s %s", l.URI, show(l.Range))
		}
	case "refer":
		var list []location
		if s.ok(s.call("textDocument/references", s.about(name, "position", s.place(rest), "context", object{"includeDeclaration": true}), &list)) {
			for _, l := range list {
				s.say("%s %s", l.URI, show(l.Range))
			}
		}
	case "highlight":
		var list []documentHighlight
		s.ok(s.call("textDocument/documentHighlight", at(), &list))
		for _, h := range list {
			s.say("%s %s", show(h.Range), map[int]string{2: "read", 3: "write"}[h.Kind])
		}
	case "rename": // rename FILE row:column NAME
		where, to, _ := strings.Cut(rest, " ")
		var e workspaceEdit
		if s.ok(s.call("textDocument/rename", s.about(name, "position", s.place(where), "newName", to), &e)) {
			s.edit(e)
		}
	case "prepare": // prepare FILE row:column, before a rename
		var p *struct {
			Range       span
			Placeholder string
		}
		if s.ok(s.call("textDocument/prepareRename", at(), &p)) && p != nil {
			s.say("%s %s", show(p.Range), p.Placeholder)
		}
	case "symbols":
		var list []symbol
		s.ok(s.call("textDocument/documentSymbol", s.about(name), &list))
		s.symbols(list, "")
	case "find": // find QUERY
		var list []flatSymbol
		s.ok(s.call("workspace/symbol", object{"query": name}, &list))
		for _, one := range list {
			s.say("%s %s %s", one.Name, one.Location.URI, show(one.Location.Range))
		}
	case "format":
		s.laidOut(name, "textDocument/formatting", s.about(name))
	case "formatrange":
		s.laidOut(name, "textDocument/rangeFormatting", within())
	case "newline": // newline FILE row:column
		s.laidOut(name, "textDocument/onTypeFormatting", s.about(name, "position", s.place(rest), "ch", "\n"))
	case "fold":
		var list []fold
		s.ok(s.call("textDocument/foldingRange", s.about(name), &list))
		for _, f := range list {
			s.say("%s", strings.TrimSpace(fmt.Sprintf("%d-%d %s", f.StartLine, f.EndLine, f.Kind)))
		}
	case "tokens": // tokens FILE row:column-row:column
		var data semanticData
		s.ok(s.call("textDocument/semanticTokens/range", within(), &data))
		s.tokens(name, data)
	case "hints":
		var list []hint
		s.ok(s.call("textDocument/inlayHint", within(), &list))
		for _, h := range list {
			s.say("%d:%d %s", h.Position.Line, h.Position.Character, h.Label)
		}
	case "actions":
		var list []action
		s.ok(s.call("textDocument/codeAction", s.about(name, "range", s.stretch(rest), "context", object{"diagnostics": []int{}}), &list))
		for i, a := range list {
			s.say("%d. %s [%s]", i+1, a.Title, a.Diagnostics[0].Code)
		}
	case "act": // act FILE row:column NUMBER
		where, number, _ := strings.Cut(rest, " ")
		n, _ := strconv.Atoi(number)
		var list []action
		if s.ok(s.call("textDocument/codeAction", s.about(name, "range", s.stretch(where), "context", object{"diagnostics": []int{}}), &list)) {
			s.edit(list[n-1].Edit)
			s.findings(name)
		}
	default:
		s.t.Fatalf("no editor can %s", word)
	}
}

// ok says what went wrong, if something did.
func (s *session) ok(err error) bool {
	if err != nil {
		s.say("refused: %v", err)
	}
	return err == nil
}

// completions shows what is offered, or of that only some labels.
func (s *session) completions(name, rest string) {
	where, only, _ := strings.Cut(rest, " ")
	var list completionList
	if !s.ok(s.call("textDocument/completion", s.about(name, "position", s.place(where)), &list)) {
		return
	}
	slices.SortStableFunc(list.Items, func(a, b completionItem) int { return strings.Compare(a.SortText, b.SortText) })
	for _, item := range list.Items {
		if only == "" || slices.Contains(strings.Split(only, ", "), item.Label) {
			s.say("%s", strings.TrimSpace(fmt.Sprintf("%s %q %s", show(item.TextEdit.Range), item.TextEdit.NewText, item.Detail)))
		}
	}
}

// edit makes what the server offers, and shows the lines that changed.
func (s *session) edit(e workspaceEdit) {
	slices.SortFunc(e.DocumentChanges, func(a, b documentEdit) int { return strings.Compare(a.TextDocument.URI, b.TextDocument.URI) })
	for _, d := range e.DocumentChanges {
		name := s.local(d.TextDocument.URI)
		if s.texts[name] == nil {
			for _, one := range d.Edits {
				s.say("%s %s %q", name, show(one.Range), one.NewText)
			}
			continue
		}
		s.apply(name, d.Edits)
	}
}

func (s *session) apply(name string, list []textEdit) {
	before := strings.Split(string(s.texts[name].Bytes), "\n")
	s.change(name, list...)
	after := strings.Split(string(s.texts[name].Bytes), "\n")
	for i, line := range after {
		if i >= len(before) || before[i] != line {
			s.say("%s %d: %s", name, i, strings.TrimSuffix(line, "\r"))
		}
	}
}

func (s *session) laidOut(name, method string, params object) {
	var list []textEdit
	params["options"] = object{"tabSize": 2, "insertSpaces": true}
	if s.ok(s.call(method, params, &list)) {
		s.apply(name, list)
	}
}

func (s *session) symbols(list []symbol, indent string) {
	for _, one := range list {
		s.say("%s%s %s %s", indent, one.Name, show(one.SelectionRange), one.Detail)
		s.symbols(one.Children, indent+"  ")
	}
}

// tokens shows each token with its type.
func (s *session) tokens(name string, data semanticData) {
	row, column := 0, 0
	for i := 0; i+4 < len(data.Data); i += 5 {
		if data.Data[i] > 0 {
			row, column = row+int(data.Data[i]), 0
		}
		column += int(data.Data[i+1])
		start, _ := s.texts[name].RowOffset(row, column, s.encoding)
		end, _ := s.texts[name].RowOffset(row, column+int(data.Data[i+2]), s.encoding)
		made := ""
		if data.Data[i+4] == 1 {
			made = " declaration"
		}
		s.say("%d:%d %s %s%s", row, column, s.texts[name].Bytes[start:end], tokenTypes[data.Data[i+3]], made)
	}
}
