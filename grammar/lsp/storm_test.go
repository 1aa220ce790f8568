package lsp

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/budstick/budstick/grammar/source"
)

// A storm is a client that sends whatever comes to its mind, sound messages and
// broken ones, and keeps its texts as LSP says.
type storm struct {
	*client
	rnd    *rand.Rand
	uris   []string
	texts  map[string]string // of open files
	asked  []string          // ids that must be answered
	broken int
}

// TestStorm sends 10,000 random messages, cut, malformed and out of order. The
// server answers or refuses each, and after each its texts are the client's.
func TestStorm(t *testing.T) {
	seeds, messages := uint64(2), 5000
	if testing.Short() {
		seeds, messages = 1, 1000
	}
	for seed := range seeds {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			t.Parallel()
			newStorm(t, seed).rage(messages)
		})
	}
}

func newStorm(t *testing.T, seed uint64) *storm {
	folder := t.TempDir()
	s := &storm{client: newClient(t, diskOptions()), rnd: rand.New(rand.NewPCG(seed, 1)), texts: map[string]string{}}
	for _, name := range []string{"a.bud", "b é 🌱.bud", "c.bud"} {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, []byte(s.prose(20)), 0o644); err != nil {
			t.Fatal(err)
		}
		s.uris = append(s.uris, uriOfPath(path))
	}
	s.uris = append(s.uris, "untitled:Untitled-1", uriOfPath(filepath.Join(t.TempDir(), "elsewhere.bud")))
	s.client.begin(folder)
	return s
}

func (s *storm) rage(messages int) {
	for range messages {
		s.once()
		s.barrier()
		for _, uri := range s.uris {
			want, open := s.texts[uri]
			if got, there := s.text(uri); there != open || got != want {
				s.t.Fatalf("%s is open: %v, %v there; it is %q, want %q", uri, open, there, got, want)
			}
		}
	}
	s.wait(func() bool {
		return !slices.ContainsFunc(s.asked, func(id string) bool { return s.answers[id] == nil })
	})
	if len(s.refused) < s.broken {
		s.t.Errorf("%d messages were broken, and %d refused", s.broken, len(s.refused))
	}
	if code := s.end(); code != 0 {
		s.t.Errorf("status %d", code)
	}
}

func (s *storm) prose(most int) string {
	var b strings.Builder
	for range s.rnd.IntN(most + 1) {
		b.WriteString(scraps[s.rnd.IntN(len(scraps))])
	}
	return b.String()
}

func pick[T any](s *storm, list []T) T { return list[s.rnd.IntN(len(list))] }

func (s *storm) once() {
	switch n := s.rnd.IntN(100); {
	case n < 40:
		s.typeSomething()
	case n < 50:
		s.openSomething()
	case n < 54:
		s.closeSomething()
	case n < 75:
		s.askSomething()
	case n < 90:
		s.breakSomething()
	default:
		s.sayNonsense()
	}
}

func (s *storm) openSomething() {
	uri := pick(s, s.uris)
	s.texts[uri] = s.prose(30)
	s.open(uri, s.texts[uri], s.rnd.IntN(100))
}

func (s *storm) closeSomething() {
	uri := pick(s, s.uris)
	delete(s.texts, uri)
	s.notify("textDocument/didClose", object{"textDocument": object{"uri": uri}})
}

// typeSomething sends edits, of a file that may not be open; or one of them is
// no edit, and none is made.
func (s *storm) typeSomething() {
	uri := pick(s, s.uris)
	text, open := s.texts[uri]
	var changes []object
	sound := true
	for range 1 + s.rnd.IntN(3) {
		with := s.prose(3)
		switch s.rnd.IntN(20) {
		case 0:
			text = with
			changes = append(changes, object{"text": with})
		case 1:
			sound = false
			changes = append(changes, object{"range": s.nowhere(text), "text": with})
		case 2:
			sound = false
			changes = append(changes, object{"range": span{}})
		default:
			var at span
			at, text = s.place(text, with)
			changes = append(changes, object{"range": at, "text": with})
		}
	}
	if open && sound {
		s.texts[uri] = text
	}
	s.notify("textDocument/didChange", object{"textDocument": object{"uri": uri, "version": s.rnd.IntN(1000)}, "contentChanges": changes})
}

// place is a place of a text, and the text with other text there.
func (s *storm) place(text, with string) (span, string) {
	f := source.New("", []byte(text))
	at := func() (position, int32) {
		off := int32(s.rnd.IntN(len(text) + 1))
		row, column := f.RowColumn(off, source.UTF16)
		off, _ = f.RowOffset(row, column, source.UTF16)
		if s.rnd.IntN(10) == 0 { // behind the end of its line
			column += 500
			off, _ = f.RowOffset(row, column, source.UTF16)
		}
		return position{row, column}, off
	}
	from, start := at()
	to, end := at()
	if end < start {
		from, to, start, end = to, from, end, start
	}
	if s.rnd.IntN(3) > 0 { // people mostly type and do not replace
		to, end = from, start
	}
	return span{from, to}, text[:start] + with + text[end:]
}

// nowhere is a range that the text does not have.
func (s *storm) nowhere(text string) span {
	rows := source.New("", []byte(text)).Rows()
	return pick(s, []span{
		{position{rows, 0}, position{rows, 0}}, {position{0, 0}, position{rows + 5, 1}}, {position{-1, 0}, position{0, 0}},
		{position{0, -1}, position{0, 0}}, {position{rows + 1, 3}, position{0, 0}},
	})
}

// askSomething sends a request of any kind, with parameters that may fit.
func (s *storm) askSomething() {
	methods := []string{"initialize", "no/such/method", "$/none", ""}
	for method := range requests {
		if method != "shutdown" {
			methods = append(methods, method)
		}
	}
	slices.Sort(methods)
	uri := pick(s, s.uris)
	text := s.texts[uri]
	at, _ := s.place(text, "")
	if s.rnd.IntN(10) == 0 {
		at = s.nowhere(text)
	}
	var params any = object{
		"textDocument": object{"uri": uri}, "position": at.Start, "range": at, "newName": pick(s, []string{"X1", "", "a b", "AM26", "\n", "🌱"}),
		"query": s.prose(1), "ch": pick(s, []string{"\n", "x"}), "context": object{"includeDeclaration": s.rnd.IntN(2) == 0}, "options": object{},
	}
	switch s.rnd.IntN(12) {
	case 0:
		params = pick(s, []any{nil, 5, "x", []int{1}, object{}, object{"textDocument": 7}, object{"position": "here"}})
	case 1:
		params = object{"textDocument": object{"uri": uri}, "position": object{"line": "1", "character": 1e300}}
	case 2:
		params = object{"textDocument": object{"uri": pick(s, []string{"", "file:///", "file:///%zz", "\x00", "http://x/y.bud", "file://host/share/x.bud"})}, "position": at.Start}
	}
	id := s.ask(pick(s, methods), params)
	s.asked = append(s.asked, id)
	if s.rnd.IntN(4) == 0 {
		s.notify("$/cancelRequest", object{"id": pick(s, []any{s.next, "x", 1 << 40, nil, 1.5})})
	}
}

// breakSomething sends what is no message; the server refuses it.
func (s *storm) breakSomething() {
	body := toJSON(object{"jsonrpc": "2.0", "method": "textDocument/didChange", "params": object{
		"textDocument": object{"uri": pick(s, s.uris), "version": 1}, "contentChanges": []object{{"text": s.prose(20)}},
	}})
	s.broken++
	switch s.rnd.IntN(8) {
	case 0: // cut, and framed
		body = body[:1+s.rnd.IntN(len(body)-1)]
		s.send(body)
	case 1: // cut, and not
		s.raw(fmt.Sprintf("Content-Length: %d\r\n\r\n%s", len(body), body[:len(body)-1-s.rnd.IntN(30)]))
	case 2:
		s.raw(longer(body, -1-s.rnd.IntN(len(body)-1)))
	case 3:
		s.raw(longer(body, 1+s.rnd.IntN(20)))
	case 4:
		s.raw(pick(s, []string{
			"Content-Length: x\r\n\r\n", "Content-Length: -1\r\n\r\n", "Content-Length: 0\r\n\r\n", "garbage\r\n", "\x00\xff: \x01\r\n\r\n",
			"Content-Type: y\r\n\r\n", body + "\r\n", strings.Repeat("x", 9000), strings.Repeat("{", 9000) + "\n",
		}))
	case 5: // noise in the middle
		b := []byte(body)
		for range 1 + s.rnd.IntN(5) {
			b[s.rnd.IntN(len(b))] = 0xff
		}
		b[0] = 0xff
		s.send(string(b))
	case 6:
		s.send(pick(s, []string{`{}`, `[]`, `null`, `5`, `"x"`, `[{"method":"exit"}]`, `{"id":1,"id":{},"method":"x"}`, strings.Repeat("[", 20_000)}))
	case 7:
		s.send(pick(s, []string{`{"jsonrpc":"2.0","id":[],"method":"shutdown"}`, `{"method":7}`, `{"jsonrpc":"2.0","method":"exit","result":1}`}))
	}
}

// sayNonsense sends messages that are sound and mean nothing here, or the right
// ones with parameters of any shape.
func (s *storm) sayNonsense() {
	methods := []string{"$/progress", "$/setTrace", "initialized", "textDocument/didSave", "workspace/didChangeConfiguration", "no/such", ""}
	for method := range notifications {
		methods = append(methods, method)
	}
	slices.Sort(methods)
	params := pick(s, []any{
		nil, 5, []int{}, object{}, object{"textDocument": object{}}, object{"textDocument": object{"uri": 5}}, object{"contentChanges": "x"},
		object{"changes": []object{{"uri": pick(s, s.uris), "type": 1 + s.rnd.IntN(3)}, {"uri": "file:///nowhere/x.bud", "type": 2}}},
		object{"changes": []int{1}},
	})
	method := pick(s, methods)
	if method == "textDocument/didOpen" || method == "textDocument/didClose" || method == "textDocument/didChange" {
		params = pick(s, []any{nil, 5, "x", []int{1}, object{"textDocument": 7}, object{"textDocument": object{"uri": 5}}})
	}
	switch s.rnd.IntN(3) {
	case 0:
		s.send(pick(s, []string{`{"jsonrpc":"2.0","id":12345,"result":null}`, `{"jsonrpc":"2.0","id":"q","error":{"code":1,"message":"no"}}`, `{"jsonrpc":"2.0","id":null,"method":"x"}`}))
	default:
		s.notify(method, params)
	}
}
